"""The commands: serve the register, and what its keeper does at the terminal."""

import argparse
import os
import sys
from collections.abc import Sequence
from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    Commands = argparse._SubParsersAction[argparse.ArgumentParser]

ROLES = ("office", "hand", "owner")


def main(words: Sequence[str] | None = None) -> int:
    """Run one command; 0 when it did what was asked, else 1 and a sentence."""
    asked = parser().parse_args(words)
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")  # a terminal without an accent must not stop a command
    from yardapp.cli.refusals import told

    with told() as outcome:
        outcome.code = import_module(f"yardapp.cli.{asked.module}").run(asked)
    return outcome.code


def parser() -> argparse.ArgumentParser:
    """What may be typed. Nothing heavy is imported here: help must come at once."""
    top = argparse.ArgumentParser(prog="yardapp", description="The register of a yard's propellers and shafts.")
    commands = top.add_subparsers(title="commands", required=True, metavar="COMMAND")
    _add_serve(commands)
    _add(commands, "example", "example", "make an invented yard to look around in, beside the real one")
    _add_people(commands)
    token = _add(commands, "token", "token", "print a fresh bearer token for the API, and nothing else")
    token.add_argument("name", help="whose token it is")
    _add(commands, "check", "check", "see whether the register is sound; 0 when it is")
    backup = _add(commands, "backup", "backup", "copy the register, photos and all, into one new file")
    backup.add_argument("file", help="the file to make, such as yard-2026-11-25.tar")
    restore = _add(commands, "restore", "restore", "put a copy back, into an empty data folder")
    restore.add_argument("file", help="the copy's file")
    return top


def _add(commands: "Commands", name: str, module: str, what: str) -> argparse.ArgumentParser:
    command = commands.add_parser(name, help=what, description=what[0].upper() + what[1:] + ".")
    command.add_argument(
        "--data",
        default=os.environ.get("YARDAPP_DATA") or "./yard-data",
        help="the data folder: register, photos, key (YARDAPP_DATA, else ./yard-data)",
    )
    command.set_defaults(module=module)
    return command


def _add_serve(commands: "Commands") -> None:
    serve = _add(commands, "serve", "serve", "serve the register to this machine and to the yard's network")
    serve.add_argument("--port", type=_port, help="the port to listen on (YARDAPP_PORT, else 8480)")
    serve.add_argument("--host", default="0.0.0.0", help="the card to listen on; 127.0.0.1 keeps it to this machine")
    serve.add_argument("--workers", type=_workers, default=2, help="how many processes answer (2)")
    serve.add_argument("--example", action="store_true", help="serve an invented yard; nothing real is touched")
    serve.add_argument(
        "--address",
        default=os.environ.get("YARDAPP_ADDRESS") or "",
        help="the address that phones use, where this machine can't know it, as in a container (YARDAPP_ADDRESS)",
    )


def _port(text: str) -> int:
    if not (text.isascii() and text.isdigit() and 1 <= int(text) <= 65535):
        raise argparse.ArgumentTypeError("a port is a whole number from 1 to 65535")
    return int(text)


def _workers(text: str) -> int:
    if not (text.isascii() and text.isdigit() and 1 <= int(text) <= 64):
        raise argparse.ArgumentTypeError("1 to 64 processes")
    return int(text)


def _add_people(commands: "Commands") -> None:
    """`people add`, `people list`, `people role` and `people gone`: each takes --data after its own name."""
    people = commands.add_parser("people", help="who may do what", description="Who may do what.")
    acts = people.add_subparsers(title="acts", required=True, metavar="ACT", dest="act")
    add = _add(acts, "add", "people", "let somebody in")
    add.add_argument("name")
    add.add_argument("--role", choices=ROLES, required=True)
    add.add_argument("--password-stdin", action="store_true", help="read the password's line from standard input")
    password = _add(acts, "password", "people", "a new password for somebody who forgot theirs")
    password.add_argument("name")
    password.add_argument("--password-stdin", action="store_true", help="read its line from standard input")
    _add(acts, "list", "people", "everybody, with their roles")
    role = _add(acts, "role", "people", "give somebody another role; one who was gone is back")
    role.add_argument("name")
    role.add_argument("role", choices=ROLES)
    _add(acts, "gone", "people", "somebody has left: what they did keeps their name").add_argument("name")
