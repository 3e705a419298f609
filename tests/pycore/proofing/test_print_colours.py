"""The print file's colours: kept, brought in, or converted, and never twice."""

from __future__ import annotations

import io
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import tifffile
from numpy.typing import NDArray
from PIL import Image

from pycore.colour.icc.endpoints import Standard
from pycore.colour.icc.profile import parse_profile
from pycore.colour.icc.transform import make_transform
from pycore.contract.job import Intent, Job
from pycore.errors import FieldError
from pycore.layout.grid import pixel_grid
from pycore.picture.read import read_picture
from pycore.picture.source import SourcePicture
from pycore.printing.report import FileKind
from pycore.printing.write import PrintRun
from pycore.progress import run_to_end
from pycore.proofing.print_colours import PrintColours, print_colours
from pycore.proofing.profile_store import ProfileStore
from pycore.render.preview import PreviewSource

#: tests/parity finds these numbers to be the same inside Pyodide.
pytestmark = pytest.mark.once

PROFILES = Path(__file__).parents[1] / "colour" / "data"


def colours_of(job: Job, source: SourcePicture) -> PrintColours | None:
    return run_to_end(print_colours(job, ProfileStore(), PreviewSource(source)))


def written(job: Job, source: SourcePicture) -> tuple[Image.Image, list[str]]:
    out = io.BytesIO()
    run = PrintRun(
        source, job, kind=FileKind.TIFF, out=out, date="2031-04-30", colours=colours_of(job, source)
    )
    for _ in run.steps():
        pass
    image = Image.open(io.BytesIO(out.getvalue()))
    image.load()
    return image, [note.code for note in run.notes]


def test_nothing_is_done_unless_it_is_asked_for(job: Callable[..., Job], source: SourcePicture) -> None:
    assert colours_of(job(), source) is None


def test_converted_values_are_the_engine_s(job: Callable[..., Job], source: SourcePicture) -> None:
    made = job(print={"ppi": 72, "convert": "convert", "marks": False})
    image, codes = written(made, source)
    assert "file-for-no-canvas" in codes
    # No printer's own values: nobody is told how to print them.
    assert "file-converted" not in codes
    profile = ProfileStore().profile("illustrative-matte")
    assert image.info["icc_profile"] == profile.data
    to_device = make_transform(
        Standard.SRGB,
        parse_profile(profile.data),
        intent=Intent.RELATIVE,
        black_point_compensation=True,
    )
    grid = pixel_grid(made, ppi=72)
    pixels = np.asarray(image)
    row = (grid.rows[2] + grid.rows[3]) // 2
    left, right = grid.columns[2], grid.columns[3]
    for share, rgb in ((0.3, (128, 128, 128)), (0.8, (255, 0, 0))):
        expected = to_device(np.array([rgb]) / 255.0)[0] * 255
        # derived: rounded to 8 bits, half a level
        assert pixels[row, int(left + share * (right - left))] == pytest.approx(expected, abs=0.6)
    # Bare canvas stays without ink.
    assert np.all(pixels[: grid.rows[1]] == 255)


def test_a_real_canvas_s_values_must_not_be_converted_again(
    job: Callable[..., Job], source: SourcePicture
) -> None:
    profiles = ProfileStore()
    profiles.keep(replace(profiles.profile("illustrative-matte"), illustration=False))
    made = print_colours(job(print={"convert": "convert"}), profiles, PreviewSource(source))
    colours = run_to_end(made)
    assert colours is not None
    assert [note.code for note in colours.notes] == ["file-converted"]


def test_brought_in_without_converting_keeps_the_profile(
    job: Callable[..., Job], source: SourcePicture
) -> None:
    plain, _ = written(job(), source)
    moved, codes = written(job(colour={"bring_in": 1}), source)
    assert moved.info.get("icc_profile") == plain.info.get("icc_profile")
    assert "file-converted" not in codes
    before, after = np.asarray(plain).astype(int), np.asarray(moved).astype(int)
    grid = pixel_grid(job(), ppi=72)
    row, red = (grid.rows[2] + grid.rows[3]) // 2, grid.columns[3] - 20
    assert np.abs(before[row, red] - after[row, red]).max() > 20
    grey = grid.columns[2] + (grid.columns[3] - grid.columns[2]) * 3 // 10
    assert np.abs(before[row, grey] - after[row, grey]).max() <= 1


