"""README.md shows what the commands print, and its links and pictures lead somewhere."""

from __future__ import annotations

import re
import shlex
import sys
from pathlib import Path
from typing import Final

import pytest

sys.path.insert(0, str(Path(__file__).resolve().parents[2] / "demo_data"))

from write_readme_outputs import README, ROOT, readme_text

pytestmark = pytest.mark.native

TEXT: Final = README.read_text(encoding="utf-8")

#: Sizes of compressed files differ by a few bytes with the libraries' versions.
_BYTES: Final = re.compile(r"[\d,]+ bytes")


@pytest.mark.slow
def test_the_outputs_are_those_that_are_printed(tmp_path: Path) -> None:
    printed = readme_text(TEXT, tmp_path)
    assert _BYTES.sub("bytes", printed) == _BYTES.sub("bytes", TEXT), (
        "run: python demo_data/write_readme_outputs.py"
    )
    lines = re.findall(r"^```\n(tuckfold [^\n]*--out [^\n]*)\n", TEXT, re.MULTILINE)
    # derived: a file of each kind that the commands write.
    assert len(lines) >= 9
    for line in lines:
        words = shlex.split(line)
        made = tmp_path / words[words.index("--out") + 1]
        files = [one for one in (made, *made.rglob("*")) if one.is_file()]
        assert sum(one.stat().st_size for one in files) > 1000, line


def test_every_command_of_the_command_line_has_a_block() -> None:
    from pycore.cli.main import COMMANDS

    shown = re.findall(r"^```\ntuckfold ([a-z]+)", TEXT, re.MULTILINE)
    assert set(shown) == set(COMMANDS)


def test_links_and_pictures_lead_somewhere() -> None:
    targets = re.findall(r"\]\(([^)#]+)", TEXT)
    assert len(targets) > 10
    for target in targets:
        assert (ROOT / target).exists(), target


def test_the_walk_has_eight_steps_each_with_a_picture() -> None:
    walk = TEXT.split("## From a photograph to a hung piece")[1].split("\n## ")[0]
    steps = re.split(r"^### \d\. ", walk, flags=re.MULTILINE)[1:]
    assert len(steps) == 8
    assert all("![" in step for step in steps)


def test_nothing_is_too_wide_for_the_place_where_it_is_read() -> None:
    """A picture stays under 200 kB, so that the page of the repository opens at once."""
    for picture in re.findall(r"!\[[^\]]*\]\((demo_data[^)]+)\)", TEXT):
        # common practice: no source.
        assert (ROOT / picture).stat().st_size < 200_000, picture
