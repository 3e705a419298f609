"""Printers' profiles and RGB spaces that Debian packages bring, and what LittleCMS makes of them.

They were looked at while the tables were designed. No number is fitted to one of them: the numbers of nodes
and the steps of lightness are the same for all.
"""

from __future__ import annotations

import hashlib
import os
import shutil
import subprocess
import time
from functools import cache
from pathlib import Path
from tempfile import gettempdir

import numpy as np
from build.places import places
from numpy.typing import NDArray

from pycore.colour.icc.device import CHANNELS
from pycore.colour.icc.profile import parse_profile
from pycore.colour.spaces.ciede2000 import delta_e_2000
from pycore.contract.job import Intent

from .littlecms import transicc

Floats = NDArray[np.float64]

ICC = Path("/usr/share/color/icc")
ILLUSTRATIVE = Path(__file__).parents[3] / "pycore" / "colour" / "illustrative" / "illustrative-matte.icc"

#: Printers, by the names of the tests. Packages: libgs-common; the repository; icc-profiles-free's
#: measurements made into profiles by argyll.
PRINTERS = ("default_cmyk", "illustrative-matte", "fogra39-argyll", "rgb-argyll")

#: RGB spaces that pictures come in. Packages: libgs-common, icc-profiles-free, colord-data, argyll.
SOURCES = {
    "srgb": ICC / "ghostscript" / "srgb.icc",
    "linear": ICC / "ghostscript" / "scrgb.icc",
    "adobe-like": ICC / "compatibleWithAdobeRGB1998.icc",
    "lightness": ICC / "LStar-RGB.icc",
    "wide": ICC / "colord" / "WideGamutRGB.icc",
    "very wide, linear": Path("/usr/share/color/argyll/ref/ProPhotoLin.icm"),
}

#: What argyll makes takes half a minute and is kept with what else was downloaded or made for this checkout.
_KEPT = places(Path(__file__).parents[3]).cache / "test-profiles"
#: The processes of one run of pytest share the work.
_RUN = Path(gettempdir()) / f"profiles-{os.environ.get('PYTEST_XDIST_TESTRUNUID', os.getpid())}"
_LONGEST_S = 300.0

#: A table for saturation, which no test asks for, would take half as long again.
_COLPROF = ("colprof", "-ql", "-s", str(SOURCES["srgb"]), "-cmt", "-dpp", "made")
#: How argyll makes each, in a folder that holds the measurements, if any, as `made.ti3`.
_MADE = {
    "fogra39-argyll": (_COLPROF,),
    "rgb-argyll": (
        ("targen", "-d2", "-f400", "made"),
        ("fakeread", str(ILLUSTRATIVE), "made"),
        _COLPROF,
    ),
}
_MEASURED = {"fogra39-argyll": ICC / "FOGRA39L.ti3"}


@cache
def printer(name: str) -> Path:
    """The file of a printer's profile; argyll makes two of them, coarse ones."""
    if name == "default_cmyk":
        return ICC / "ghostscript" / "default_cmyk.icc"
    if name == "illustrative-matte":
        return ILLUSTRATIVE
    file = _KEPT / f"{name}-{_made_from(name)}.icc"
    if file.is_file():
        return file
    here = _RUN / name
    try:
        here.mkdir(parents=True)
    except FileExistsError:
        return _made_by_another(file)
    if name in _MEASURED:
        shutil.copy(_MEASURED[name], here / "made.ti3")
    for command in _MADE[name]:
        subprocess.run(command, cwd=here, check=True, capture_output=True)
    _KEPT.mkdir(parents=True, exist_ok=True)
    # Under its own name it is always whole.
    return Path(shutil.copy(here / "made.icc", file.with_suffix(f".{os.getpid()}"))).rename(file)


def _made_from(name: str) -> str:
    """What a profile depends on in 16 digits: the commands, their programs, and every file that they name."""
    found = hashlib.sha256()
    for command in _MADE[name]:
        program = shutil.which(command[0])
        assert program is not None, f"{command[0]} is missing: install argyll"
        files = [Path(program), *(Path(word) for word in command if Path(word).is_absolute())]
        found.update(" ".join(command).encode())
        for file in [*files, *([_MEASURED[name]] if name in _MEASURED else [])]:
            found.update(hashlib.sha256(file.read_bytes()).digest())
    return found.hexdigest()[:16]


def _made_by_another(file: Path) -> Path:
    """The profile that another process of the same run makes."""
    begun = time.monotonic()
    while not file.is_file():
        if time.monotonic() - begun > _LONGEST_S:
            raise FileNotFoundError(f"{file.name}: the process that makes this profile has failed")
        time.sleep(0.2)
    return file


def device_and_lab(
    source: Path, target: Path, values: Floats, *, intent: Intent, compensated: bool = True
) -> tuple[Floats, Floats]:
    """What LittleCMS makes of a source's values on a printer, 0 to 1, and how it sees that, relative Lab."""
    device = transicc(str(source), str(target), values * _full(source), intent, compensated) / _full(target)
    return device, seen(target, device)


def seen(target: Path, device: Floats) -> Floats:
    """How LittleCMS sees a printer's values: Lab relative to its white."""
    return transicc(str(target), "*Lab2", device * _full(target), Intent.RELATIVE, False)


def difference(target: Path, device: Floats, lab: Floats) -> Floats:
    """CIEDE2000 between a printer's values and what should have been seen."""
    return delta_e_2000(seen(target, device), lab)


def grey_ramp(levels: int, channels: int = 3) -> Floats:
    """Evenly spaced greys, black first; of inks the black ink alone, full first."""
    ramp = np.repeat(np.linspace(0.0, 1.0, levels)[:, None], channels, axis=1)
    if channels == 4:
        ramp = 1.0 - ramp
        ramp[:, :3] = 0.0
    return ramp


def _full(file: Path) -> float:
    return 100.0 if CHANNELS[parse_profile(file.read_bytes()).header.device] == 4 else 255.0
