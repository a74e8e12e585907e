"""`yardapp serve`: make or upgrade the register, say where it is, answer until Ctrl-C."""

import argparse
import os

from yardapp import __version__, backups, config
from yardapp.cli import network, registers, welcome
from yardapp.config import Settings
from yardapp.db import Register, transaction
from yardapp.errors import Refused
from yardapp.marks import services as marks
from yardapp.people import services as people

SECONDS_TO_FINISH = 3  # for pages that are being answered when it is stopped
BLOCKING_THREADS = 2  # more make page reads slower: one interpreter reads one page at a time


def run(asked: argparse.Namespace) -> int:
    """Everything up to Ctrl-C."""
    settings = _example(asked) if asked.example else config.load(asked.data)
    port = asked.port or settings.port
    refusal = network.why_not(asked.host, port)
    if refusal is not None:
        raise Refused(refusal, "port")
    registers.open_at_head(settings)
    welcome.say(f"yardapp {__version__}, register in {settings.data}")
    _greet(settings, asked.example)
    welcome.addresses(asked.host, port, asked.address)
    welcome.say("", "Ctrl-C stops it.")
    _hand_over(settings)
    behind = [marks.keep_working(settings.database_url, welcome.say)]  # what goes on behind the pages
    if not asked.example:
        behind.append(backups.nightly(settings, welcome.say))
    _serve(asked.host, port, asked.workers)
    for one in behind:
        one.set()
    welcome.say("Stopped.")
    return 0


def _example(asked: argparse.Namespace) -> Settings:
    from yardapp.cli.example import example_settings

    return example_settings(asked.data)


def _greet(settings: Settings, is_example: bool) -> None:
    """Who may come in: the invented people, or whoever reads the claim code here."""
    if is_example:
        from yardapp.cli.example import fill

        fill(settings)
        welcome.example_people()
        return
    with transaction() as session:
        people.sweep_answers(session)
        code = people.make_claim_code(session)
    if code is not None:
        welcome.claim(code)


def _hand_over(settings: Settings) -> None:
    """Close this process's own door to the register, and tell the workers where it is."""
    if Register.engine is not None:
        Register.engine.dispose()
    os.environ["YARDAPP_DATA"] = str(settings.data)
    os.environ["YARDAPP_DATABASE_URL"] = settings.database_url
    os.environ["YARDAPP_YARD"] = settings.yard


def _serve(host: str, port: int, workers: int) -> None:
    from granian import Granian
    from granian.constants import Interfaces
    from granian.log import LogLevels

    import yardapp.rooms  # noqa: F401 - read once here: where workers are forked, they have it then

    Granian(
        "yardapp.cli.worker:app",
        factory=True,
        address=host or "0.0.0.0",
        port=port,
        interface=Interfaces.WSGI,
        workers=workers,
        blocking_threads=BLOCKING_THREADS,
        websockets=False,
        log_level=LogLevels.warning,
        respawn_failed_workers=True,
        workers_kill_timeout=SECONDS_TO_FINISH,
    ).serve()
