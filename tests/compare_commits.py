#!/usr/bin/env python3
"""Compare the bytes of all outputs between two commits: print files, models, client pages, proofs, figures.

    python3 tests/compare_commits.py OLD [NEW]

Both are checked out into a temporary folder and run there by this interpreter, which has what they need. Each
output that differs is listed; the exit status is 0 where none does. The viewer's program inside the client
page, which is built from the page's sources, is left out of the comparison.
"""

from __future__ import annotations

import argparse
import hashlib
import json
import os
import re
import subprocess
import sys
import tempfile
from collections.abc import Sequence
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
DAY = "2031-04-30"

#: Jobs that between them use every kind of side, finish, conversion and group; sizes are small.
JOBS: dict[str, tuple[str, ...]] = {
    "mirror": (),
    "soft": ("sides.blur_mm=6", "wrap.finish=lapped", "wrap.corners=cut-back"),
    "run-on": ("sides.fill=run-on", "picture.turn=90"),
    "drawn": ("sides.fill=drawn-out", "wrap.finish=trimmed", "wrap.over=left-right"),
    "plain": ("sides.fill=plain", "sides.colour=#405060", "canvas.stretch_percent=[1, 0.5]"),
    "fade": ("sides.fill=fade", 'picture.crop={"x":0.1,"y":0.1,"width":0.6,"height":0.7}'),
    "continued": ("sides.fill=continued",),
    "brought": ("colour.bring_in=1", "colour.intent=perceptual"),
    "converted": ("print.convert=convert",),
    "group": ("group.panels=3", "group.gap_mm=20", "wrap.turnover_mm=20", "sides.left.fill=plain"),
}
SIZES = ("face.width_mm=160", "face.height_mm=120", "bars.depth_mm=18", "print.ppi=100")

#: Each command with the ending of its output; those without one print figures.
COMMANDS: dict[str, tuple[tuple[str, ...], str]] = {
    "tiff": (("print", "{picture}", "--date", DAY), ".tif"),
    "png": (("print", "{picture}", "--date", DAY), ".png"),
    "jpeg": (("print", "{picture}", "--date", DAY), ".jpg"),
    "model": (("model", "{picture}", "--texture-px", "60000"), ".glb"),
    "client": (("client", "{picture}", "--date", DAY), ".html"),
    "proof": (("proof", "{picture}"), ".png"),
    "layout": (("layout", "{picture}"), ""),
    "fold": (("fold",), ""),
    "edges": (("edges", "{picture}"), ""),
    "clip": (("clip", "{picture}"), ""),
    "intents": (("intents", "{picture}"), ""),
    "compare": (("compare", "{picture}", "--depths", "12,18"), ""),
}


def main(arguments: Sequence[str] | None = None) -> int:
    """Compare; returns the exit status."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("old", help="a commit")
    parser.add_argument("new", nargs="?", default="HEAD", help="another; HEAD where none is named")
    parser.add_argument("--jobs", nargs="*", choices=JOBS, default=list(JOBS), help="only these")
    parser.add_argument("--commands", nargs="*", choices=COMMANDS, default=list(COMMANDS), help="only these")
    options = parser.parse_args(arguments)
    with tempfile.TemporaryDirectory() as temporary:
        folder = Path(temporary)
        found = [
            digests(checkout(commit, folder / name), folder / f"{name}-out", options.jobs, options.commands)
            for name, commit in (("old", options.old), ("new", options.new))
        ]
    old, new = found
    differing = sorted(name for name in old.keys() | new.keys() if old.get(name) != new.get(name))
    for name in differing:
        print(f"differs: {name}")
    print(f"{len(old.keys() | new.keys()) - len(differing)} outputs equal, {len(differing)} differ")
    return 1 if differing else 0


def checkout(commit: str, folder: Path) -> Path:
    """The files of a commit in a folder of their own."""
    folder.mkdir()
    archive = subprocess.run(["git", "archive", commit], cwd=ROOT, capture_output=True, check=True)
    subprocess.run(["tar", "-x"], input=archive.stdout, cwd=folder, check=True)
    return folder


def digests(tree: Path, out: Path, jobs: Sequence[str], commands: Sequence[str]) -> dict[str, str]:
    """The digest of every output of a checkout, by job and command."""
    out.mkdir()
    picture = tree / "demo_data" / "estuary.jpg"
    found = {}
    for job in jobs:
        sets = [part for edit in (*SIZES, *JOBS[job]) for part in ("--set", edit)]
        for command in commands:
            words, ending = COMMANDS[command]
            file = out / f"{job}-{command}{ending}"
            where = ["--out", str(file)] if ending else []
            named = [word.format(picture=picture) for word in words]
            ran = subprocess.run(
                [sys.executable, "-m", "pycore.cli", *named, *sets, *where, "--json"],
                cwd=tree,
                env={**os.environ, "PYTHONPATH": str(tree)},
                capture_output=True,
                text=True,
                check=False,
            )
            print(f"{tree.name}: {job} {command}", file=sys.stderr)
            found[f"{job} {command} status"] = str(ran.returncode)
            if not ending:
                found |= figures(f"{job} {command}", ran.stdout)
            for written in sorted(out.glob(f"{job}-{command}*{ending}")) if ending else ():
                found[written.name] = hashlib.sha256(without_viewer(written)).hexdigest()
    return found


def figures(name: str, printed: str) -> dict[str, str]:
    """Each top-level figure by itself, so that a difference has a name."""
    try:
        tree = json.loads(printed)
    except ValueError:
        return {name: printed}
    return {f"{name} {key}": json.dumps(value, sort_keys=True) for key, value in tree.items()}


def without_viewer(file: Path) -> bytes:
    """A file's bytes; of a client page without the viewer's program and its digest."""
    data = file.read_bytes()
    if file.suffix != ".html":
        return data
    data = re.sub(rb"<script>.*?</script>", b"", data, flags=re.DOTALL)
    return re.sub(rb"script-src '[^']*'", b"", data)


if __name__ == "__main__":
    sys.exit(main())
