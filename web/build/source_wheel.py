"""A wheel from the source archive of a package of pure Python, the same bytes for the same archive."""

from __future__ import annotations

import base64
import hashlib
import tarfile
import zipfile
from pathlib import Path

from build.failure import BuildError
from build.one_date import ZIP_DATE
from build.pins import WheelPin

_WHEEL = "Wheel-Version: 1.0\nGenerator: tuckfold\nRoot-Is-Purelib: true\nTag: py3-none-any\n"


def source_wheel(pin: WheelPin, archive: Path, *, into: Path) -> Path:
    """Pack the modules of a source archive as a wheel; nothing of it is run.

    Parameters
    ----------
    pin : WheelPin
        The package; its modules lie in a folder of its name.
    archive : Path
        A `.tar.gz` whose bytes have been checked.
    into : Path
        The folder for the result.

    Returns
    -------
    Path
        The wheel.

    Raises
    ------
    BuildError
        The archive holds no such modules.
    """
    top = f"{pin.name}-{pin.version}"
    files: dict[str, bytes] = {}
    with tarfile.open(archive) as source:
        for member in source.getmembers():
            inside = member.name.removeprefix(f"{top}/")
            wanted = inside.startswith(f"{pin.name}/") and inside.endswith(".py")
            read = source.extractfile(member) if wanted or inside == "PKG-INFO" else None
            if read is not None:
                name = inside if wanted else f"{top}.dist-info/METADATA"
                files[name] = read.read()
    if not any(name.endswith("/__init__.py") for name in files):
        raise BuildError(f"{pin.file} holds no package {pin.name}", "web/pins.json names another archive")
    files[f"{top}.dist-info/WHEEL"] = _WHEEL.encode()
    record = f"{top}.dist-info/RECORD"
    lines = [f"{name},sha256={_hash(data)},{len(data)}" for name, data in sorted(files.items())]
    files[record] = "\n".join([*lines, f"{record},,", ""]).encode()
    wheel = into / f"{top}-py3-none-any.whl"
    with zipfile.ZipFile(wheel, "w", zipfile.ZIP_DEFLATED) as out:
        for name, data in sorted(files.items()):
            out.writestr(zipfile.ZipInfo(name, ZIP_DATE), data, zipfile.ZIP_DEFLATED)
    return wheel


def _hash(data: bytes) -> str:
    """As a wheel's record writes it (PEP 427): base64 for addresses, without its padding."""
    return base64.urlsafe_b64encode(hashlib.sha256(data).digest()).decode().rstrip("=")