@pytest.mark.parametrize("mode", ["L", "CMYK"])
def test_a_grey_or_cmyk_picture_is_converted_but_not_only_brought_in(
    mode: str, job: Callable[..., Job]
) -> None:
    out = io.BytesIO()
    Image.new(mode, (120, 90), 90 if mode == "L" else (10, 200, 30, 0)).save(out, "TIFF")
    source = read_picture(out.getvalue(), file="one.tif")
    with pytest.raises(FieldError) as caught:
        colours_of(job(colour={"bring_in": 1}), source)
    assert caught.value.field == "colour.bring_in"
    image, _ = written(job(print={"ppi": 72, "convert": "convert"}), source)
    assert image.mode == "RGB"


def test_an_unknown_profile_is_refused(job: Callable[..., Job], source: SourcePicture) -> None:
    made: Any = job(print={"convert": "convert"}, colour={"profile": "gone.icc"})
    with pytest.raises(FieldError, match=r"gone\.icc"):
        colours_of(made, source)


def in_profile(pixels: NDArray[np.uint8], profile: bytes, mode: str) -> SourcePicture:
    """A picture with a profile of its own."""
    out = io.BytesIO()
    size = (pixels.shape[1], pixels.shape[0])
    Image.frombytes(mode, size, pixels.tobytes()).save(out, "TIFF", icc_profile=profile)
    return read_picture(out.getvalue(), file="own.tif")


def resaved(profile: bytes) -> bytes:
    """The same profile saved at another time by somebody else."""
    return (
        profile[:24] + bytes([7, 236, 0, 5, 0, 6, 0, 0, 0, 0, 0, 0]) + profile[36:80] + b"else" + profile[84:]
    )


def renamed(profile: bytes) -> bytes:
    """The same profile under another name of the same length."""
    other = profile.replace(b"Illustrative matte canvas", b"Renamed, otherwise alike!")
    assert other != profile
    return other


@pytest.mark.parametrize("strength", [0, 1])
@pytest.mark.parametrize("change", [bytes, resaved, renamed])
def test_a_picture_in_the_canvas_s_profile_is_left_alone(
    change: Callable[[bytes], bytes], strength: float, job: Callable[..., Job]
) -> None:
    profile = ProfileStore().profile("illustrative-matte")
    pixels = np.random.default_rng(16).integers(0, 256, (240, 320, 3), dtype=np.uint8)
    source = in_profile(pixels, change(profile.data), "RGB")
    made = job(print={"ppi": 72, "convert": "convert", "marks": False}, colour={"bring_in": strength})
    image, codes = written(made, source)
    plain, kept_codes = written(job(print={"ppi": 72, "marks": False}), source)
    assert np.array_equal(np.asarray(image), np.asarray(plain))
    assert image.info["icc_profile"] == plain.info["icc_profile"] == source.profile
    # Who keeps the colours is told not to have them converted, too.
    assert "already-converted" in kept_codes
    assert "file-for-no-canvas" not in kept_codes
    # One note says what not to do, and none says that anything was converted.
    assert "already-converted" in codes
    assert "file-converted" not in codes
    if strength:
        kept, codes = written(job(print={"ppi": 72, "marks": False}, colour={"bring_in": strength}), source)
        assert np.array_equal(np.asarray(kept), np.asarray(plain))
        assert {"nothing-to-bring-in", "already-converted"} <= set(codes)


def test_another_profile_of_the_same_size_is_not_the_same(job: Callable[..., Job]) -> None:
    profile = ProfileStore().profile("illustrative-matte").data
    other = profile[:-2000] + bytes(1) + profile[-1999:]
    assert other != profile
    source = in_profile(np.full((120, 160, 3), 128, np.uint8), other, "RGB")
    colours = colours_of(job(print={"convert": "convert"}), source)
    assert colours is not None
    assert "already-converted" not in [note.code for note in colours.notes]


@pytest.mark.parametrize("name", ["cmyk-v2", "grey-v2"])
def test_inks_and_grey_go_straight_to_the_canvas(name: str, job: Callable[..., Job]) -> None:
    own = (PROFILES / f"{name}.icc").read_bytes()
    mode, values = ("CMYK", (230, 20, 0, 0)) if name == "cmyk-v2" else ("L", (90,))
    pixels = np.full((240, 320, len(values)), values, np.uint8)
    source = in_profile(pixels[..., 0] if mode == "L" else pixels, own, mode)
    made = job(print={"ppi": 72, "convert": "convert", "marks": False})
    image, _ = written(made, source)
    assert image.mode == "RGB"
    profile = ProfileStore().profile("illustrative-matte")
    straight = make_transform(
        parse_profile(own), profile.gamut.profile, intent=Intent.RELATIVE, black_point_compensation=True
    )
    expected = straight(np.array([values]) / 255.0)[0] * 255.0
    grid = pixel_grid(made, ppi=72)
    row, column = (grid.rows[2] + grid.rows[3]) // 2, (grid.columns[2] + grid.columns[3]) // 2
    # derived: rounded to 8 bits, and the table of four inks adds a little
    assert np.asarray(image)[row, column] == pytest.approx(expected, abs=0.7)
    # Bare canvas stays without ink.
    assert np.all(np.asarray(image)[: grid.rows[1]] == 255)


