"""The proof strip: pixels of the print file, the profile's promise, and the errors of colour-science."""

from __future__ import annotations

import io
import warnings
from functools import lru_cache
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import tifffile
from PIL import Image

from pycore.colour.cgats.table import CgatsTable
from pycore.colour.cgats.write import write_cgats
from pycore.colour.icc.endpoints import Standard
from pycore.colour.icc.profile import parse_profile
from pycore.colour.icc.standard_profiles import srgb_profile
from pycore.colour.icc.transform import make_transform
from pycore.contract.check import check_job
from pycore.contract.job import Intent, Job
from pycore.errors import FieldError
from pycore.layout.grid import pixel_grid
from pycore.printing.lettering import LINE_PX, letters
from pycore.printing.report import FileKind
from pycore.progress import run_to_end
from pycore.proofing.profile_store import ProfileStore
from pycore.speech import speaking
from pycore.strip.make import ProofStrip, make_strip
from pycore.strip.paper import draw_strip
from pycore.strip.places import strip_pieces
from pycore.strip.values import read_values, values_text
from pycore.tasks.open_picture import OpenPicture, open_picture
from pycore.tasks.print_file import print_files
from pycore.tasks.strip import WrittenStrip, measure_strip, write_strip

DAY = "2031-04-30"


@lru_cache
def picture(mode: str = "RGB") -> OpenPicture:
    """Grey, the primaries of sRGB, and a ramp: much of it outside the gamut."""
    pixels = np.full((200, 260, 3), 128, np.uint8)
    pixels[20:90, 130:] = (255, 0, 0)
    pixels[90:160, 130:] = (0, 0, 255)
    pixels[160:] = np.arange(260)[:, None] * 255 // 259
    # So that no piece of it stands in two places.
    pixels ^= np.random.default_rng(5).integers(0, 4, pixels.shape, np.uint8)
    out = io.BytesIO()
    Image.fromarray(pixels).convert(mode).save(out, "TIFF")
    return run_to_end(open_picture(out.getvalue(), file="shapes.tif"))


def job(**parts: Any) -> Job:
    small = {"face": {"width_mm": 160, "height_mm": 120}, "print": {"ppi": 72, "marks": False}}
    return check_job({name: {**small.get(name, {}), **part} for name, part in {**small, **parts}.items()})


@lru_cache
def profiles() -> ProfileStore:
    """Of all tests: to make the canvas's gamut takes longer than a strip."""
    return ProfileStore()


@lru_cache
def made(asked: Job, of: OpenPicture) -> ProofStrip:
    return run_to_end(make_strip(asked, of.preview, profiles(), date=DAY))


def written(asked: Job, of: OpenPicture) -> tuple[WrittenStrip, bytes]:
    out = io.BytesIO()
    found = run_to_end(
        write_strip(asked, of, profiles(), out=out, file="s.tif", values_file="s.cgats.txt", date=DAY)
    )
    return found, out.getvalue()


def contains(whole: np.ndarray[Any, Any], part: np.ndarray[Any, Any]) -> bool:
    """Whether a piece of a picture stands in another, pixel by pixel."""
    high, wide = part.shape[:2]
    rows, columns = whole.shape[0] - high + 1, whole.shape[1] - wide + 1
    may_be = np.ones((rows, columns), np.bool_)
    for y, x in np.random.default_rng(1).integers((0, 0), (high, wide), (60, 2)):
        may_be &= (whole[y : y + rows, x : x + columns] == part[y, x]).all(axis=2)
    places = np.argwhere(may_be)
    return any(np.array_equal(whole[y : y + high, x : x + wide], part) for y, x in places)


