"""Compares the 107-megapixel print file with libvips, which does the same work, in one run and one table.

    python tests/bench_print.py [--runs 3] [--bits 8] [--share 1]

Both open the same 24-megapixel JPEG, enlarge it in linear light, mirror it on to the sides, leave the
turn-over bare and write an uncompressed TIFF. Each run is a process of its own, the two take turns, and both
may use all cores that this process may. libvips comes with the extra `bench`: pip install -e ".[bench]".

Time is the whole process's work from opening the picture, once everything is imported; memory is the most
that the process held. Figures and ratios are those of the quickest run of each: other work on the machine
only adds to them. Even so processor time says more than the clock there: a program with more threads gets a
greater share of busy cores. `--share` makes picture and face smaller, along a side.
"""

from __future__ import annotations

import argparse
import json
import os
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import numpy as np

ROOT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT))

from pycore.contract.check import check_job  # noqa: E402 (the repository's own core, wherever this is run)
from pycore.contract.job import Job  # noqa: E402
from pycore.layout.grid import PixelGrid, pixel_grid  # noqa: E402
from pycore.layout.window import picture_window  # noqa: E402

#: What the two may differ by on average, in levels of 8 bits: other kernels, another rounding.
_ALIKE = 1.0


def main() -> None:
    parser = argparse.ArgumentParser(description="Compare the print file's time and memory with libvips.")
    parser.add_argument("--runs", type=int, default=3)
    parser.add_argument("--bits", type=int, choices=(8, 16), default=8)
    parser.add_argument("--share", type=float, default=1.0)
    parser.add_argument("--only", choices=("tuckfold", "libvips"), help=argparse.SUPPRESS)
    parser.add_argument("--folder", type=Path, help=argparse.SUPPRESS)
    chosen = parser.parse_args()
    if chosen.only:
        run = _by_tuckfold if chosen.only == "tuckfold" else _by_libvips
        print(json.dumps(run(chosen.folder, _job(chosen.bits, chosen.share))))
        return
    with tempfile.TemporaryDirectory(prefix="tuckfold-bench-") as name:
        compare(Path(name), runs=chosen.runs, bits=chosen.bits, share=chosen.share)


def compare(folder: Path, *, runs: int, bits: int, share: float) -> None:
    """Run both in turns and print the table."""
    _make_photograph(folder / "large.jpg", share)
    found: dict[str, list[dict[str, float]]] = {"tuckfold": [], "libvips": []}
    loads = []
    for _ in range(runs):
        for program, results in found.items():
            loads.append(os.getloadavg()[0])
            command = [sys.executable, __file__, "--only", program, "--folder", folder]
            command += ["--bits", bits, "--share", share]
            ended = subprocess.run([str(one) for one in command], capture_output=True, text=True, check=True)
            results.append(json.loads(ended.stdout))
    grid = pixel_grid(_job(bits, share), ppi=300)
    difference = _difference(folder, grid)
    raw_mb = grid.width_px * grid.height_px * 3 * bits / 8 / 1e6
    ours, theirs = (
        {key: min(one[key] for one in results) for key in results[0]} for results in found.values()
    )
    print(f"{grid.width_px} x {grid.height_px} pixels, {bits} bits, {raw_mb:.0f} MB uncompressed")
    print(
        f"{runs} runs in turns, {len(os.sched_getaffinity(0))} cores, "
        f"load {min(loads):.1f} to {max(loads):.1f}"
    )
    print("| | tuckfold | libvips | ratio |")
    print("|---|---|---|---|")
    for key, label in (("clock_s", "time by the clock, s"), ("processor_s", "processor time, s")):
        print(f"| {label} | {ours[key]:.2f} | {theirs[key]:.2f} | {ours[key] / theirs[key]:.2f} |")
    of_raw = ours["memory_mb"] / raw_mb, theirs["memory_mb"] / raw_mb
    print(f"| memory, MB | {ours['memory_mb']:.0f} | {theirs['memory_mb']:.0f} | |")
    print(f"| memory / uncompressed | {of_raw[0]:.2f} | {of_raw[1]:.2f} | |")
    print(f"Face and sides of the two differ by {difference:.2f} levels on average.")
    if difference > _ALIKE:
        raise SystemExit("the two did not do the same work")


