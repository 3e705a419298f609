"""What is made for others says nothing that the person did not choose: no camera, place, machine or hour."""

from __future__ import annotations

import base64
import datetime
import getpass
import io
import re
import socket
import zlib
from collections.abc import Iterator
from pathlib import Path
from typing import Any, Final

import numpy as np
import pytest
from PIL import Image

from pycore.bridge.session import Session
from pycore.progress import run_to_end

pytestmark = pytest.mark.native

#: Stands in every part of the picture that is no pixel.
MARK: Final = "Zq7hidden"
DATE: Final = "2031-04-30"
JOB: Final[dict[str, Any]] = {
    "name": "Chosen name",
    "client": "Chosen client",
    "face": {"width_mm": 120, "height_mm": 90},
    "bars": {"depth_mm": 20},
    "print": {"ppi": 72},
}
FRAMES: Final = {"name": "a", "kind": "webp", "width_px": 20, "height_px": 16, "frames": 3, "frame_ms": 50}

#: published: of JPEG (ITU-T T.81 and T.872), PNG (W3C) and TIFF 6.0, what pixels, sizes and colour need.
JPEG_PARTS: Final = {0xC0, 0xC4, 0xDA, 0xDB, 0xE0, 0xE2}
PNG_PARTS: Final = {b"IHDR", b"PLTE", b"IDAT", b"IEND", b"pHYs", b"iCCP", b"sRGB", b"gAMA", b"cHRM"}
WEBP_PARTS: Final = {b"VP8X", b"VP8 ", b"VP8L", b"ALPH", b"ANIM", b"ANMF", b"ICCP"}
TIFF_TAGS: Final = {256, 257, 258, 259, 262, 273, 277, 278, 279, 282, 283, 284, 296, 317, 332, 339, 34675}

CALLS: Final[dict[str, tuple[str, dict[str, Any], bytes | None]]] = {
    **{
        kind: ("print", {"job": JOB, "kind": kind, "date": DATE}, None)
        for kind in ("tiff", "png", "jpeg", "pdf")
    },
    "deep": ("print", {"job": {**JOB, "print": {"ppi": 72, "bits": 16}}, "kind": "tiff", "date": DATE}, None),
    "strip": ("strip", {"job": JOB, "date": DATE}, None),
    "model": ("model", {"job": JOB, "texture_px": 20_000}, None),
    "turntable": ("turntable", FRAMES, b"".join(bytes([grey]) * 960 for grey in (60, 90, 120))),
    "client": ("client", {"variants": [{"label": "", "job": JOB}], "date": DATE}, b'"use strict";\n'),
    "ticket": ("ticket", {"job": JOB, "paper": "letter", "date": DATE}, None),
}


def photograph() -> bytes:
    """A JPEG with a mark in Exif (camera, author, place, remark), XMP, IPTC, a comment and an extra part."""
    exif = Image.Exif()
    exif[0x010F], exif[0x013B], exif[0x0132] = MARK, MARK, "2019:02:03 04:05:06"
    exif.get_ifd(0x8825)[29] = MARK
    exif.get_ifd(0x8769)[0x9286] = MARK.encode()
    out = io.BytesIO()
    pixels = np.arange(160 * 120 * 3, dtype=np.uint32).reshape(120, 160, 3) // 226
    picture = Image.fromarray(pixels.astype(np.uint8))
    picture.save(out, "JPEG", exif=exif, comment=MARK, xmp=f"<x>{MARK}</x>".encode())
    iptc = b"Photoshop 3.0\x008BIM\x04\x04\x00\x00" + len(MARK).to_bytes(4, "big") + MARK.encode()
    parts = b"".join(
        bytes((0xFF, marker)) + (len(data) + 2).to_bytes(2, "big") + data
        for marker, data in ((0xED, iptc), (0xEB, MARK.encode()))
    )
    data = out.getvalue()
    return data[:2] + parts + data[2:]


