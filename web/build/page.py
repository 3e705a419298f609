"""The npm packages, and the page that Vite builds with them."""

from __future__ import annotations

from build.commands import run
from build.failure import BuildError
from build.pins import Pins
from build.places import Places
from build.publish import page_files
from build.stamps import Stamp, digest

#: What the page is made from, in web/; beside these only the viewer of the client's page.
_SOURCES = (
    "src",
    "static",
    "tools/page_policy.ts",
    "index.html",
    "guide.html",
    "vite.config.ts",
    "tsconfig.json",
    "package.json",
    "package-lock.json",
)


def install_packages(at: Places, pins: Pins, *, npm: str) -> bool:
    """Install the npm packages of the lock file, where that changed.

    Parameters
    ----------
    at : Places
        The checkout.
    pins : Pins
        The version of Pyodide that must be among them.
    npm : str
        The program.

    Returns
    -------
    bool
        Whether anything was installed.

    Raises
    ------
    BuildError
        npm failed, or brought another Pyodide than the pinned one.
    """
    inputs = digest([at.web / "package.json", at.web / "package-lock.json"], base=at.web)
    # npm writes down what it installed in a hidden lock file.
    installed = [at.node_modules / ".package-lock.json"]
    stamp = Stamp(at.stamps, "packages")
    if stamp.is_fresh(inputs=inputs, outputs=digest(installed, base=at.web)):
        return False
    run([npm, "ci", "--no-audit", "--no-fund"], cwd=at.web, what="installing the npm packages")
    manifest = (at.node_modules / "pyodide" / "package.json").read_text(encoding="utf-8")
    if f'"version": "{pins.pyodide}"' not in manifest:
        raise BuildError(
            "web/package-lock.json brings another Pyodide than web/pins.json names",
            f"pin Pyodide {pins.pyodide} in both",
        )
    stamp.write(inputs=inputs, outputs=digest(installed, base=at.web))
    return True


def build_page(at: Places, *, node: str) -> bool:
    """Build the page where anything changed.

    Parameters
    ----------
    at : Places
        The checkout.
    node : str
        The program.

    Returns
    -------
    bool
        Whether anything had changed.

    Raises
    ------
    BuildError
        Vite failed.
    """
    viewer = digest([at.viewer], base=at.root)
    inputs = digest([at.web / name for name in _SOURCES], base=at.web, extra=viewer)
    stamp = Stamp(at.stamps, "page")
    if stamp.is_fresh(inputs=inputs, outputs=digest(page_files(at.dist), base=at.dist)):
        return False
    vite = at.node_modules / "vite" / "bin" / "vite.js"
    run([node, vite, "build", "--logLevel", "warn"], cwd=at.web, what="building the page")
    stamp.write(inputs=inputs, outputs=digest(page_files(at.dist), base=at.dist))
    return True
