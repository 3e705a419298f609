"""The canvas profile on the page: opened, refused, kept, and in the converted print file."""

from __future__ import annotations

import io
import json
import re
from pathlib import Path
from typing import Any

import pytest
from bench import Bench, refusal
from build.debian import NEEDS
from colour_bench import (
    LISTEN,
    WORK_MS,
    hand_over,
    job_of,
    known,
    look_at,
    open_profile,
    profile_shown,
    see_colour,
)
from PIL import Image, ImageCms
from playwright.sync_api import Locator, expect
from test_access import COLOUR_RULES, violations

from pycore.colour.icc.profile import parse_profile
from pycore.errors import ProfileError

pytestmark = pytest.mark.browser

#: What a profile changes is seen on the sheet; that the wall shows the same, test_colour.py asks.
WITHOUT_WALL = True


def debian_file(package: str) -> Path:
    """A file that one of Debian's packages brings."""
    return next(Path(need.file) for need in NEEDS if need.package == package)


@pytest.fixture(scope="session")
def cmyk() -> Path:
    """A real printer's profile: Artifex's, free software (AGPL), from Debian's libgs-common."""
    return debian_file("libgs-common")


@pytest.fixture(scope="module")
def started(module_bench: Bench) -> Bench:
    """A page with the demo; what it sends is noted."""
    module_bench.page.add_init_script(LISTEN)
    return module_bench.start()


@pytest.fixture(scope="module")
def brought_along(started: Bench, small_china: Path, cmyk: Path) -> str:
    """The profile of a photograph, where one was opened before it, while the demo was in hand."""
    open_profile(started, cmyk)
    expect(started.page.locator(".measures strong")).to_have_text(
        "Artifex CMYK SWOP Profile", timeout=WORK_MS
    )
    started.open_picture(small_china)
    started.opened(small_china.name)
    return profile_shown(started)


@pytest.fixture(scope="module")
def at_work(started: Bench, brought_along: str) -> Bench:
    """A page with a photograph open, the illustrative canvas, and the section about colour in view."""
    assert brought_along
    started.button("Use the illustrative canvas").click()
    see_colour(started)
    return started


def test_the_tables_come_after_the_first_canvas(at_work: Bench) -> None:
    assert at_work.page.evaluate("window.atShown") == ["check", "open", "show"]


def test_a_profile_goes_with_the_picture_after_the_demo(brought_along: str) -> None:
    assert "Artifex CMYK SWOP Profile" in brought_along