@pytest.mark.native
@pytest.mark.parametrize(
    ("bits", "convert", "bring_in"), [(8, "keep", 0.0), (8, "convert", 1.0), (16, "convert", 0.0)]
)
def test_the_pieces_are_the_print_files(bits: int, convert: str, bring_in: float, tmp_path: Path) -> None:
    asked = job(print={"bits": bits, "convert": convert}, colour={"bring_in": bring_in})
    of = picture()
    out = tmp_path / "print.tif"
    run_to_end(print_files(asked, of, profiles(), kind=FileKind.TIFF, date=DAY, places={1: out}))
    canvas = tifffile.imread(out)
    strip = made(asked, of)
    # derived: 45 mm of the face at 72 ppi are 128 pixels, 90 mm 255; the detail stands above the piece of
    # the side, which has 10 mm of face, 20 mm of side and 6 mm of ink behind: 28 + 57 + 17 pixels; a gap
    # and a line of letters lie between, a margin of 5 mm, 14 pixels, below.
    side_high, gap_high = 28 + 57 + 17, 11 + 4
    end = len(strip.pixels) - 14
    side = strip.pixels[end - side_high + 4 : end - 4, 20:260]
    detail = strip.pixels[end - side_high - gap_high - 120 : end - side_high - gap_high - 8, 20:260]
    turned = [np.rot90(side, -turns) for turns in range(4)]
    assert contains(canvas, detail)
    assert any(contains(canvas, one) for one in turned)


def test_the_file_is_as_the_print_file(tmp_path: Path) -> None:
    asked = job(print={"bits": 16, "convert": "convert"})
    found, data = written(asked, picture())
    out = tmp_path / "print.tif"
    (printed,) = run_to_end(
        print_files(asked, picture(), profiles(), kind=FileKind.TIFF, date=DAY, places={1: out})
    )
    assert (found.report.bits, found.report.profile_name) == (16, printed.report.profile_name)
    with Image.open(io.BytesIO(data)) as strip, Image.open(out) as print_file:
        assert strip.info["icc_profile"] == print_file.info["icc_profile"]
    # common practice: as wide as a hand
    assert found.report.size_mm[0] == pytest.approx(100, abs=0.2)


@pytest.mark.parametrize("intent", ["relative", "absolute", "perceptual"])
def test_the_promise_is_the_profiles(intent: str) -> None:
    asked = job(colour={"intent": intent})
    strip = made(asked, picture())
    canvas = profiles().profile("illustrative-matte")
    assert strip.profile == srgb_profile("RGB")
    # derived: the printing program's one conversion from the file's profile, then the canvas's absolute
    # colorimetry
    device = make_transform(
        parse_profile(strip.profile),
        canvas.gamut.profile,
        intent=Intent(intent),
        black_point_compensation=True,
    )(strip.values / 255.0)
    lab = make_transform(
        parse_profile(canvas.data), Standard.LAB, intent=Intent.ABSOLUTE, black_point_compensation=False
    )(device)
    assert np.abs(strip.lab_d50 - lab).max() < 1e-9
    # regression: bare canvas, nine greys, and mean and worst of each group; red and blue clip
    assert strip.names[0] == "bare canvas"
    assert {"red, worst", "red, mean"} <= set(strip.names)


@pytest.mark.native
def test_a_german_strip_is_lettered_in_german_and_its_values_are_plain() -> None:
    """Derived: at 150 ppi 16 mm hold 14 letters, fewer than “A1 nackte Leinwand” has: it takes two lines."""
    with speaking("de"):
        strip = made(job(print={"ppi": 150}), picture())
    assert {"bare canvas", "grey 128", "red, worst"} <= set(strip.names)
    assert "".join(strip.names).isascii()
    assert strip.conditions.endswith("relative, with BPC, to be converted when it is printed, 8 bits")

    def lettered(text: str) -> bool:
        bits = letters(text, enlarged=1)[..., np.newaxis]
        return contains(strip.pixels[:340], np.where(bits, 0, 255).repeat(3, axis=2).astype(np.uint8))

    assert lettered("A1 nackte")
    assert lettered("Leinwand")
    assert lettered("B1 Grau 128")
    assert not lettered("B1 grey 128")


@pytest.mark.native
def test_a_line_that_is_too_long_goes_on_below() -> None:
    """Derived: 90 mm at 72 ppi are 255 pixels and hold 41 letters of 6 pixels: eight of the words."""
    bare = np.full(3, 255, np.uint8)
    drawn = [
        draw_strip([text], [], [], columns=5, bare=bare, ppi=72, is_cmyk=False)
        for text in ("word " * 8, "word " * 9, "word " * 24)
    ]
    heights = [len(one) for one in drawn]
    assert heights[1] - heights[0] == LINE_PX
    assert heights[2] - heights[0] == 2 * LINE_PX


