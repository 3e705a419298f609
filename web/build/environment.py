"""The virtual environment that the tests run in."""

from __future__ import annotations

import os
import shutil
import sys
from pathlib import Path

from build.commands import run
from build.failure import BuildError
from build.pins import Pins
from build.places import Places
from build.stamps import Stamp, digest


def venv_python(at: Places) -> Path:
    """The environment's Python."""
    return at.root / ".venv" / ("Scripts/python.exe" if os.name == "nt" else "bin/python")


def make_environment(at: Places, pins: Pins) -> bool:
    """Make the environment, and install the core and the tests' extras at the pinned versions.

    Parameters
    ----------
    at : Places
        The checkout.
    pins : Pins
        The versions.

    Returns
    -------
    bool
        Whether anything was installed.

    Raises
    ------
    BuildError
        This Python cannot make virtual environments, or installing failed.
    """
    python = venv_python(at)
    stamps = at.root / ".venv" / "tuckfold"
    ours = [at.root / "pyproject.toml", at.web / "pins.json"]
    # The core is installed where it lies, so that only these, and this Python, decide what is installed.
    inputs = digest(ours, base=at.root, extra=sys.version)
    stamp = Stamp(stamps, "environment")
    if python.is_file() and stamp.is_fresh(inputs=inputs, outputs="installed"):
        return False
    if not python.is_file():
        shutil.rmtree(at.root / ".venv", ignore_errors=True)
        try:
            run([sys.executable, "-m", "venv", at.root / ".venv"], cwd=at.root, what="making .venv")
        except BuildError as wrong:
            raise BuildError(
                "this Python cannot make virtual environments",
                "install its venv module (on Debian: apt-get install python3-venv)",
            ) from wrong
    stamps.mkdir(parents=True, exist_ok=True)
    constraints = stamps / "constraints.txt"
    lines = [f"{name}=={version}\n" for name, version in sorted(pins.constraints.items())]
    constraints.write_text("".join(lines), encoding="utf-8")
    quiet = ["--disable-pip-version-check", "--no-input", "--progress-bar", "off"]
    wanted = ["--constraint", str(constraints), "--editable", f"{at.root}[tests]"]
    install = [str(python), "-m", "pip", "install", *quiet, *wanted]
    run(install, cwd=at.root, what="installing the tests' packages")
    stamp.write(inputs=inputs, outputs="installed")
    return True
