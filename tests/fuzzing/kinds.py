"""What is fuzzed: of each kind of file the good ones that mutants begin from, and all that reads them."""

from __future__ import annotations

import io
import json
import zipfile
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

import numpy as np
import tifffile
from PIL import Image

from pycore.batch.table import read_table
from pycore.bundle.archive import read_members
from pycore.bundle.content import BundledFile, Role
from pycore.bundle.write import bundle_bytes
from pycore.client.answer import taken_answer
from pycore.client.offer import OfferedVariant
from pycore.client.words import answer_lines
from pycore.colour.icc.endpoints import Standard
from pycore.colour.icc.profile import description, parse_profile, require_device
from pycore.colour.icc.tone_curves import decode_table
from pycore.colour.icc.transform import make_transform
from pycore.compare.variants import depth_variants, fill_variants
from pycore.contract.check import check_job, job_tree, open_job
from pycore.contract.job import Intent
from pycore.errors import FieldError
from pycore.layout.window import picture_window
from pycore.picture.read import read_picture
from pycore.tasks.bundle import read_bundle
from pycore.tasks.layout import lay_out
from pycore.tasks.strip import measure_strip
from pycore.wall.photograph import open_photograph
from tests.fuzzing.mutants import BINARY, TEXT, Change, mutant

ROOT: Final = Path(__file__).resolve().parents[2]
_PROFILES: Final = ROOT / "tests" / "pycore" / "colour" / "data"
_CHANNELS: Final = {"GRAY": 1, "RGB": 3, "CMYK": 4}


@dataclass(frozen=True, kw_only=True)
class Kind:
    """One kind of file.

    Attributes
    ----------
    seeds : callable
        Makes the good files.
    read : callable
        All that reads such a file; it gets the mutant.
    changes : sequence of callable
    mutant : callable
        From seeds, a number and changes to a mutant.
    """

    seeds: Callable[[], list[bytes]]
    read: Callable[[bytes], object]
    changes: Sequence[Change] = TEXT
    mutant: Callable[[Sequence[bytes], int, Sequence[Change]], bytes] = lambda seeds, number, changes: mutant(
        seeds, number, changes=changes
    )


def _pictures() -> list[bytes]:
    values = np.random.default_rng(3).integers(0, 65536, (14, 21, 3), dtype=np.uint16)
    noise = Image.fromarray((values >> 8).astype(np.uint8))
    exif = Image.Exif()
    exif[0x0112] = 6
    exif.get_ifd(0x8769)[0xA405] = 28
    found = []
    for kind, mode, options in (
        ("JPEG", "RGB", {"exif": exif, "icc_profile": (_PROFILES / "matrix-v4.icc").read_bytes()}),
        ("JPEG", "CMYK", {}),
        ("JPEG", "L", {"progressive": True}),
        ("PNG", "RGB", {"exif": exif}),
        ("PNG", "P", {}),
        ("PNG", "RGBA", {}),
        ("PNG", "I;16", {}),
        ("TIFF", "RGB", {"exif": exif}),
        ("TIFF", "CMYK", {"compression": "tiff_lzw"}),
        ("WEBP", "RGB", {"lossless": True}),
    ):
        out = io.BytesIO()
        image = Image.fromarray(values[..., 0]) if mode == "I;16" else noise.convert(mode)
        image.save(out, kind, **options)
        found.append(out.getvalue())
    for packing, extra in (("zlib", {}), (None, {"planarconfig": "separate"}), ("zlib", {"tile": (16, 16)})):
        out = io.BytesIO()
        planes = np.moveaxis(values, 2, 0) if extra.get("planarconfig") else values
        tifffile.imwrite(out, planes, photometric="rgb", compression=packing, **extra)
        found.append(out.getvalue())
    return found


def _read_picture(data: bytes) -> object:
    read_picture(data, file="mutant.jpg").image.tobytes()
    return open_photograph(data, file="mutant.jpg").pixels


def _profiles() -> list[bytes]:
    return [path.read_bytes() for path in sorted(_PROFILES.glob("*.icc"))]


def _read_profile(data: bytes) -> object:
    """What opening a profile and proofing with it asks; gamuts are tried by test_hostile_profiles.py."""
    profile = parse_profile(data)
    description(data)
    decode_table(data)
    channels = _CHANNELS[require_device(profile)]
    values = np.asarray(np.linspace(0, 1, 4 * channels).reshape(4, channels), np.float64)
    to_lab = make_transform(profile, Standard.LAB, intent=Intent.RELATIVE, black_point_compensation=True)
    lab = to_lab(values)
    back = make_transform(Standard.LAB, profile, intent=Intent.PERCEPTUAL, black_point_compensation=False)
    found = back(np.clip(lab, -128, 127))
    if not (np.isfinite(lab).all() and np.isfinite(found).all()):
        raise ArithmeticError("a colour that is no number")
    return found


def _jobs() -> list[bytes]:
    full = job_tree(check_job({"name": "Low tide", "sides": {"left": {"fill": "plain"}}, "version": 2}))
    old = {
        "version": 1,
        "face": {"width_mm": 300, "height_mm": 200},
        "sides": {"fill": "carry", "softness_mm": 2},
    }
    few = {"version": 2, "group": {"panels": 3, "gap_mm": 20}, "picture": {"turn": 90}}
    return [json.dumps(full, indent=1).encode(), json.dumps(old).encode(), json.dumps(few).encode()]


