#!/usr/bin/env python3
"""Build the site where anything changed, and serve it on this machine.

    python3 web/serve.py [--port N]
    python3 web/serve.py --build-only [--no-packing]
    python3 web/serve.py --wheel FOLDER

Nothing beside Python's standard library is needed to start; what the site needs is fetched, checked against
the hashes in web/pins.json and kept in the user's cache folder. It may be run again at any time.
"""

import argparse
import sys
from pathlib import Path

OLDEST_PYTHON = (3, 11)
DEFAULT_PORT = 8017


def main(arguments: "list[str] | None" = None) -> int:
    """Run the command line; returns the exit status."""
    if sys.version_info < OLDEST_PYTHON:
        # Said before anything is imported that an older Python could not read.
        print("tuckfold: this Python is too old: use Python 3.11 or newer", file=sys.stderr)
        return 1
    root = Path(__file__).resolve().parents[1]
    sys.path.insert(0, str(root))
    from build.failure import BuildError
    from build.page_wheel import write_page_wheel
    from build.places import places
    from build.site import build_site
    from build.size_table import size_table

    from pycore.errors import TuckfoldError
    from pycore.serving.server import HOST, handler_for, open_server

    parser = argparse.ArgumentParser(description="Build the Tuckfold page and serve it on this machine.")
    parser.add_argument(
        "--port", type=_port, default=DEFAULT_PORT, help="default: %(default)s; 0: any free one"
    )
    parser.add_argument(
        "--build-only", action="store_true", help="write the site for a static host to web/dist and stop"
    )
    parser.add_argument(
        "--no-packing",
        action="store_true",
        help="with --build-only: leave out the copies by Brotli and gzip, which take minutes after a change",
    )
    parser.add_argument(
        "--wheel", metavar="FOLDER", type=Path, help="write the wheel that brings the page, and stop"
    )
    given = parser.parse_args(arguments)

    at = places(root)
    try:
        # A taken port is told at once, not after minutes of building.
        only = given.build_only or given.wheel is not None
        server = None if only else open_server(at.dist, port=given.port)
        packed = given.build_only and not given.no_packing
        build_site(at, packed=packed)
        if packed:
            print(size_table(at.dist))
        if given.build_only:
            print("The site is in web/dist; any static host can serve it, under any path.")
        if given.wheel is not None:
            print(f"The wheel is {write_page_wheel(at, into=given.wheel)}")
        if server is None:
            return 0
        print(f"Tuckfold is at http://{HOST}:{server.server_port}/ (Ctrl-C ends it)", flush=True)
        # The page that it asks says what may be loaded.
        server.RequestHandlerClass = handler_for(at.dist)
        with server:
            server.serve_forever()
    except (BuildError, TuckfoldError) as wrong:
        print(f"tuckfold: {wrong}", file=sys.stderr)
        return 1
    except KeyboardInterrupt:
        print()
    return 0


def _port(text: str) -> int:
    port = int(text) if text.isascii() and text.isdigit() else -1
    if not 0 <= port <= 65535:
        raise argparse.ArgumentTypeError(f"expected a port from 0 to 65535, got {text!r}")
    return port


if __name__ == "__main__":
    sys.exit(main())
