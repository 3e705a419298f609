"""The guide as a text: links that lead somewhere, drawings that are there, headings in order, no outside."""

from __future__ import annotations

import re
from html.parser import HTMLParser
from pathlib import Path
from typing import Final

import pytest

from pycore.contract.job import Finish
from pycore.fold.stages import stages_of

pytestmark = pytest.mark.native

ROOT: Final = Path(__file__).resolve().parents[3]
WEB: Final = ROOT / "web"
GUIDE: Final = WEB / "guide.html"
PAGE: Final = WEB / "src" / "page"


class Reader(HTMLParser):
    """Ids, addresses, headings, pictures and texts of a page."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.ids: list[str] = []
        self.links: list[str] = []
        self.sources: list[str] = []
        self.headings: list[int] = []
        self.silent: list[str] = []
        self.words: list[str] = []
        self._open: list[str] = []
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = {name: value or "" for name, value in attrs}
        self._open.append(tag)
        if "id" in given:
            self.ids.append(given["id"])
        if tag == "a":
            self.links.append(given["href"])
        self.sources += [given[name] for name in ("src", "href") if name in given and tag != "a"]
        if re.fullmatch(r"h[1-6]", tag):
            self.headings.append(int(tag[1]))
        if tag == "img" and len(given.get("alt", "")) < 20:
            self.silent.append(given["src"])

    def handle_data(self, data: str) -> None:
        self.words.append(data)


@pytest.fixture(scope="module")
def guide() -> Reader:
    return Reader(GUIDE.read_text(encoding="utf-8"))


def glossary_of_the_page() -> set[str]:
    text = (PAGE / "controls" / "glossary_word.tsx").read_text(encoding="utf-8")
    (listed,) = re.findall(r"GLOSSARY = \[(.*?)\]", text, re.DOTALL)
    return set(re.findall(r'"([a-z-]+)"', listed))


def test_every_link_leads_somewhere(guide: Reader) -> None:
    assert len(guide.ids) == len(set(guide.ids))
    inside = [link[1:] for link in guide.links if link.startswith("#")]
    assert len(inside) > 20
    assert set(inside) <= set(guide.ids)
    for link in guide.links:
        if not link.startswith("#"):
            assert (WEB / link.split("#")[0]).is_file(), link


def test_every_file_is_there_and_none_is_elsewhere(guide: Reader) -> None:
    for source in guide.sources:
        assert source.startswith(("./", "../")), source
        # What keeps its name in the site lies in web/static.
        assert (WEB / source).is_file() or (WEB / "static" / source).is_file(), source
    style = (WEB / "src" / "guide" / "guide.css").read_text(encoding="utf-8")
    assert "http" not in style
    assert "url(" not in style
    assert not re.findall(r"https?://", GUIDE.read_text(encoding="utf-8"))


def test_every_drawing_is_shown(guide: Reader) -> None:
    shown = {Path(source).name for source in guide.sources if "/drawings/" in source}
    assert shown == {path.name for path in (WEB / "src" / "guide" / "drawings").iterdir()}


def test_every_picture_says_what_it_shows(guide: Reader) -> None:
    assert guide.silent == []


def test_headings_go_down_one_by_one(guide: Reader) -> None:
    assert guide.headings[0] == 1
    assert guide.headings.count(1) == 1
    steps = [after - before for before, after in zip(guide.headings, guide.headings[1:], strict=False)]
    assert max(steps) == 1


def test_the_first_canvas_follows_the_sections_of_the_page() -> None:
    text = GUIDE.read_text(encoding="utf-8")
    steps = re.findall(r"<h3>(.*?)</h3>", text[text.index('<ol class="walk">') :].partition("</ol>")[0])
    table = (PAGE / "section_table.tsx").read_text(encoding="utf-8")
    assert steps == re.findall(r'title: say\("(.*?)"\)', table)
    assert len(steps) > 9


def test_every_word_on_the_page_has_its_entry(guide: Reader) -> None:
    text = GUIDE.read_text(encoding="utf-8")
    entries = set(re.findall(r'class="word" id="([a-z-]+)"', text))
    assert glossary_of_the_page() == entries
    used = set()
    for path in PAGE.rglob("*.tsx"):
        used |= set(re.findall(r'GlossaryWord entry="([a-z-]+)"', path.read_text(encoding="utf-8")))
    # derived: the page names at least these two in its own text.
    assert {"profile", "margin"} <= used <= entries


def test_the_entries_stand_in_the_order_of_the_alphabet() -> None:
    entries = re.findall(r'class="word" id="([a-z-]+)"', GUIDE.read_text(encoding="utf-8"))
    assert entries == sorted(entries)
    assert len(entries) > 20


def test_labels_lead_to_fields_of_the_job() -> None:
    from pycore.contract.schema import field_schema

    text = (PAGE / "controls" / "glossary_word.tsx").read_text(encoding="utf-8")
    fields = dict(re.findall(r'^  "([a-z_.0-9]+\.[a-z_.0-9]+)": "([a-z-]+)"', text, re.MULTILINE))
    assert len(fields) > 8
    assert set(fields.values()) <= glossary_of_the_page()
    for field in fields:
        assert field_schema(field) is not None, field


def test_every_step_of_a_fold_has_its_words() -> None:
    from guidebook.finishes import shown_spec

    text = re.sub(r"\s+", " ", GUIDE.read_text(encoding="utf-8"))
    for finish in Finish:
        part = text.split(f'id="fold-{finish.value}"')[1].split("<h3")[0]
        for stage in stages_of(shown_spec(finish)):
            assert f"<h4>{stage.label}</h4>" in part, (finish, stage.label)


def test_page_and_guide_keep_the_theme_under_one_name() -> None:
    (ours,) = re.findall(r'THEME_KEY = "(.+?)"', (WEB / "src/guide/theme.ts").read_text(encoding="utf-8"))
    settings = (PAGE / "state/page/settings.ts").read_text(encoding="utf-8")
    assert f'THEME_KEY = "{ours}"' in settings


def test_the_page_and_the_readme_lead_to_the_guide() -> None:
    assert './guide.html"' in (PAGE / "header.tsx").read_text(encoding="utf-8")
    assert './guide.html"' in (WEB / "index.html").read_text(encoding="utf-8")
    assert "(web/guide.html)" in (ROOT / "README.md").read_text(encoding="utf-8")