def _read_job(data: bytes) -> object:
    return lay_out(open_job(data.decode(errors="replace"))[0])


def _bundles() -> list[bytes]:
    files = {
        Role.PICTURE: BundledFile(name="low tide.jpg", data=_pictures()[2]),
        Role.PROFILE: BundledFile(name="matte.icc", data=bytes(500)),
    }
    kept = (ROOT / "tests" / "pycore" / "bundle" / "data" / "version-1.zip").read_bytes()
    job = check_job({"name": "Low tide", "picture": {"file": "low tide.jpg"}})
    return [bundle_bytes(job, files), bundle_bytes(check_job({}), {}), kept]


def _bundle_mutant(seeds: Sequence[bytes], number: int, changes: Sequence[Change]) -> bytes:
    """Every other one is a whole archive again, of which only one member is a mutant."""
    if number % 2:
        return mutant(seeds, number, changes=BINARY)
    chance = np.random.default_rng(number)
    members = read_members(seeds[number // 2 % len(seeds)])
    name = "bundle.json" if chance.random() < 0.7 else str(chance.choice(list(members)))
    members[name] = mutant([members[name]], number, changes=changes)
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", int(chance.choice([zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED]))) as archive:
        for member, data in members.items():
            archive.writestr(zipfile.ZipInfo(member), data)
    return out.getvalue()


def _tables() -> list[bytes]:
    return [
        b"name,picture.file,face.width_mm,face.height_mm\nLow tide,tide.jpg,240,180\nHigh tide,,300,200\n",
        '\ufeffname,notes,bars.depth_mm,sides.fill\r\n"A, b","two\r\nlines",38,mirror\r\n,,,\r\n'.encode(),
        b"face.width_mm,sides.left.fill,print.ppi,colour.intent\n300,plain,150,perceptual\n",
    ]


def _read_table(data: bytes) -> object:
    rows = read_table(data, file="mutant.csv", base={}, edits=[])
    for row in rows:
        if isinstance(row.job, FieldError):
            raise row.job
    return rows


_STRIP: Final = b"""CGATS.17

ORIGINATOR\t"Tuckfold"
ILLUMINANT\t"D50"
NUMBER_OF_FIELDS\t5
BEGIN_DATA_FORMAT
SAMPLE_ID SAMPLE_NAME LAB_L LAB_A LAB_B
END_DATA_FORMAT
NUMBER_OF_SETS\t4
BEGIN_DATA
1 "paper white" 95.2 0.3 -1.9
2 "deepest black" 9.4 0.1 0.2
3 "red" 48.0 60.5 41.2
4 "a grey" 52.3 -0.2 0.4
END_DATA
"""


def _strips() -> list[bytes]:
    xyz = _STRIP.replace(b"LAB_L LAB_A LAB_B", b"XYZ_X XYZ_Y XYZ_Z")
    for lab, other in (
        (b"95.2 0.3 -1.9", b"84.1 87.2 74.0"),
        (b"9.4 0.1 0.2", b"1.0 1.05 0.86"),
        (b"48.0 60.5 41.2", b"28.0 16.5 6.2"),
        (b"52.3 -0.2 0.4", b"19.6 20.4 16.7"),
    ):
        xyz = xyz.replace(lab, other)
    return [_STRIP, xyz, _STRIP.replace(b"\n", b"\r\n")]


def _read_strip(data: bytes) -> object:
    found = measure_strip(expected=_STRIP, measured=data)
    return found, measure_strip(expected=data, measured=_STRIP)


_JOB: Final = check_job({"name": "Low tide", "client": "Mara", "sides": {"left": {"fill": "plain"}}})


def _answers() -> list[bytes]:
    found = []
    for letter, variant in zip(
        "ABCD", [*depth_variants(_JOB, [12, 32]), *fill_variants(_JOB, ["run-on", "fade"])], strict=True
    ):
        use = picture_window(variant.job, width_px=600, height_px=400)
        offered = OfferedVariant(label=variant.label, job=variant.job, use=use, texture=0, fold=0, panels=())
        lines = [
            *answer_lines(offered, letter=letter, alone=False),
            "",
            "Name: Mara",
            "Date: 2031-04-30",
            "",
            "Remarks: Gladly",
        ]
        found.append("\n".join(lines).encode())
        found.append("\r\n".join(f"> {line}" for line in lines).encode())
    return found


def _read_answer(data: bytes) -> object:
    return taken_answer(_JOB, data.decode(errors="replace"))


KINDS: Final[dict[str, Kind]] = {
    "pictures": Kind(seeds=_pictures, read=_read_picture, changes=BINARY),
    "profiles": Kind(seeds=_profiles, read=_read_profile, changes=BINARY),
    "jobs": Kind(seeds=_jobs, read=_read_job),
    "bundles": Kind(seeds=_bundles, read=read_bundle, mutant=_bundle_mutant),
    "csv": Kind(seeds=_tables, read=_read_table),
    "cgats": Kind(seeds=_strips, read=_read_strip),
    "answers": Kind(seeds=_answers, read=_read_answer),
}


def made(kind: str, number: int, seeds: Sequence[bytes]) -> bytes:
    """The mutant of a kind and a number.

    Parameters
    ----------
    kind : str
        A key of `KINDS`.
    number : int
        From 0.
    seeds : sequence of bytes
        The kind's own.

    Returns
    -------
    bytes
    """
    found: Any = KINDS[kind]
    data: bytes = found.mutant(seeds, number, found.changes)
    return data
