"""What each of the server's processes runs."""

import os
import signal
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from flask import Flask


def app() -> "Flask":
    """The web app, in a process that stops when the one that started it says so.

    Ctrl-C in a terminal reaches every process of the group at once, and a worker that hears both that and the word of
    the process that started it stops for neither: so it leaves the group. Until it serves, the word ends it.
    """
    signal.signal(signal.SIGTERM, signal.SIG_DFL)
    if hasattr(os, "setpgrp"):
        os.setpgrp()
    from yardapp import create_app

    return create_app()
