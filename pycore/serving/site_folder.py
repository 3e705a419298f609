"""Where the built page lies: in the installed package, or in the checkout that it is run from."""

from __future__ import annotations

from pathlib import Path
from typing import Final

from pycore.errors import OutputError
from pycore.speech import say

#: In a wheel that brings the page; a checkout never has it.
PACKAGED: Final = Path(__file__).resolve().parent / "site"
_CHECKOUT: Final = Path(__file__).resolve().parents[2]


def site_folder(*, packaged: Path = PACKAGED, checkout: Path = _CHECKOUT) -> Path:
    """The folder of the built page.

    Parameters
    ----------
    packaged : Path, optional
        Where a wheel brings it.
    checkout : Path, optional
        Where a checkout would begin that the package is run from.

    Returns
    -------
    Path

    Raises
    ------
    OutputError
        The page is not built; the message says what builds it.
    """
    builder = checkout / "web" / "serve.py"
    for folder in (packaged, checkout / "web" / "dist"):
        if (folder / "index.html").is_file() and (folder == packaged or builder.is_file()):
            return folder
    build = (
        say("python3 {builder} --build-only", builder=builder)
        if builder.is_file()
        else say("python3 web/serve.py --wheel FOLDER")
    )
    remedy = (
        say("run {build}", build=build)
        if builder.is_file()
        else say("install the wheel that {build} writes in a checkout", build=build)
    )
    raise OutputError(
        field="page",
        expected=say("the built page"),
        got=say("none"),
        remedy=remedy,
        said=say("The built page is not part of this installation."),
    )