@pytest.fixture(scope="module")
def session() -> Session:
    session = Session()
    data = photograph()
    assert data.count(MARK.encode()) == 8
    run_to_end(session.call("open", {"file": "tide.jpg"}, data))
    return session


@pytest.fixture(params=CALLS)
def made(session: Session, request: pytest.FixtureRequest) -> bytes:
    method, params, buffer = CALLS[request.param]
    answer: Any = run_to_end(session.call(method, params, buffer))
    return b"".join(part.tobytes() for part in answer.buffers)


def layers(data: bytes) -> Iterator[bytes]:
    """A file, and what is packed or embedded in it."""
    yield data
    for found in re.finditer(rb"stream\r?\n", data):
        try:
            yield from layers(zlib.decompressobj().decompress(data[found.end() :]))
        except zlib.error:
            continue
    for found in re.finditer(rb"data:[a-z/]+;base64,([A-Za-z0-9+/=]+)", data):
        yield base64.b64decode(found[1])
    for start in (b"\xff\xd8\xff", b"\x89PNG\r\n"):
        at = data.find(start, 1)
        if at > 0:
            yield data[at:]


def test_nothing_of_the_photographs_metadata_and_of_this_machine_is_in_it(made: bytes) -> None:
    now = datetime.datetime.now()
    hidden = [MARK, "2019:02:03", f"{now:%Y-%m-%d}", f"{now:%Y:%m:%d}", f"{now:%Y%m%d}"]
    names = (str(Path.cwd()), str(Path.home()), f"/{getpass.getuser()}/", socket.gethostname())
    # Compressed data hold any two or three letters by chance.
    hidden += [name for name in names if len(name) >= 6]
    for layer in layers(made):
        for word in hidden:
            assert word.encode() not in layer, word
            assert word.encode("utf-16-be") not in layer, word
            assert word.encode().hex().upper().encode() not in layer, word


def jpeg_parts(data: bytes) -> set[int]:
    found: set[int] = set()
    at = 2
    while not found or data[at - 1] != 0xDA:
        found.add(data[at + 1])
        if data[at + 1] == 0xDA:
            break
        at += 2 + int.from_bytes(data[at + 2 : at + 4], "big")
    return found


def chunks(data: bytes, *, start: int, name_first: bool) -> set[bytes]:
    """The names of a PNG's or a WebP's parts."""
    found, at = set(), start
    while at + 8 <= len(data):
        name, size = (
            (data[at : at + 4], data[at + 4 : at + 8])
            if name_first
            else (data[at + 4 : at + 8], data[at : at + 4])
        )
        found.add(name)
        length = int.from_bytes(size, "little" if name_first else "big")
        at += 8 + (length + length % 2 if name_first else length + 4)
        if name == b"IEND":
            break
    return found


def test_its_pictures_have_no_part_for_metadata(made: bytes) -> None:
    seen = 0
    for layer in layers(made):
        seen += 1
        if layer.startswith(b"\xff\xd8\xff"):
            assert jpeg_parts(layer) <= JPEG_PARTS
        elif layer.startswith(b"\x89PNG"):
            assert chunks(layer, start=8, name_first=False) <= PNG_PARTS
        elif layer.startswith(b"RIFF"):
            assert chunks(layer, start=12, name_first=True) <= WEBP_PARTS
        elif layer.startswith((b"II*\0", b"MM\0*")):
            with Image.open(io.BytesIO(layer)) as picture:
                assert set(picture.tag_v2) <= TIFF_TAGS
    assert seen >= 1


@pytest.mark.parametrize("name", ["pdf", "ticket"])
def test_a_document_has_the_given_date_and_no_hour(session: Session, name: str) -> None:
    method, params, _ = CALLS[name]
    answer: Any = run_to_end(session.call(method, params))
    data = b"".join(part.tobytes() for part in answer.buffers)
    dates = re.findall(rb"/(?:CreationDate|ModDate) \(D:(\d+)", data)
    assert dates
    assert {date[:8] for date in dates} == {DATE.replace("-", "").encode()}
    assert {date[8:].strip(b"0") for date in dates} == {b""}
