"""Compare the engine with LittleCMS in floating point, through its `transicc`, or store what LittleCMS says.

    python tests/pycore/colour/littlecms.py table FILE...    over 10,000 random colours, for a note
    python tests/pycore/colour/littlecms.py store            data/littlecms_reference.json, for the tests

`transicc` is a tool of the tests alone (Debian: liblcms2-utils). Its flags: `-c0` no precalculated table,
`-b` black point compensation, `*Lab2` a Lab of version 2, so that version 4 rules force no compensation.
"""

from __future__ import annotations

import argparse
import hashlib
import json
import subprocess
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from pycore.colour.icc.device import CHANNELS
from pycore.colour.icc.profile import parse_profile
from pycore.colour.icc.transform import Standard, make_transform
from pycore.colour.spaces.ciede2000 import delta_e_2000
from pycore.contract.job import Intent
from pycore.errors import ProfileError

Floats = NDArray[np.float64]
HERE = Path(__file__).parent
ROOT = HERE.parents[2]

#: `transicc` counts RGB and grey to 255 and inks to 100.
FULL_SCALE = {"GRAY": 255.0, "RGB": 255.0, "CMYK": 100.0}
INTENTS = {Intent.PERCEPTUAL: 0, Intent.RELATIVE: 1, Intent.SATURATION: 2, Intent.ABSOLUTE: 3}
STORED_COLOURS = 24


def transicc(source: str, target: str, values: Floats, intent: Intent, compensated: bool) -> Floats:
    """Send colours through `transicc`."""
    command = ["transicc", "-n", "-c0", f"-t{INTENTS[intent]}", f"-i{source}", f"-o{target}"]
    lines = (" ".join(["%.8f"] * values.shape[1]) + "\n") * len(values) % tuple(values.ravel())
    done = subprocess.run(
        command + ["-b"] * compensated, input=lines, capture_output=True, text=True, check=True
    )
    return np.array(done.stdout.split(), np.float64).reshape(len(values), -1)


def random_colours(channels: int, count: int) -> tuple[Floats, Floats]:
    """Device values and Lab, evenly spread, the same at every call."""
    chance = np.random.default_rng(20260101 + channels)
    return chance.random((count, channels)), chance.uniform([0, -80, -80], [100, 80, 80], (count, 3))


def table(files: list[Path]) -> None:
    """Print 99th percentile and maximum, both directions, all intents, with and without compensation."""
    print(f"{'profile':24}{'intent':12}{'bpc':5}{'Lab p99':>9}{'Lab max':>9}{'dev p99':>9}{'dev max':>9}")
    for file in files:
        profile = parse_profile(file.read_bytes())
        full = FULL_SCALE[profile.header.device]
        device, lab_d50 = random_colours(CHANNELS[profile.header.device], 10_000)
        for intent in Intent:
            for compensated in (False, True):
                to_lab = make_transform(
                    profile, Standard.LAB, intent=intent, black_point_compensation=compensated
                )
                ours = to_lab(device)
                theirs = transicc(str(file), "*Lab2", device * full, intent, compensated)
                forward = delta_e_2000(ours, theirs)
                try:
                    to_device = make_transform(
                        Standard.LAB, profile, intent=intent, black_point_compensation=compensated
                    )
                    ours = to_device(lab_d50)
                    theirs = transicc("*Lab2", str(file), lab_d50, intent, compensated) / full
                    backward = np.abs(ours - np.clip(theirs, 0.0, 1.0)).max(axis=1)
                except ProfileError:
                    backward = np.array([np.nan])
                figures = [np.percentile(forward, 99), forward.max()]
                figures += [np.percentile(backward, 99), backward.max()]
                row = "".join(f"{one:9.4f}" for one in figures)
                print(f"{file.stem[:23]:24}{intent.value:12}{'yes' if compensated else 'no':5}{row}")


def store(target: Path) -> None:
    """Write what LittleCMS says about the tests' profiles and the illustrative one."""
    files = [
        *sorted((HERE / "data").glob("*.icc")),
        ROOT / "pycore" / "colour" / "illustrative" / "illustrative-matte.icc",
    ]
    version = subprocess.run(["transicc"], capture_output=True, text=True, check=False).stderr.splitlines()[0]
    stored: dict[str, Any] = {"origin": version, "profiles": {}}
    for file in files:
        data = file.read_bytes()
        space = parse_profile(data).header.device
        device, lab_d50 = random_colours(CHANNELS[space], STORED_COLOURS)
        rows = []
        for intent in Intent:
            for compensated in (False, True):
                to_lab = transicc(str(file), "*Lab2", device * FULL_SCALE[space], intent, compensated)
                to_device = transicc("*Lab2", str(file), lab_d50, intent, compensated) / FULL_SCALE[space]
                rows.append(
                    {
                        "intent": intent.value,
                        "compensated": compensated,
                        "lab": to_lab.round(4).tolist(),
                        "device": to_device.clip(0, 1).round(6).tolist(),
                    }
                )
        stored["profiles"][file.name] = {
            "sha256": hashlib.sha256(data).hexdigest(),
            "device": device.round(8).tolist(),
            "lab": lab_d50.round(8).tolist(),
            "answers": rows,
        }
    text = json.dumps(stored, separators=(",", ":")).replace('},{"intent"', '},\n{"intent"')
    target.write_text(text + "\n")


def main() -> None:
    """Do what the command line says."""
    parser = argparse.ArgumentParser(description="Compare with LittleCMS, or store its answers.")
    parser.add_argument("what", choices=("table", "store"))
    parser.add_argument("files", type=Path, nargs="*")
    parser.add_argument("--out", type=Path, default=HERE / "data" / "littlecms_reference.json")
    arguments = parser.parse_args()
    if arguments.what == "table":
        table(arguments.files)
    else:
        store(arguments.out)


if __name__ == "__main__":
    main()
