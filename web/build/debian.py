"""What the tests need of the system, and Debian's packages that bring it."""

from __future__ import annotations

import os
import shutil
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from build.commands import run
from build.failure import BuildError


@dataclass(frozen=True)
class Need:
    """A program or file, and the Debian package that brings it."""

    package: str
    programs: tuple[str, ...] = ()
    """Any of these will do."""
    file: str = ""
    """Below the root; a pattern where the folder bears the processor's name."""

    def is_met(self) -> bool:
        """Whether it is there."""
        if self.file:
            return any(Path("/").glob(self.file.removeprefix("/")))
        return any(shutil.which(program) for program in self.programs)


#: Of the tests alone; the page and the core need none of it.
NEEDS: Final = (
    Need(
        "chromium",
        programs=("chromium", "chromium-browser", "google-chrome-stable", "google-chrome", "chrome"),
    ),
    Need("liblcms2-utils", programs=("transicc",)),
    Need("libgs-common", file="/usr/share/color/icc/ghostscript/default_cmyk.icc"),
    Need("icc-profiles-free", file="/usr/share/color/icc/compatibleWithAdobeRGB1998.icc"),
    Need("colord-data", file="/usr/share/color/icc/colord/WideGamutRGB.icc"),
    Need("argyll", programs=("colprof",)),
    Need("poppler-utils", programs=("pdftoppm",)),
    Need("qpdf", programs=("qpdf",)),
    Need("libimage-exiftool-perl", programs=("exiftool",)),
    Need("fonts-dejavu-core", file="/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf"),
)

#: Chromium without a window around the page, of the same version. It takes a third less processor time to
#: start the page, and any Chromium will do where it cannot be had.
WINDOWLESS: Final = (Need("chromium-headless-shell", programs=("chromium-headless-shell",)),)

#: Browsers draw WebGL in a window, here on a screen in memory and without a graphics card.
_SCREEN: Final = (
    Need("xvfb", programs=("Xvfb",)),
    Need("libgl1-mesa-dri", file="/usr/lib/*/dri/swrast_dri.so"),
    Need("libegl1", file="/usr/lib/*/libEGL.so.1"),
    Need("libgles2", file="/usr/lib/*/libGLESv2.so.2"),
)

#: What the main job is tested in beside Chromium.
OTHER_BROWSERS: Final[Mapping[str, tuple[Need, ...]]] = {
    "Firefox": (Need("firefox-esr", programs=("firefox-esr", "firefox")), *_SCREEN),
    "WebKitGTK": (Need("webkit2gtk-driver", programs=("WebKitWebDriver",)), *_SCREEN),
}


def install_needs(needs: tuple[Need, ...] = NEEDS) -> bool:
    """Install what is missing, where this user may.

    Parameters
    ----------
    needs : tuple of Need
        What must be there.

    Returns
    -------
    bool
        Whether anything was installed.

    Raises
    ------
    BuildError
        Something is missing and this user may not install it, or installing failed.
    """
    missing = [need.package for need in needs if not need.is_met()]
    if not missing:
        return False
    command = f"apt-get install {' '.join(missing)}"
    if shutil.which("apt-get") is None or os.geteuid() != 0:
        raise BuildError(
            "the tests need what this machine has not", f"as its administrator, run {command} (on Debian)"
        )
    here = Path.cwd()
    env = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    run(["apt-get", "update", "-q"], cwd=here, what="reading Debian's package lists", env=env)
    install = ["apt-get", "install", "-q", "-y", "--no-install-recommends", *missing]
    run(install, cwd=here, what="installing Debian packages", env=env)
    still = [need.package for need in needs if not need.is_met()]
    if still:
        raise BuildError(f"{', '.join(still)} did not bring what the tests need", "install it by hand")
    return True


def install_browsers(browsers: Mapping[str, tuple[Need, ...]] = OTHER_BROWSERS) -> bool:
    """Install browsers that the tests can do without, where this user may.

    Parameters
    ----------
    browsers : mapping
        Their names, and what each needs.

    Returns
    -------
    bool
        Whether anything was installed. Of a browser that cannot be, a line says that its tests are left out.
    """
    changed = False
    for name, needs in browsers.items():
        try:
            changed = install_needs(needs) or changed
        except BuildError as wrong:
            print(f"    the tests in {name} are left out: {wrong}", flush=True)
    return changed


def install_windowless(needs: tuple[Need, ...] = WINDOWLESS) -> bool:
    """Install the Chromium that saves the tests time, where this user may.

    Parameters
    ----------
    needs : tuple of Need
        The package that brings it.

    Returns
    -------
    bool
        Whether anything was installed. Where it cannot be, a line says that the tests take longer.
    """
    try:
        return install_needs(needs)
    except BuildError as wrong:
        print(f"    the tests drive the Chromium that is here, and take longer: {wrong}", flush=True)
        return False
