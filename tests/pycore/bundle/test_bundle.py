"""A bundle comes back as it was saved, its bytes depend on its content alone, and a bad one is refused."""

from __future__ import annotations

import io
import json
import stat
import struct
import zipfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from pycore.bundle.archive import MOST_MEMBERS, read_members
from pycore.bundle.content import BundledFile, Role
from pycore.bundle.read import open_bundle
from pycore.bundle.write import bundle_bytes
from pycore.contract.check import check_job
from pycore.errors import BundleError, FieldError

DATA = Path(__file__).parent / "data"
FILES = {
    Role.PICTURE: BundledFile(name="low: tide.jpg", data=b"\xff\xd8 not decoded here"),
    Role.PROFILE: BundledFile(name="matte.icc", data=bytes(500)),
    Role.WALL: BundledFile(name="wall.png", data=b"\x89PNG not decoded here"),
    Role.WALL_MARKS: BundledFile(name="wall.json", data=b'{"at": [450, 180]}'),
}
JOB = check_job({"name": "Low tide", "face": {"width_mm": 240}})


def saved() -> bytes:
    return bundle_bytes(JOB, FILES)


def members() -> dict[str, bytes]:
    return read_members(saved())


def archive(
    files: dict[str, bytes],
    *,
    packing: int = zipfile.ZIP_STORED,
    change: Callable[[zipfile.ZipInfo], None] = lambda _: None,
) -> bytes:
    """An archive of these files, each member changed before it is written."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as target:
        for name, data in files.items():
            member = zipfile.ZipInfo(name)
            member.compress_type = packing
            change(member)
            target.writestr(member, data)
    return out.getvalue()


def relisted(**changes: Any) -> bytes:
    """The saved bundle with another list."""
    files = members()
    files["bundle.json"] = json.dumps({**json.loads(files["bundle.json"]), **changes}).encode()
    return archive(files)


def test_everything_comes_back() -> None:
    found = open_bundle(saved())
    assert {role: one.data for role, one in found.files.items()} == {r: f.data for r, f in FILES.items()}
    assert found.files[Role.PICTURE].name == "low- tide.jpg"
    assert (found.job.name, found.job.face.width_mm) == ("Low tide", 240)
    assert found.job.picture.file == "low- tide.jpg"
    assert found.job.picture.sha256 == FILES[Role.PICTURE].sha256
    assert found.job.colour.profile == "matte.icc"
    assert found.notes == []


def test_the_same_content_is_the_same_bytes() -> None:
    backwards = dict(reversed(FILES.items()))
    assert bundle_bytes(JOB, backwards) == saved()
    assert bundle_bytes(open_bundle(saved()).job, open_bundle(saved()).files) == saved()


def test_a_bundle_that_was_packed_again_opens() -> None:
    again = archive(dict(reversed(members().items())), packing=zipfile.ZIP_DEFLATED)
    assert open_bundle(again).job == open_bundle(saved()).job


def test_the_first_bundle_that_was_saved_still_opens() -> None:
    # regression: a file of version 1 with a job of version 1, kept as it is.
    found = open_bundle((DATA / "version-1.zip").read_bytes())
    assert found.job.bars.depth_mm == 38  # published: version 1's default, in the migrations' table
    assert found.job.sides.fill.value == "run-on"
    assert [note.code for note in found.notes] == ["job-older"]
    assert found.files[Role.PICTURE].data == b"a picture of 1"


def encrypted(data: bytes) -> bytes:
    """The flag alone, in the local header and in the archive's list of the first member."""
    changed = bytearray(data)
    changed[6] |= 1
    changed[data.index(b"PK\x01\x02") + 8] |= 1
    return bytes(changed)


def repacked(data: bytes) -> bytes:
    """Another way of packing (bzip2), by its number in both headers of the only member."""
    changed = bytearray(data)
    changed[8] = changed[data.index(b"PK\x01\x02") + 10] = zipfile.ZIP_BZIP2
    return bytes(changed)


def link(member: zipfile.ZipInfo) -> None:
    member.create_system = 3
    member.external_attr = (stat.S_IFLNK | 0o777) << 16


def counted(count: int) -> bytes:
    """The saved bundle whose end says another count of members."""
    data = bytearray(saved())
    struct.pack_into("<HH", data, data.rindex(b"PK\x05\x06") + 8, count, count)
    return bytes(data)


def twice() -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as target:
        target.writestr("bundle.json", "{}")
        with pytest.warns(UserWarning, match="Duplicate name"):
            target.writestr("bundle.json", "{}")
    return out.getvalue()


