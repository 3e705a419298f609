#!/usr/bin/env python3
"""Install what the tests need, build the site, and run every test.

    python3 tests/run.py [pytest arguments]

It may be run again at any time; what is there already is not made again. The exit status is 0 only if
everything passed. The arguments go to pytest, which runs the Python, parity and browser tests.
"""

import os
import subprocess
import sys
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
OLDEST_PYTHON = (3, 11)


def main(arguments: "list[str]") -> int:
    """Run everything; returns the exit status."""
    if sys.version_info < OLDEST_PYTHON:
        print("tuckfold: this Python is too old: use Python 3.11 or newer", file=sys.stderr)
        return 1
    sys.path.insert(0, str(ROOT / "web"))
    from build.commands import find_node
    from build.debian import install_needs
    from build.environment import make_environment, venv_python
    from build.failure import BuildError
    from build.pins import read_pins
    from build.places import places
    from build.site import build_site, step

    at = places(ROOT)
    pins = read_pins(at.web / "pins.json")
    try:
        # Said first, for neither pip nor apt-get would bring it.
        node, npm = find_node(oldest=pins.node)
        step("system packages", install_needs)
        step("test environment", lambda: make_environment(at, pins))
        build_site(at)
    except BuildError as wrong:
        print(f"tuckfold: {wrong}", file=sys.stderr)
        return 1

    python, packages = str(venv_python(at)), at.node_modules
    steps: list[tuple[str, list[str | Path], Path]] = [
        ("ruff check", [python, "-m", "ruff", "check", "."], ROOT),
        ("ruff format", [python, "-m", "ruff", "format", "--check", "."], ROOT),
        ("mypy", [python, "-m", "mypy"], ROOT),
        ("TypeScript types", [node, packages / "typescript" / "bin" / "tsc", "--noEmit"], at.web),
        ("TypeScript rules", [npm, "run", "--silent", "lint"], at.web),
        ("TypeScript and CSS format", [npm, "run", "--silent", "format:check"], at.web),
        ("TypeScript tests", [node, packages / "vitest" / "vitest.mjs", "run"], at.web),
        ("Python, parity and browser tests", [python, "-m", "pytest", *arguments], ROOT),
    ]
    return report([(name, *timed(name, command, cwd)) for name, command, cwd in steps])


def timed(name: str, command: "list[str | Path]", cwd: Path) -> "tuple[int, float]":
    """Run one step; returns its exit status and seconds."""
    print(f"\n=== {name}", flush=True)
    started = time.monotonic()
    status = subprocess.run(
        [str(part) for part in command], cwd=cwd, env=dict(os.environ), check=False
    ).returncode
    return status, time.monotonic() - started


def report(results: "list[tuple[str, int, float]]") -> int:
    """Print one line for each step; returns the exit status."""
    print("\n=== summary")
    for name, status, seconds in results:
        verdict = "passed" if status == 0 else f"FAILED (exit status {status})"
        print(f"{seconds:7.1f} s  {name}: {verdict}")
    failed = sum(status != 0 for _name, status, _seconds in results)
    print(f"{len(results) - failed} passed, {failed} failed", flush=True)
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