def test_where_nothing_clips_each_hue_has_a_patch() -> None:
    """Derived: grey and a muted blue lie within the gamut; the mean of one colour is that colour."""
    pixels = np.full((200, 260, 3), 128, np.uint8)
    pixels[:, 130:] = (110, 120, 140)
    out = io.BytesIO()
    Image.fromarray(pixels).save(out, "TIFF")
    strip = made(job(), run_to_end(open_picture(out.getvalue(), file="muted.tif")))
    groups = {name: values.tolist() for name, values in zip(strip.names, strip.values, strict=True)}
    assert groups["greys, mean"] == [128, 128, 128]
    assert groups["blue, mean"] == [110, 120, 140]
    assert not [name for name in groups if name.endswith("worst")]


def test_a_converted_strip_keeps_what_the_kept_one_promises() -> None:
    kept = made(job(), picture())
    converted = made(job(print={"convert": "convert", "bits": 16}), picture())
    assert kept.names == converted.names
    # The way through 16 bits and the pixel tables is as near as the print file's own conversion: 0.5 dE.
    assert np.abs(kept.lab_d50 - converted.lab_d50).max() < 0.5


def measured_text(strip: ProofStrip, lab: np.ndarray[Any, Any], **keywords: tuple[str, ...]) -> bytes:
    rows = tuple(
        (patch, *(f"{one:.4f}" for one in values)) for patch, values in zip(strip.ids, lab, strict=True)
    )
    table = CgatsTable(fields=("SAMPLE_ID", "LAB_L", "LAB_A", "LAB_B"), rows=rows[::-1], keywords=keywords)
    return write_cgats(table).encode()


@pytest.mark.native
def test_a_measured_strip_has_colour_sciences_errors() -> None:
    with warnings.catch_warnings():
        # It warns, when it is imported, that its plots want Matplotlib; nothing here plots.
        warnings.filterwarnings("ignore", message='"Matplotlib" related API features are not available')
        import colour

    strip = made(job(), picture())
    noisy = strip.lab_d50 + np.random.default_rng(7).normal(0, 2, strip.lab_d50.shape)
    expected = values_text(strip, date=DAY, origin="a test").encode()
    check = measure_strip(expected=expected, measured=measured_text(strip, noisy))
    # published: colour-science's ISO/CIE 11664-6
    errors = colour.difference.delta_E_CIE2000(strip.lab_d50, noisy)
    assert check.mean_de == pytest.approx(errors.mean(), abs=0.01)
    assert check.worst_de == pytest.approx(errors.max(), abs=0.01)
    order = np.argsort(-errors)
    assert [one.id for one in check.patches] == [strip.ids[place] for place in order]
    assert [one.de for one in check.patches] == pytest.approx(errors[order].tolist(), abs=0.01)
    assert not check.doubtful


def test_values_numbered_in_the_strips_order_are_taken() -> None:
    strip = made(job(), picture())
    expected = values_text(strip, date=DAY, origin="a test").encode()
    rows = "".join(f"{n} {a:.4f} {b:.4f} {c:.4f}\n" for n, (a, b, c) in enumerate(strip.lab_d50, start=1))
    head = "CGATS.17\nBEGIN_DATA_FORMAT\nSAMPLE_ID LAB_L LAB_A LAB_B\nEND_DATA_FORMAT\nBEGIN_DATA\n"
    check = measure_strip(expected=expected, measured=f"{head}{rows}END_DATA\n".encode())
    # derived: three digits of the text, half of the last one in each of three
    assert check.worst_de < 0.002


