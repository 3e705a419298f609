"""The client's page: user text stays text, nothing private is in it, it keeps its size, and all is there."""

from __future__ import annotations

import base64
from itertools import pairwise

import numpy as np
import pytest

from pycore.client.page import make_client_page
from pycore.client.recheck import LARGEST_BYTES, check_client_page
from pycore.client.surroundings import LightFrom, Surroundings, Wall
from pycore.errors import FieldError, OutputError
from pycore.progress import run_to_end
from pycore.proofing.profile_store import ProfileStore

from .made_page import VIEWER, image_of, page, preview, read, variants

MARKUP = "</script></textarea></title><img src=x onerror=alert(1)><script>alert(2)</script>\" ' & <!--"
HEBREW = "\u05e9\u05dc\u05d5\u05dd \u05e2\u05d5\u05dc\u05dd"
ARABIC = "\u0645\u0631\u062d\u0628\u0627"
CJK = "\u6f6e\u304c\u5f15\u304f\u6d77"


def test_a_page_holds_what_the_client_needs() -> None:
    made = page(variants({"name": "Low tide", "client": "Mara Quill"}), message="See the sides.")
    found = read(made.data)
    assert check_client_page(made.data, file="a.html", variants=1).bytes == len(made.data)
    # Derived: 160 / 25.4 = 6.299, 120 / 25.4 = 4.724, 20 / 25.4 = 0.787.
    for text in (
        "Low tide",
        "Mara Quill",
        "See the sides.",
        "30 April 2031",
        "160 \N{MULTIPLICATION SIGN} 120 mm (6.3 \N{MULTIPLICATION SIGN} 4.72 in)",
        "20 mm (0.79 in) off the wall",
        "What to expect of matte canvas",
        "Common practice",
        "I say yes to this canvas.",
    ):
        assert text in found.text
    assert found.offer["variants"][0]["sizes"]["depthMm"] == 20


@pytest.mark.parametrize("text", [MARKUP, HEBREW, ARABIC, CJK, "a\u2028b\u2029c", "@@OFFER@@ @@VIEWER@@"])
def test_what_a_user_writes_stays_text(text: str) -> None:
    plain = read(page(variants({"name": "n", "client": "c"}, {}, labels=["l", "m"]), message="m").data)
    offered = variants({"name": text, "client": text}, {}, labels=[text, "m"])
    made = page(offered, message=text)
    assert check_client_page(made.data, file="a.html", variants=2).variants == 2
    found = read(made.data)
    assert found.tags == plain.tags
    assert [name for name, _ in found.attributes] == [name for name, _ in plain.attributes]
    # Title, heading, client, message, still's caption, choice; and the answer twice, three times in each.
    # Derived: six, and two texts with label, name and client.
    assert " ".join(found.text.split()).count(" ".join(text.split())) == 6 + 2 * 3
    # Whatever breaks a line is kept where the text stands by itself.
    assert found.text.count(text) >= 6
    first = found.offer["variants"][0]
    assert first["label"] == text
    assert "\n".join(first["answer"]).count(" ".join(text.split())) == 3


def test_the_data_hold_no_character_that_html_or_javascript_minds() -> None:
    made = page(variants({"name": MARKUP}, {}, labels=[MARKUP, "\u2028"]))
    text = made.data.decode().partition('id="offer">')[2].partition("</script>")[0]
    assert text.isascii()
    assert not set(text) & set("<>&")


def test_a_very_long_text_is_kept_whole_but_in_the_title() -> None:
    long = "x" * 2000
    made = page(variants({"name": long, "client": long}), message=long)
    head, _, body = made.data.decode().partition("</title>")
    assert head.endswith("<title>" + "x" * 120)
    # Derived: heading, client, message; name and client in the answer, which stands there twice and once more
    # in the data.
    assert body.count(long) == 3 + 2 * 3


def test_what_no_page_can_show_is_marked() -> None:
    found = read(page(variants({"name": "a\x00b\x1bc"}), message="one\r\ntwo").data)
    assert "a\N{REPLACEMENT CHARACTER}b\N{REPLACEMENT CHARACTER}c" in found.text
    assert "one\ntwo" in found.text


def test_nothing_private_is_in_it() -> None:
    job = {
        "notes": "charge double",
        "picture": {"file": "secret-holiday-place.png"},
        "sheet": {"width_mm": 611},
        "colour": {"profile": "illustrative-matte"},
    }
    text = page(variants(job)).data.decode()
    for private in ("charge double", "secret-holiday", ".png", "611", "/home", "illustrative"):
        assert private not in text


def test_a_variant_that_is_called_by_its_profiles_file_is_a_letter_to_the_client() -> None:
    found = read(page(variants({}, {"bars": {"depth_mm": 30}}, labels=["illustrative-matte", "30 mm"])).data)
    assert [one["label"] for one in found.offer["variants"]] == ["", "30 mm"]
    assert "illustrative" not in found.text


def test_the_picture_is_not_in_it_at_full_size() -> None:
    found = read(page(variants({}), preview(320, 240)).data)
    texture = image_of(found.offer["textures"][0])
    # Derived: the flat canvas is 160.9 + 2 (20 + 25) = 250.9 mm wide, of which the face's 160.9 mm may hold
    # at most 320 sqrt(1/2) = 226 pixels; half a pixel for rounding either line.
    assert texture.width * 160.9 / 250.9 <= 226 + 1
    assert texture.width * 160.9 / 250.9 > 200


def test_a_large_picture_is_reduced_to_about_two_million_pixels() -> None:
    found = read(page(variants({}), preview(3000, 2250)).data)
    width, height = image_of(found.offer["textures"][0]).size
    # Derived: at most 1.8 million, and by steps of an eighth of an octave at least 1.8 / 2^(1/4) million.
    assert 1_500_000 < width * height <= 1_810_000


