"""`tuckfold transform` end to end: colours in on standard input, colours out."""

from __future__ import annotations

import io
import sys

import pytest

from pycore.cli.main import main

TRANSFORM = ("transform", "--from", "srgb", "--to", "lab", "--intent", "relative")


@pytest.mark.parametrize("given", ["", "\n\n"], ids=["nothing", "empty lines"])
def test_no_colours_in_are_no_lines_out(
    given: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(sys, "stdin", io.StringIO(given))
    assert main(list(TRANSFORM)) == 0
    assert capsys.readouterr() == ("", "")
    monkeypatch.setattr(sys, "stdin", io.StringIO(given))
    assert main([*TRANSFORM, "--json"]) == 0
    assert capsys.readouterr().out == '{"values": []}\n'


def test_a_colour_a_line(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    monkeypatch.setattr(sys, "stdin", io.StringIO("1 1 1\n\n0, 0, 0\n"))
    assert main(list(TRANSFORM)) == 0
    rows = [[float(one) for one in line.split()] for line in capsys.readouterr().out.splitlines()]
    # Derived: white and black of the source are those of CIELAB.
    assert rows == [pytest.approx([100, 0, 0], abs=0.01), pytest.approx([0, 0, 0], abs=0.01)]
