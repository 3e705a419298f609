"""Times of a batch: with one worker, with two, killed in the middle and taken up again, and planned only.

    python tests/bench_batch.py

The jobs are made from the demo's picture, each of another width. Nothing may be lost or half-written: every
file of every run is compared with that of the first. Times on a machine that does other work say little;
processor time says more.
"""

from __future__ import annotations

import argparse
import hashlib
import json
import os
import resource
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from collections.abc import Sequence
from pathlib import Path
from typing import Any, Final

from PIL import Image

ROOT: Final = Path(__file__).resolve().parents[1]
PICTURE: Final = ROOT / "demo_data" / "estuary.jpg"


def make_jobs(folder: Path, count: int, *, ppi: float, reduced: int = 1) -> None:
    """So many job files beside one picture.

    Parameters
    ----------
    folder : Path
        It must not be there yet.
    count : int
    ppi : float
    reduced : int
        By how much the sides of the picture are divided.
    """
    folder.mkdir(parents=True)
    if reduced == 1:
        shutil.copy(PICTURE, folder / PICTURE.name)
    else:
        with Image.open(PICTURE) as whole:
            whole.reduce(reduced).save(folder / PICTURE.name, icc_profile=whole.info["icc_profile"])
    for number in range(count):
        job = {
            "name": f"Piece {number}",
            "picture": {"file": PICTURE.name},
            "face": {"width_mm": 200 + number % 100, "height_mm": 150},
            "print": {"ppi": ppi},
        }
        (folder / f"piece-{number:04}.json").write_text(json.dumps(job), encoding="utf-8")


def command(jobs: Path, out: Path, *more: str, make: str | None = None) -> list[str]:
    """A batch over a folder, as a command."""
    given = [str(jobs), "--out", str(out), "--date", "2031-04-30", "--json", *more]
    given += ["--make", make] if make else []
    return [sys.executable, "-m", "pycore.cli", "batch", *given]


def environ() -> dict[str, str]:
    """With this checkout's core."""
    return {**os.environ, "PYTHONPATH": str(ROOT)}


def measured(name: str, arguments: list[str]) -> dict[str, Any]:
    """Run a command, say its times, and return what it prints."""
    before, begun = resource.getrusage(resource.RUSAGE_CHILDREN), time.monotonic()
    done = subprocess.run(arguments, env=environ(), capture_output=True, text=True, check=True)
    clock_s, after = time.monotonic() - begun, resource.getrusage(resource.RUSAGE_CHILDREN)
    processor_s = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    report: dict[str, Any] = json.loads(done.stdout)
    print(
        f"{name:<22}{clock_s:7.1f} s on the clock {processor_s:7.1f} s of processor  "
        f"{report['done']} done, {report['skipped']} kept, {report['failed']} not done; "
        f"load {os.getloadavg()[0]:.1f}",
        flush=True,
    )
    return report


def contents(out: Path) -> dict[str, str]:
    """Every file under a final name, with its hash."""
    return {
        path.relative_to(out).as_posix(): hashlib.sha256(path.read_bytes()).hexdigest()
        for path in sorted(out.glob("*/*"))
        if path.is_file() and not path.name.startswith(".")
    }


def kill_in_the_middle(arguments: list[str], out: Path, *, files: int) -> dict[str, str]:
    """Begin a batch, kill all its processes at once when half of its files are there, and say what is there.

    Where it was too late, and all files are there, it is begun once more in an empty folder.
    """
    left: dict[str, str] = {}
    for _ in range(10):
        shutil.rmtree(out, ignore_errors=True)
        with subprocess.Popen(
            arguments, env=environ(), stdout=subprocess.DEVNULL, start_new_session=True
        ) as running:
            while running.poll() is None and len(contents(out) if out.is_dir() else ()) < files // 2:
                time.sleep(0.05)
            if running.poll() is None:
                os.killpg(running.pid, signal.SIGKILL)
        left = contents(out)
        if len(left) < files:
            break
    return left


def main(arguments: Sequence[str] | None = None) -> None:
    """Measure and compare.

    Parameters
    ----------
    arguments : sequence of str, optional
        The process's own by default.

    Raises
    ------
    RuntimeError
        A file is lost, half-written or another than in the first run.
    """
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--jobs", type=int, default=50)
    options.add_argument("--planned", type=int, default=500)
    options.add_argument("--ppi", type=float, default=150)
    options.add_argument("--make", help="only these kinds of output")
    options.add_argument("--reduced", type=int, default=1, help="divides the sides of the picture")
    asked = options.parse_args(arguments)
    with tempfile.TemporaryDirectory() as temporary:
        folder = Path(temporary)
        jobs = folder / "jobs"
        make_jobs(jobs, asked.jobs, ppi=asked.ppi, reduced=asked.reduced)
        one = measured("one worker", command(jobs, folder / "one", "--workers", "1", make=asked.make))
        two = measured("two workers", command(jobs, folder / "two", "--workers", "2", make=asked.make))
        first = contents(folder / "one")
        files = sum(len(job["files"]) for job in one["jobs"])
        expect(len(first) == files and one["failed"] == two["failed"] == 0, "a file is missing")
        expect(contents(folder / "two") == first, "two workers make other files than one")
        killed = folder / "killed"
        left = kill_in_the_middle(
            command(jobs, killed, "--workers", "2", make=asked.make), killed, files=files
        )
        print(f"killed with {len(left)} of {files} files under their names", flush=True)
        expect(len(left) < files, "it was not killed in the middle")
        expect(all(first.get(name) == found for name, found in left.items()), "a file is half-written")
        again = measured("taken up again", command(jobs, killed, "--workers", "2", make=asked.make))
        expect(contents(killed) == first, "a file is lost")
        expect(again["skipped"] > 0, "everything was made again")
        last = measured("nothing left to do", command(jobs, killed, "--workers", "2", make=asked.make))
        expect((last["done"], last["skipped"]) == (0, asked.jobs), "something was made again")
        make_jobs(folder / "many", asked.planned, ppi=asked.ppi, reduced=asked.reduced)
        measured(f"{asked.planned} planned only", command(folder / "many", folder / "planned", "--plan-only"))


def expect(is_so: bool, otherwise: str) -> None:
    """Stop where something is not as it must be."""
    if not is_so:
        raise RuntimeError(otherwise)


if __name__ == "__main__":
    main()
