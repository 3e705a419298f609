"""Notes about the way out."""

from __future__ import annotations

import io

from PIL import Image

from pycore.picture.read import read_picture
from pycore.picture.source import SourcePicture
from pycore.printing.output_notes import resolution_notes, untagged_notes
from pycore.printing.report import FileKind
from pycore.render.notes import tone_notes


def _picture(mode: str) -> SourcePicture:
    out = io.BytesIO()
    Image.new(mode, (4, 4)).save(out, "TIFF")
    return read_picture(out.getvalue(), file="patch.tif")


def test_only_values_without_curves_are_resampled_as_they_are() -> None:
    assert tone_notes(_picture("RGB")) == []
    [note] = tone_notes(_picture("CMYK"))
    assert note.code == "resampled-encoded"
    assert note.message.startswith("Without a usable profile")


def test_an_untagged_file_is_a_thing_to_watch() -> None:
    [note] = untagged_notes()
    assert (note.code, note.severity) == ("file-untagged", "watch")
    assert "CMYK values have no known colours" in note.message


def test_a_rounded_resolution_is_given_in_percent() -> None:
    """Derived: 100.4 / 100 is 0.40 % too large."""
    assert resolution_notes(300, 299.9994, kind=FileKind.PNG) == []
    [note] = resolution_notes(100.4, 100, kind=FileKind.JPEG)
    assert "0.40% too large" in note.message