def damaged() -> bytes:
    data = bytearray(saved())
    data[data.index(FILES[Role.PROFILE].data)] ^= 1
    return bytes(data)


BAD: dict[str, tuple[Callable[[], bytes], str]] = {
    "no archive": (lambda: b"{}", "is no bundle"),
    "empty": (lambda: b"", "is no bundle"),
    "truncated": (lambda: saved()[:-30], "may not have been copied whole"),
    "cut in the middle": (lambda: saved()[:200], "may not have been copied whole"),
    "begins elsewhere": (lambda: saved()[:4] + saved()[60:], "damaged|is no bundle"),
    "a flipped bit": (damaged, "damaged"),
    "climbs": (lambda: archive({"../evil.txt": b"x"}), "outside itself"),
    "climbs backwards": (lambda: archive({"picture\\..\\..\\evil": b"x"}), "outside itself"),
    "absolute": (lambda: archive({"/etc/evil": b"x"}), "outside itself"),
    "a drive": (lambda: archive({"c:/evil": b"x"}), "outside itself"),
    "one name twice": (twice, "two files of one name"),
    "one name twice but for its case": (lambda: archive({"A": b"", "a": b""}), "two files of one name"),
    "encrypted": (lambda: encrypted(saved()), "encrypted"),
    "a link": (lambda: archive({"bundle.json": b"/etc/passwd"}, change=link), "a link to another file"),
    "a huge count": (lambda: counted(65535), "holds 65535 files"),
    "many": (lambda: archive({str(n): b"" for n in range(MOST_MEMBERS + 1)}), "holds 17 files"),
    "a bomb": (
        lambda: archive({"picture/a": bytes(20_000_000)}, packing=zipfile.ZIP_DEFLATED),
        "more than 100 times its size",
    ),
    "another packing": (lambda: repacked(archive({"a": b"x"})), "a way that is not read"),
    "another archive": (lambda: archive({"a.txt": b"x"}), "holds no bundle.json"),
    "no JSON": (lambda: archive({"bundle.json": b"{"}), "no JSON object"),
    "deep JSON": (lambda: archive({"bundle.json": b'{"a":' + b"[" * 9999}), "no JSON object"),
    "another format": (lambda: relisted(format="x"), "does not say so"),
    "a later version": (lambda: relisted(version=2), "a later version of this program saved"),
    "no version": (lambda: relisted(version=True), "does not say its version"),
    "no job": (lambda: relisted(job=1), "has no job"),
    "no files": (lambda: relisted(files=[]), "which files it holds"),
    "a file of another kind": (lambda: relisted(files={"film": {}}), "of a kind that is not known"),
    "a file without a hash": (
        lambda: relisted(files={"wall": {"path": "a"}}),
        "path, bytes and hash of its wall",
    ),
    "an unlisted file": (lambda: archive({**members(), "more": b""}), "does not name .'more'"),
    "a missing file": (
        lambda: archive({name: data for name, data in members().items() if name != "wall/wall.png"}),
        "lacks its wall",
    ),
    "marks without their photograph": (
        lambda: bundle_bytes(JOB, {Role.WALL_MARKS: FILES[Role.WALL_MARKS]}),
        "marks on a photograph of a wall, and no such photograph",
    ),
    "marks that are no object": (
        lambda: bundle_bytes(JOB, {**FILES, Role.WALL_MARKS: BundledFile(name="wall.json", data=b"[4]")}),
        "marks on the photograph of the wall in the bundle are no JSON object",
    ),
    "another picture": (
        lambda: archive({**members(), "picture/low- tide.jpg": b"another"}),
        "is not the one that was saved",
    ),
    "a job with another picture": (
        lambda: relisted(job={"picture": {"file": "x.jpg", "sha256": "0" * 64}}),
        "names another picture",
    ),
}


@pytest.mark.parametrize("kind", BAD)
def test_a_bad_bundle_is_refused_in_one_sentence(kind: str) -> None:
    make, said = BAD[kind]
    with pytest.raises(BundleError, match=said) as caught:
        open_bundle(make())
    assert caught.value.code == "bundle"
    assert "\n" not in str(caught.value)


def test_every_cut_of_a_bundle_is_refused() -> None:
    data = saved()
    for length in range(0, len(data), 37):
        with pytest.raises(BundleError):
            open_bundle(data[:length])


def test_a_wrong_job_names_its_field() -> None:
    with pytest.raises(FieldError, match="Bar depth must be 6 to 100 mm") as caught:
        open_bundle(relisted(job={"bars": {"depth_mm": 3}}))
    assert caught.value.field == "bars.depth_mm"