@pytest.mark.parametrize("strength", [0, 1])
def test_deeper_strips_join_and_keep_their_mean(
    strength: float, job: Callable[..., Job], source: SourcePicture
) -> None:
    """16 bits of a file that is converted or only brought in, and their mean in 8."""
    convert = "keep" if strength else "convert"
    colours = colours_of(job(print={"convert": convert}, colour={"bring_in": strength}), source)
    assert colours is not None
    words = np.full((64, 64, 3), (30_111, 20_222, 25_333), np.uint16)
    wide = colours.convert(words, bits=16, row=0, column=0)
    narrow = colours.convert(words, bits=8, row=0, column=0)
    assert wide.dtype == np.uint16
    assert narrow.dtype == np.uint8
    # derived: the pattern's 4096 places stand evenly between two levels
    assert np.abs(narrow.mean(axis=(0, 1)) - wide[0, 0] / 257.0).max() < 0.03
    assert np.ptp(narrow, axis=(0, 1)).max() == 1
    lower = colours.convert(words[20:], bits=8, row=20, column=0)
    assert np.array_equal(narrow[20:], lower)


def deep_picture(values: NDArray[np.uint16], photometric: str) -> SourcePicture:
    """A TIFF of 16 bits without a profile."""
    out = io.BytesIO()
    tifffile.imwrite(out, values, photometric=photometric, metadata=None)
    return read_picture(out.getvalue(), file="deep.tif")


@pytest.mark.parametrize("change", ["convert", "bring_in"])
def test_a_file_of_8_bits_keeps_the_mean_of_a_picture_of_16(change: str, job: Callable[..., Job]) -> None:
    """Derived: half a level lies between two of 8 bits; rounded before, the mean would be 0.5 levels off."""
    more = {"convert": "convert"} if change == "convert" else {}
    colour = {"bring_in": 1} if change == "bring_in" else {}
    values = np.full((240, 320, 3), 257 * 120 + 128, np.uint16)
    # Without a colour that the canvas cannot hold nothing is brought in.
    values[:, 200:] = (65535, 0, 0)
    source = deep_picture(values, "rgb")
    found = []
    for bits in (8, 16):
        made = job(print={"ppi": 72, "marks": False, "bits": bits} | more, colour=colour)
        out = io.BytesIO()
        run = PrintRun(
            source, made, kind=FileKind.TIFF, out=out, date="2031-04-30", colours=colours_of(made, source)
        )
        for _ in run.steps():
            pass
        grid = pixel_grid(made, ppi=72)
        pixels = tifffile.imread(io.BytesIO(out.getvalue()))
        middle = (grid.columns[2] + grid.columns[3]) // 2
        found.append(pixels[grid.rows[2] : grid.rows[3], grid.columns[2] : middle])
    eight, sixteen = found
    assert np.ptp(sixteen, axis=(0, 1)).max() == 0
    assert np.abs(eight.mean(axis=(0, 1)) - sixteen[0, 0] / 257).max() < 0.02
    assert np.ptp(eight, axis=(0, 1)).max() == 1


@pytest.mark.parametrize(("photometric", "channels"), [("minisblack", 1), ("separated", 4)])
def test_16_bits_without_a_profile_become_rgb_as_8_do(
    photometric: str, channels: int, job: Callable[..., Job]
) -> None:
    """Derived: by the same rule, which rounds once at either depth."""
    noise = np.random.default_rng(3).integers(0, 256, (240, 320, channels), dtype=np.uint8)
    source = deep_picture(np.squeeze(noise * np.uint16(257)), photometric)
    colours = colours_of(job(print={"convert": "convert"}), source)
    assert colours is not None
    assert colours.source.deep is not None
    deep = colours.source.deep.read()
    assert np.abs(deep / 257 - np.asarray(colours.source.image)).max() <= 0.51


def test_inks_without_a_profile_are_told_in_one_note() -> None:
    source = deep_picture(np.zeros((240, 320, 4), np.uint16), "separated")
    told = [note for note in source.info.notes if note.code == "profile-missing"]
    assert len(told) == 1
    assert "plain formula" in told[0].message
