"""The console script: Ctrl-C is heard while the command line's own modules are imported, too."""

import sys
from typing import NoReturn


def run() -> NoReturn:
    """Run the command line and end the program with its status."""
    try:
        # Only here, where Ctrl-C no longer ends in a traceback.
        from pycore.cli.main import main, prepare

        prepare()
        status = main()
    except KeyboardInterrupt:
        # The language is not chosen yet.
        sys.stderr.write("tuckfold: Stopped.\n")
        status = 1
    sys.exit(status)