def _job(bits: int, share: float) -> Job:
    # A face of 914 x 610 mm with 38 mm bars at 300 ppi: 12294 x 8704 = 107 megapixels.
    face = {"width_mm": 914 * share, "height_mm": 610 * share}
    tree = {"face": face, "bars": {"depth_mm": 38}, "print": {"ppi": 300, "marks": False, "bits": bits}}
    return check_job(tree)


def _make_photograph(path: Path, share: float) -> None:
    import sklearn
    from PIL import Image

    china = Path(sklearn.__file__).parent / "datasets" / "images" / "china.jpg"
    with Image.open(china) as image:
        image.resize((round(6000 * share), round(4000 * share)), Image.Resampling.BICUBIC).save(
            path, "JPEG", quality=92
        )


def _measured(start: float) -> dict[str, float]:
    used = resource.getrusage(resource.RUSAGE_SELF)
    return {
        "clock_s": time.perf_counter() - start,
        "processor_s": time.process_time(),
        "memory_mb": used.ru_maxrss * 1024 / 1e6,
    }


def _by_tuckfold(folder: Path, job: Job) -> dict[str, float]:
    from pycore.picture.read import read_picture
    from pycore.printing.report import FileKind
    from pycore.printing.write import PrintRun

    before, start = time.process_time(), time.perf_counter()
    source = read_picture((folder / "large.jpg").read_bytes(), file="large.jpg")
    for _ in PrintRun(
        source, job, kind=FileKind.TIFF, out=folder / "tuckfold.tif", date="2031-04-30"
    ).steps():
        pass
    found = _measured(start)
    return found | {"processor_s": found["processor_s"] - before}


def _by_libvips(folder: Path, job: Job) -> dict[str, float]:
    import pyvips

    grid = pixel_grid(job, ppi=300)
    before, start = time.process_time(), time.perf_counter()
    image = pyvips.Image.new_from_file(str(folder / "large.jpg"))
    width, height = grid.columns[3] - grid.columns[2], grid.rows[3] - grid.rows[2]
    window = picture_window(job, width_px=image.width, height_px=image.height).window
    across, down = width / (window.width * image.width), height / (window.height * image.height)
    light = image.colourspace("scrgb").resize(across, vscale=down, kernel="cubic")
    # The window's corner falls between pixels: half a pixel of the enlarged picture at most is left of that.
    corner = (round(window.x * image.width * across), round(window.y * image.height * down))
    face = light.crop(*corner, width, height).colourspace("srgb" if job.print.bits == 8 else "rgb16")
    left, top = grid.columns[2] - grid.columns[1], grid.rows[2] - grid.rows[1]
    inked = (grid.columns[4] - grid.columns[1], grid.rows[4] - grid.rows[1])
    canvas = face.embed(left, top, *inked, extend="mirror")
    canvas = canvas.embed(grid.columns[1], grid.rows[1], grid.width_px, grid.height_px, extend="white")
    canvas.tiffsave(str(folder / "libvips.tif"), compression="none")
    found = _measured(start)
    return found | {"processor_s": found["processor_s"] - before}


def _difference(folder: Path, grid: PixelGrid) -> float:
    """The mean difference of the two files where there is ink, on every 16th row, in levels of 8 bits."""
    import tifffile

    rows, columns = slice(grid.rows[1], grid.rows[4], 16), slice(grid.columns[1], grid.columns[4])
    ours, theirs = (
        tifffile.imread(folder / f"{name}.tif")[rows, columns].astype(np.float32)
        / (1.0 if tifffile.imread(folder / f"{name}.tif", key=0).dtype == np.uint8 else 257.0)
        for name in ("tuckfold", "libvips")
    )
    if ours.shape != theirs.shape:
        raise SystemExit(f"the two files differ in size: {ours.shape} and {theirs.shape}")
    return float(np.abs(ours - theirs).mean())


if __name__ == "__main__":
    main()
