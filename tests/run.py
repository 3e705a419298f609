#!/usr/bin/env python3
"""Install what the tests need, build the site, and run every test.

    python3 tests/run.py [--quick] [pytest arguments]

`--quick` leaves out the browser, Pyodide and what is slow, and builds no site. It may be run again at any
time; what is there already is not made again. The exit status is 0 only if everything passed. The arguments
go to pytest, which runs the Python, parity and browser tests in three processes; the checks run beside it.
"""

import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
OLDEST_PYTHON = (3, 11)

#: tests/sharing_out.py says which process takes what.
SHARED = ["--no-loadscope-reorder", "--max-worker-restart", "0"]
#: Two cores are kept busy by three processes, as two of them wait for browsers half of the time. Without
#: browsers two are enough.
EVERYTHING = ["-n", "3"]
QUICK = ["-n", "2", "-m", "not browser and not parity and not slow"]

#: The TypeScript tests without a fresh world for each file: a fifth of the work.
VITEST = ["--pool=threads", "--no-isolate"]

#: Files that hold what they held when they were right are not read again.
PRETTIER = ["--cache", "--cache-strategy", "content"]

#: With every core taken, threads inside a matrix product only slow it.
ONE_THREAD = {"OPENBLAS_NUM_THREADS": "1", "OMP_NUM_THREADS": "1"}

#: Empty is as if it were not set: hundreds of processes read here what the first has compiled.
KEEP_COMPILED = {"PYTHONDONTWRITEBYTECODE": ""}

#: What an array leaves is kept for the next one: without this, glibc gives memory back and asks for it again,
#: which is a tenth of the work with pictures. 32 MiB is the most that glibc takes here.
KEEP_MEMORY = {
    "MALLOC_MMAP_THRESHOLD_": str(32 << 20),
    "MALLOC_TRIM_THRESHOLD_": str(256 << 20),
    "MALLOC_TOP_PAD_": str(16 << 20),
}


def main(arguments: "list[str]") -> int:
    """Run everything; returns the exit status."""
    if sys.version_info < OLDEST_PYTHON:
        print("tuckfold: this Python is too old: use Python 3.11 or newer", file=sys.stderr)
        return 1
    if {"-h", "--help"} & set(arguments):
        # Nobody who asks what it does wants it done.
        print(__doc__.strip())
        return 0
    # The build uses the modules of the core that serve the page; they need nothing but Python.
    sys.path[:0] = [str(ROOT / "web"), str(ROOT)]
    from build.commands import find_node
    from build.debian import install_browsers, install_needs, install_windowless
    from build.environment import make_environment, venv_python
    from build.failure import BuildError
    from build.lanes import Program, run_lanes, summary
    from build.page import install_packages
    from build.pins import read_pins
    from build.places import places
    from build.site import build_site, step

    quick = "--quick" in arguments
    given = [one for one in arguments if one != "--quick"]
    at = places(ROOT)
    pins = read_pins(at.web / "pins.json")
    try:
        # Said first, for neither pip nor apt-get would bring it.
        node, npm = find_node(oldest=pins.node)
        step("system packages", install_needs)
        # Each waits for other machines and for one core.
        with ThreadPoolExecutor(1) as beside:
            environment = beside.submit(step, "test environment", lambda: make_environment(at, pins))
            if quick:
                step("npm packages", lambda: install_packages(at, pins, npm=npm))
            else:
                step("Chromium without a window", install_windowless)
                step("other browsers", install_browsers)
                build_site(at)
            environment.result()
    except BuildError as wrong:
        print(f"tuckfold: {wrong}", file=sys.stderr)
        return 1

    python, packages = str(venv_python(at)), at.node_modules
    checks: list[tuple[str, list[str | Path], Path]] = [
        ("ruff check", [python, "-m", "ruff", "check", "."], ROOT),
        ("ruff format", [python, "-m", "ruff", "format", "--check", "."], ROOT),
        ("mypy", [python, "-m", "mypy"], ROOT),
        ("TypeScript types", [node, packages / "typescript" / "bin" / "tsc", "--noEmit"], at.web),
        ("TypeScript rules", [npm, "run", "--silent", "lint"], at.web),
        ("TypeScript and CSS format", [npm, "run", "--silent", "format:check", "--", *PRETTIER], at.web),
        ("TypeScript tests", [node, packages / "vitest" / "vitest.mjs", "run", *VITEST], at.web),
    ]
    name = "Python tests" if quick else "Python, parity and browser tests"
    chosen = [*SHARED, *(QUICK if quick else EVERYTHING), *given]
    tests = Program(name, [python, "-m", "pytest", *chosen], ROOT)
    env = ONE_THREAD | KEEP_COMPILED | KEEP_MEMORY
    outcomes = run_lanes([Program(*check) for check in checks], [tests], env=env)
    print(f"\n=== summary\n{summary(outcomes)}", flush=True)
    return max(int(one.status != 0) for one in outcomes)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