def test_the_page_keeps_its_size_with_the_worst_pictures() -> None:
    sides = ("mirror", "run-on", "drawn-out", "plain")
    made = page(variants(*({"sides": {"fill": fill}} for fill in sides)), preview(2400, 1800, noise=True))
    assert check_client_page(made.data, file="a.html", variants=4).bytes < LARGEST_BYTES == 6_000_000
    assert len(read(made.data).offer["textures"]) == 4


def test_textures_and_folds_are_shared() -> None:
    offered = variants({}, {"name": "same"}, {"bars": {"depth_mm": 30}}, {"sides": {"fill": "plain"}})
    found = read(page(offered).data)
    places = [(one["texture"], one["fold"]) for one in found.offer["variants"]]
    assert places == [(0, 0), (0, 0), (1, 1), (2, 0)]
    assert (len(found.offer["textures"]), len(found.offer["folds"])) == (3, 2)
    # The first is chosen at the start, and it alone.
    chosen = [before for before, one in pairwise(found.attributes) if one == ("checked", "")]
    assert chosen == [("value", "0")]


def test_the_texture_lies_on_the_fold_by_the_canvas_s_own_lines() -> None:
    """Derived: the front edges lie 25 + 20 mm in on a canvas of 250.9 x 210.9 mm."""
    found = read(page(variants({})).data)
    texture, fold = image_of(found.offer["textures"][0]), found.offer["folds"][0]
    uv = np.frombuffer(base64.b64decode(fold["uv"]), "<f4").reshape(-1, 2)
    for axis, (canvas_mm, size_px) in enumerate(zip((250.9, 210.9), texture.size, strict=True)):
        for line in (45 / canvas_mm, 1 - 45 / canvas_mm):
            assert np.abs(uv[:, axis] - line).min() < 0.6 / size_px


def test_bars_are_as_wide_as_the_job_says() -> None:
    found = read(page(variants({}, {"bars": {"width_mm": 55}}, labels=["usual", "wide"])).data)
    sizes = [one["sizes"] for one in found.offer["variants"]]
    assert "barWidthMm" not in sizes[0]
    assert sizes[1]["barWidthMm"] == 55


def test_a_groups_panels_stand_below_one_another_in_the_texture() -> None:
    made = page(variants({"group": {"panels": 3, "gap_mm": 40}}), preview(960, 240))
    assert check_client_page(made.data, file="a.html", variants=1).variants == 1
    found = read(made.data)
    panels = found.offer["variants"][0]["panels"]
    # Derived: a pitch of 160 + 2 x 0.45 + 40 mm; each panel has a third of the rows.
    assert [one["centreMm"] for one in panels] == [[-200.9, 0], [0, 0], [200.9, 0]]
    assert [one["top"] * 3 for one in panels] == [0, 1, 2]
    texture = np.asarray(image_of(found.offer["textures"][0])).astype(int)
    height, width = texture.shape[0] // 3, texture.shape[1]
    # The ramp runs on from panel to panel: each one's middle is brighter than the one's before.
    middles = [texture[number * height + height // 2, width // 2, 0] for number in range(3)]
    assert middles[0] + 30 < middles[1] < middles[2] - 30


def test_the_print_is_shown_and_not_the_file() -> None:
    found = read(page(variants({})).data)
    texture = image_of(found.offer["textures"][0])
    # The ramp's left end is (0, 0, 128): darker than the canvas's black can be, so the proof is paler.
    face_left = round(texture.width * 46 / 250.9)
    pixel = texture.getpixel((face_left, texture.height // 2))
    assert isinstance(pixel, tuple)
    assert min(pixel) > 8


def test_the_room_is_the_photographers() -> None:
    room = Surroundings(wall=Wall.SAGE, light_from=LightFrom.RIGHT, light_kelvin=3000)
    steps = make_client_page(
        variants({}),
        preview(),
        ProfileStore(),
        viewer=VIEWER,
        message="",
        date="2031-04-30",
        surroundings=room,
    )
    assert Surroundings.model_validate(read(run_to_end(steps).data).offer["surroundings"]) == room


def test_the_photographer_hears_what_the_client_sees() -> None:
    assert [note.code for note in page(variants({})).notes] == ["client-illustration"]


def test_what_no_sheet_holds_is_not_offered_without_a_word() -> None:
    """Derived: 329 x 483 mm hold no canvas of 2000 mm."""
    wide = {"face": {"width_mm": 2000, "height_mm": 200}}
    alone = {note.code: note for note in page(variants(wide)).notes}["client-sheet-short"]
    assert alone.message == "The client may say yes to what the loaded sheet or roll does not hold."
    among = {note.code: note for note in page(variants({}, wide)).notes}["client-sheet-short"]
    assert among.message.endswith("does not hold: B.")


def test_a_date_that_is_none_is_refused() -> None:
    with pytest.raises(FieldError, match="The date must be a day as YYYY-MM-DD; you gave 'soon'"):
        run_to_end(
            make_client_page(
                variants({}),
                preview(),
                ProfileStore(),
                viewer=VIEWER,
                message="",
                date="soon",
                surroundings=Surroundings(),
            )
        )


def test_without_the_viewers_program_there_is_no_page() -> None:
    with pytest.raises(OutputError, match="The viewer's program is not installed"):
        run_to_end(
            make_client_page(
                variants({}),
                preview(),
                ProfileStore(),
                viewer=b" ",
                message="",
                date="2031-04-30",
                surroundings=Surroundings(),
            )
        )
