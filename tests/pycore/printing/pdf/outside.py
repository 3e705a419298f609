"""What programs that know nothing of Tuckfold find in a PDF: poppler's, qpdf and exiftool."""

from __future__ import annotations

import json
import re
import subprocess
from pathlib import Path
from typing import Any

import numpy as np
from PIL import Image

_UNITS_PER_MM = 72 / 25.4


def run(*command: str | Path) -> bytes:
    """What a program prints; it must end well and complain of nothing."""
    done = subprocess.run([str(part) for part in command], capture_output=True, check=True)
    assert done.stderr == b""
    return done.stdout


def boxes_mm(pdf: Path) -> dict[str, list[float]]:
    """Left, bottom, right and top of each box, as `pdfinfo -box` prints them (to 0.01 unit, 0.0035 mm)."""
    lines = re.findall(r"^(\w+Box): +(.*)$", run("pdfinfo", "-box", pdf).decode(), re.MULTILINE)
    return {name: [float(value) / _UNITS_PER_MM for value in values.split()] for name, values in lines}


def title(pdf: Path) -> str:
    """The document's title by `pdfinfo`."""
    found = re.search(r"^Title: +(.*)$", run("pdfinfo", "-enc", "UTF-8", pdf).decode(), re.MULTILINE)
    return "" if found is None else found[1]


def images(pdf: Path) -> list[dict[str, str]]:
    """The lines of `pdfimages -list`, by its heads."""
    head, _, *lines = run("pdfimages", "-list", pdf).decode().splitlines()
    names = head.replace("object ID", "object generation").split()
    return [dict(zip(names, line.split(), strict=True)) for line in lines]


def dictionary(pdf: Path, number: int) -> str:
    """An object as qpdf shows it."""
    return run("qpdf", f"--show-object={number}", pdf).decode()


def data(pdf: Path, number: int) -> bytes:
    """A stream's data as qpdf unpacks them."""
    return run("qpdf", f"--show-object={number}", "--filtered-stream-data", pdf)


def trailer(pdf: Path) -> str:
    """The trailer as qpdf shows it."""
    return run("qpdf", "--show-object=trailer", pdf).decode()


def referred(text: str, name: str) -> int:
    """The number of the object to which an entry refers."""
    found = re.search(rf"/{name} \[? ?(?:/ICCBased )?(\d+) 0 R", text)
    assert found is not None, (name, text)
    return int(found[1])


def picture(pdf: Path) -> np.ndarray[tuple[int, ...], np.dtype[Any]]:
    """The one image of a PDF by its bytes, as qpdf unpacks them: 16 bits have the higher byte first."""
    (image,) = images(pdf)
    shape = int(image["height"]), int(image["width"]), int(image["comp"])
    kind = np.uint8 if image["bpc"] == "8" else np.dtype(">u2")
    return np.frombuffer(data(pdf, int(image["object"])), kind).reshape(shape)


def profile(pdf: Path) -> bytes:
    """The profile of the one image."""
    (image,) = images(pdf)
    return data(pdf, referred(dictionary(pdf, int(image["object"])), "ColorSpace"))


def drawn(pdf: Path, ppi: float, folder: Path) -> np.ndarray[tuple[int, ...], np.dtype[np.uint8]]:
    """The page as `pdftoppm` draws it at a resolution."""
    run("pdftoppm", "-r", f"{ppi:g}", "-singlefile", pdf, folder / "drawn")
    with Image.open(folder / "drawn.ppm") as image:
        return np.asarray(image)


def facts(pdf: Path) -> dict[str, Any]:
    """What exiftool says."""
    (found,) = json.loads(run("exiftool", "-json", pdf))
    assert isinstance(found, dict)
    return found


def text(pdf: Path) -> list[str]:
    """Lines of text, as `pdftotext` finds them."""
    return [line.strip() for line in run("pdftotext", pdf, "-").decode().splitlines() if line.strip()]
