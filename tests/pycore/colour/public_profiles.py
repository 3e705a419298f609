"""Printers' profiles and RGB spaces that Debian packages bring, and what LittleCMS makes of them.

They were looked at while the tables were designed. No number is fitted to one of them: the numbers of nodes
and the steps of lightness are the same for all.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import time
from functools import cache
from pathlib import Path
from tempfile import gettempdir

import numpy as np
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

#: The processes of one run of pytest share what argyll makes, which takes half a minute.
_RUN = Path(gettempdir()) / f"profiles-{os.environ.get('PYTEST_XDIST_TESTRUNUID', os.getpid())}"
_LONGEST_S = 300.0


@cache
def printer(name: str) -> Path:
    """The file of a printer's profile; argyll makes two of them, coarse ones."""
    if name == "default_cmyk":
        return ICC / "ghostscript" / "default_cmyk.icc"
    if name == "illustrative-matte":
        return ILLUSTRATIVE
    here = _RUN / name
    try:
        here.mkdir(parents=True)
    except FileExistsError:
        return _made_by_another(here)
    if name == "fogra39-argyll":
        shutil.copy(ICC / "FOGRA39L.ti3", here / "made.ti3")
    else:
        _run("targen", "-d2", "-f400", "made", here=here)
        _run("fakeread", str(ILLUSTRATIVE), "made", here=here)
    # Its table for saturation, which no test asks for, would take half as long again.
    _run("colprof", "-ql", "-s", str(SOURCES["srgb"]), "-cmt", "-dpp", "made", here=here)
    return (here / "made.icc").rename(here / "printer.icc")


def _made_by_another(here: Path) -> Path:
    """The profile that another process of the same run makes."""
    file, begun = here / "printer.icc", time.monotonic()
    while not file.is_file():
        if time.monotonic() - begun > _LONGEST_S:
            raise FileNotFoundError(f"{here.name}: the process that makes this profile has failed")
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


def _run(*command: str, here: Path) -> None:
    subprocess.run(command, cwd=here, check=True, capture_output=True)