def test_values_of_another_strip_are_refused() -> None:
    strip = made(job(), picture())
    expected = values_text(strip, date=DAY, origin="a test").encode()
    other = measured_text(strip, strip.lab_d50, STRIP_ID=("ffffffff",))
    with pytest.raises(FieldError, match=f"of the strip ffffffff, not of {strip.strip_id}"):
        measure_strip(expected=expected, measured=other)
    fewer = measured_text(strip, strip.lab_d50).replace(f"NUMBER_OF_SETS\t{len(strip.ids)}".encode(), b"#")
    fewer = b"".join(line for line in fewer.splitlines(True) if not line.startswith(b"B2\t"))
    with pytest.raises(FieldError, match=f"have {len(strip.ids) - 1} patches, and the strip has"):
        measure_strip(expected=expected, measured=fewer)
    renamed = measured_text(strip, strip.lab_d50).replace(b"\nB2\t", b"\nZ9\t")
    with pytest.raises(FieldError, match="have no patch B2"):
        measure_strip(expected=expected, measured=renamed)
    twice = measured_text(strip, strip.lab_d50).replace(b"\nB2\t", b"\nB1\t")
    with pytest.raises(FieldError, match="The patch B1 stands in the CGATS text twice"):
        measure_strip(expected=expected, measured=twice)


def test_the_values_beside_the_strip_are_its_report() -> None:
    found, _ = written(job(), picture())
    read = read_values(found.values, name="expected")
    assert read.ids == [one.id for one in found.report.patches]
    assert read.strip_id == found.report.strip_id
    assert np.abs(read.lab_d50 - [one.lab for one in found.report.patches]).max() <= 0.0005


@pytest.mark.parametrize("mode", ["L", "CMYK"])
def test_other_pictures_are_converted_too(mode: str) -> None:
    strip = made(job(print={"convert": "convert"}), picture(mode))
    assert strip.mode == "RGB"
    assert len(strip.names) >= 10


def test_a_grey_picture_keeps_its_grey() -> None:
    strip = made(job(), picture("L"))
    assert strip.mode == "L"
    assert strip.pixels.shape[2] == 1


def test_inks_that_nobody_knows_are_refused() -> None:
    with pytest.raises(FieldError, match="nobody knows which colours"):
        made(job(), picture("CMYK"))


@pytest.mark.native
def test_a_side_shorter_than_the_strip_is_shown_whole() -> None:
    """Derived: at 72 ppi 60 mm are 170 pixels; the piece ends where the face ends, not on the corners.

    Turned counter-clockwise, a right side's outer edge is above after one quarter, a left side's after three.
    """
    grid = pixel_grid(check_job({"face": {"width_mm": 200, "height_mm": 60}}), ppi=72)
    for column, turns in ((grid.columns[3] + 1, 1), (grid.columns[2] - 2, 3)):
        labels = np.zeros((grid.height_px, grid.width_px), np.uint8)
        labels[grid.rows[2] : grid.rows[3], column] = 1
        _, side = strip_pieces(labels, grid, grid, width_px=255)
        assert side.turns == turns
        assert (side.box.top, side.box.bottom) == (grid.rows[2], grid.rows[3])
        assert side.box.bottom - side.box.top == pytest.approx(170, abs=3)


def test_a_group_has_pieces_of_the_panel_that_clips_most(tmp_path: Path) -> None:
    # Red and blue stand in the right half of the picture, which is the second panel's.
    asked = job(face={"width_mm": 120, "height_mm": 180}, group={"panels": 2, "gap_mm": 0})
    strip = made(asked, picture())
    # derived: 100 mm at 72 ppi are 283.5 pixels, rounded half up
    assert strip.pixels.shape[1] == 283
    outs = {1: tmp_path / "left.tif", 2: tmp_path / "right.tif"}
    run_to_end(print_files(asked, picture(), profiles(), kind=FileKind.TIFF, date=DAY, places=outs))
    # derived: as for one canvas; the detail stands above the piece of a side, and a gap and letters between.
    end = len(strip.pixels) - 14 - (28 + 57 + 17) - (11 + 4)
    detail = strip.pixels[end - 120 : end - 8, 20:260]
    assert [contains(tifffile.imread(out), detail) for out in outs.values()] == [False, True]
    # Its patches are of all panels: red stands in this one alone.
    assert "red, worst" in strip.names
