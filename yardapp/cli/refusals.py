"""Every "no" of a command as one sentence on standard error; anything else is a bug and shows its trace."""

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass

from sqlalchemy.exc import ArgumentError, DBAPIError, NoSuchModuleError

from yardapp.db import Register
from yardapp.errors import YardError


@dataclass
class Outcome:
    """What the shell is told."""

    code: int = 1


@contextmanager
def told() -> Iterator[Outcome]:
    """Run the block; a refusal is said, and the outcome stays 1."""
    outcome = Outcome()
    try:
        yield outcome
    except YardError as refusal:
        _say(str(refusal))
    except KeyboardInterrupt:
        outcome.code = 130
    except BrokenPipeError:
        # Whoever read along has gone, as `head` does: nobody is left to tell, nor to flush to.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    except OSError as fault:
        _say(f"{fault.strerror or fault}: {fault.filename}" if fault.filename else str(fault))
    except DBAPIError as fault:
        if not (fault.statement or "BEGIN").startswith("BEGIN"):
            raise  # the database answered: what it was asked is at fault
        _say(f"The register's database does not answer: {str(fault.orig).strip()}")
    except (ArgumentError, NoSuchModuleError) as fault:
        _say(f"YARDAPP_DATABASE_URL names no database that can be used here: {fault}")
    except ModuleNotFoundError as missing:
        if missing.name != "psycopg":
            raise
        _say("Postgres needs its driver: pip install 'yardapp[postgres]'")
    finally:
        _let_go()


def _let_go() -> None:
    """Close the register's connections, whatever happened."""
    if Register.engine is not None:
        Register.engine.dispose()


def _say(sentence: str) -> None:
    print(sentence, file=sys.stderr, flush=True)
