"""The console script: Ctrl-C is heard while the command line's own modules are imported, too."""

import signal
import sys
from typing import NoReturn


def run() -> NoReturn:
    """Run the command line and end the program with its status.

    A request to end is heard like Ctrl-C, so that nothing half-written is left.
    """
    signal.signal(signal.SIGTERM, signal.default_int_handler)
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
