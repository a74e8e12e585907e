"""`python -m yardapp.cli`: the same commands where the script is not on the path."""

import sys

from yardapp.cli import main

if __name__ == "__main__":  # the server's workers import this file too
    sys.exit(main())