def test_a_profile_is_opened_and_a_bad_one_refused(at_work: Bench, cmyk: Path, tmp_path: Path) -> None:
    see_colour(at_work)
    invented = page_figures(at_work)
    look_at(at_work, "As printed")
    sheet = at_work.sheet_picture()
    open_profile(at_work, cmyk)
    expect(at_work.page.locator(".measures strong")).to_have_text(
        "Artifex CMYK SWOP Profile", timeout=WORK_MS
    )
    known(at_work)
    shown = profile_shown(at_work)
    assert "CMYK printer" in shown
    assert page_figures(at_work) != invented
    assert at_work.sheet_picture() != sheet
    expect(at_work.page.locator("#colour-caption")).to_contain_text("Artifex CMYK SWOP Profile")
    expect(at_work.page.locator("#colour-caption")).not_to_contain_text("Illustration")
    job = job_of(at_work, tmp_path)
    assert job["colour"]["profile"] == "default_cmyk.icc"

    whole = cmyk.read_bytes()
    mutated = whole[:36] + b"nope" + whole[40:]
    for name, data in (
        ("cut.icc", whole[: len(whole) // 2]),
        ("wrong.icc", mutated),
        ("empty.icc", b""),
        ("letter.icm", b"Dear printer, this is no profile.\n" * 20),
    ):
        open_profile(at_work, {"name": name, "mimeType": "", "buffer": data})
        # The core's own sentence, word for word, and what was kept.
        with pytest.raises(ProfileError) as why:
            parse_profile(data)
        expect(at_work.message("colour.profile")).to_have_text(refusal(why.value))
        assert profile_shown(at_work) == shown, name
        assert job_of(at_work, tmp_path) == job, name

    at_work.button("Use the illustrative canvas").click()
    known(at_work)
    expect(at_work.message("colour.profile")).to_have_count(0)
    assert page_figures(at_work) == invented
    at_work.button("Undo").click()
    known(at_work)
    assert profile_shown(at_work) == shown
    at_work.button("Undo").click()
    known(at_work)
    assert page_figures(at_work) == invented
    look_at(at_work, "Original")


def page_figures(bench: Bench) -> str:
    return bench.page.locator("#clip-parts").inner_text()


def test_a_screens_profile_is_none_of_a_canvas(at_work: Bench, tmp_path: Path) -> None:
    before = job_of(at_work, tmp_path)
    open_profile(at_work, debian_file("icc-profiles-free"))
    expect(at_work.message("colour.profile")).to_contain_text("printer", timeout=WORK_MS)
    assert job_of(at_work, tmp_path) == before


def test_two_profiles_of_one_name_are_told_apart(at_work: Bench, cmyk: Path, tmp_path: Path) -> None:
    whole = cmyk.read_bytes()
    # The date in the header: another file, the same colours.
    other = whole[:24] + b"\x07\xe5" + whole[26:]
    assert other != whole
    names = []
    for data in (whole, other, whole):
        at_work.page.evaluate("window.calls.splice(0)")
        open_profile(at_work, {"name": "default_cmyk.icc", "mimeType": "", "buffer": data})
        at_work.page.wait_for_function("() => window.calls.includes('profile')", timeout=WORK_MS)
        expect(at_work.page.locator('[data-field="colour.profile"] [role="status"]')).not_to_contain_text(
            "Reading", timeout=WORK_MS
        )
        known(at_work)
        names.append(job_of(at_work, tmp_path)["colour"]["profile"])
    assert names == ["default_cmyk.icc", "default_cmyk (2).icc", "default_cmyk.icc"]


def test_a_converted_file_holds_the_canvas_profile(at_work: Bench, cmyk: Path, tmp_path: Path) -> None:
    open_profile(at_work, cmyk)
    expect(at_work.page.locator(".measures strong")).to_have_text(
        "Artifex CMYK SWOP Profile", timeout=WORK_MS
    )
    at_work.page.locator("#field-print-convert").get_by_label("Convert to the canvas's", exact=True).click()
    known(at_work)
    words = at_work.page.locator('[data-field="print.convert"]')
    expect(words).to_contain_text("Do not convert the file again")
    expect(at_work.page.locator("#convert-warning")).to_have_count(0)
    at_work.set("print.ppi", "72")
    written = at_work.write_file("TIFF", tmp_path)
    with Image.open(written) as image:
        assert image.mode == "CMYK"
        embedded: bytes = image.info["icc_profile"]
    assert embedded == cmyk.read_bytes()
    assert ImageCms.getProfileDescription(ImageCms.ImageCmsProfile(io.BytesIO(embedded))).strip() == (
        "Artifex CMYK SWOP Profile"
    )
    at_work.button("Use the illustrative canvas").click()
    known(at_work)
    expect(at_work.page.locator("#convert-warning")).to_contain_text("No printer has these values")


@pytest.mark.parametrize("how", ["drop", "paste"])
def test_a_profile_is_dropped_or_pasted(at_work: Bench, cmyk: Path, how: str) -> None:
    hand_over(at_work.page, {"name": "matte.icc", "mimeType": "", "buffer": cmyk.read_bytes()}, how)
    expect(at_work.page.locator(".measures strong")).to_have_text(
        "Artifex CMYK SWOP Profile", timeout=WORK_MS
    )
    # The picture in hand is still open.
    expect(at_work.page.locator(".facts strong")).to_have_text("china.jpg")
    at_work.button("Use the illustrative canvas").click()
    known(at_work)


def test_a_reload_and_a_dead_core_keep_the_profile(at_work: Bench, cmyk: Path) -> None:
    bench = at_work
    open_profile(bench, cmyk)
    expect(bench.page.locator(".measures strong")).to_have_text("Artifex CMYK SWOP Profile", timeout=WORK_MS)
    see_colour(bench)
    look_at(bench, "As printed")
    shown, figures, sheet = profile_shown(bench), page_figures(bench), bench.sheet_picture()
    bench.kept("job.picture.file === 'china.jpg' && job.colour.profile === 'default_cmyk.icc'")

    bench.page.workers[0].evaluate("setTimeout(() => { throw new Error('a fault in the core') }, 0)")
    expect(bench.page.locator(".status-announcement")).to_contain_text("started again", timeout=30_000)
    expect(bench.page.locator("#loading-progress")).to_have_count(0, timeout=120_000)
    bench.set("colour.clip_threshold_de", "3")
    known(bench)
    bench.kept("job.colour.clip_threshold_de === 3")
    assert page_figures(bench) != figures
    assert profile_shown(bench) == shown
    bench.button("Undo").click()
    known(bench)
    bench.kept("job.colour.clip_threshold_de === 2")

    bench.page.reload()
    bench.wait_shown()
    bench.opened("china.jpg")
    see_colour(bench)
    assert (profile_shown(bench), page_figures(bench)) == (shown, figures)
    look_at(bench, "As printed")
    assert bench.sheet_picture() == sheet
    bench.button("Use the illustrative canvas").click()
    known(bench)


def test_a_job_whose_profile_is_not_here_says_so(at_work: Bench, cmyk: Path, tmp_path: Path) -> None:
    bench = at_work
    job = job_of(bench, tmp_path)
    job["colour"]["profile"] = "studio.icc"
    text = json.dumps(job).encode()
    bench.open_job({"name": "job.json", "mimeType": "application/json", "buffer": text})
    look_at(bench, "As printed")
    section = bench.page.locator('[data-field="colour.profile"]')
    expect(section.locator(".error-text")).to_contain_text("studio.icc", timeout=WORK_MS)
    expect(bench.page.locator("#colour-caption")).to_contain_text("This is the original: there is no proof")
    open_profile(bench, {"name": "studio.icc", "mimeType": "", "buffer": cmyk.read_bytes()})
    expect(bench.page.locator("#colour-caption")).to_contain_text("Artifex", timeout=WORK_MS)
    expect(section.locator(".error-text")).to_have_count(0)


def test_a_picture_in_a_wider_space_is_brought_to_the_screen(at_work: Bench, small_china: Path) -> None:
    """The same numbers in a wider space are other colours; as filed shows them by its own table."""
    profile = debian_file("icc-profiles-free").read_bytes()
    files = {}
    for name, icc in (("plain.png", b""), ("wide.png", profile)):
        out = io.BytesIO()
        with Image.open(small_china) as image:
            image.save(out, "PNG", icc_profile=icc or None)
        files[name] = out.getvalue()
    bench = at_work
    look_at(bench, "Original")
    sheets = []
    for name, data in files.items():
        bench.open_picture({"name": name, "mimeType": "image/png", "buffer": data})
        bench.opened(name)
        known(bench)
        sheets.append(bench.sheet_picture())
    assert sheets[0] != sheets[1]
    bench.button("Undo").click()
    bench.opened("plain.png")
    known(bench)
    assert bench.sheet_picture() == sheets[0]


@pytest.fixture(scope="module")
def opened_out(at_work: Bench) -> Bench:
    """The page with everything about colour open and worked out."""
    bench = at_work
    see_colour(bench)
    bench.page.evaluate(
        "document.querySelectorAll('#colour details, #print details').forEach(one => { one.open = true })"
    )
    expect(bench.page.locator("#solid-says")).to_contain_text("commonest colours", timeout=WORK_MS)
    bench.button("Compare the intents on this picture").click()
    expect(bench.page.locator("#intents")).to_be_visible(timeout=WORK_MS)
    bench.set("colour.bring_in", "20")
    bench.choose("Colours in the file", "Convert to the canvas's")
    open_profile(bench, {"name": "bad.icc", "mimeType": "", "buffer": b"no profile"})
    expect(bench.message("colour.profile")).to_be_visible(timeout=WORK_MS)
    look_at(bench, "Gamut map")
    where(bench).click()
    known(bench)
    return bench


def where(bench: Bench) -> Locator:
    return bench.page.locator("#colour").get_by_role("button", name=re.compile("^Show where")).first


@pytest.mark.parametrize(("width", "height"), [(1440, 900), (360, 780)])
@pytest.mark.parametrize("theme", ["light", "dark"])
def test_axe_finds_nothing(opened_out: Bench, width: int, height: int, theme: Any) -> None:
    """In the parts that are about colour; the whole page is looked at by test_access.py.

    How the stage shows the canvas as printed, and the map on the wall, is looked at by test_axe_states.py.
    """
    page = opened_out.page
    page.set_viewport_size({"width": width, "height": height})
    page.emulate_media(color_scheme=theme, reduced_motion="reduce")
    expect(where(opened_out)).to_have_attribute("aria-pressed", "true")
    # What is scrolled below the list of sections is covered, and no target meanwhile.
    page.locator("#work").evaluate("one => one.scrollTo(0, 0)")
    # Nothing but colours differs between the themes.
    rules = COLOUR_RULES if theme == "dark" else None
    assert violations(page, rules=rules, parts=[".stage", "#colour", "#print"]) == []
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    assert page.locator("#work").evaluate("one => one.scrollWidth <= one.clientWidth")
