"""A strip's values: what is refused, and what is made of measured ones. No strip is made for it."""

from __future__ import annotations

import numpy as np
import pytest

from pycore.colour.cgats.read import read_cgats
from pycore.errors import FieldError
from pycore.speech import speaking
from pycore.strip.make import ProofStrip
from pycore.strip.measured import check_strip
from pycore.strip.values import StripValues, read_values, values_text

_NAMES = ["bare canvas", "grey 128", "red, worst"]


def _values(lightness: list[float], ids: list[str] | None = None) -> StripValues:
    lab = np.array([[one, 0.0, 0.0] for one in lightness])
    return StripValues(
        strip_id="0f", ids=["A1", "A2", "B1"] if ids is None else ids, names=_NAMES, lab_d50=lab
    )


@pytest.mark.parametrize(
    ("mode", "fields", "share"),
    [
        ("L", ["GRAY"], 0.6 * 100),
        ("RGB", ["RGB_R", "RGB_G", "RGB_B"], 0.6 * 255),
        ("CMYK", ["CMYK_C", "CMYK_M", "CMYK_Y", "CMYK_K"], 0.6 * 100),
    ],
)
@pytest.mark.parametrize(("dtype", "full"), [(np.uint8, 255), (np.uint16, 65535)])
def test_device_values_stand_in_the_text_as_the_standard_has_them(
    mode: str, fields: list[str], share: float, dtype: type[np.uint8 | np.uint16], full: int
) -> None:
    """Published: ISO 28178 has RGB from 0 to 255 and ink in percent.

    Derived: 0.6 of 255 and of 65535 is a whole number.
    """
    strip = ProofStrip(
        pixels=np.zeros((1, 1, len(fields)), dtype),
        mode=mode,
        profile=None,
        ids=["A1"],
        names=["grey 153"],
        values=np.full((1, len(fields)), 0.6 * full + 0.5, dtype),
        lab_d50=np.array([[61.25, -0.5, 1.125]]),
        strip_id="0f",
        conditions="a test",
        notes=[],
    )
    table = read_cgats(values_text(strip, date="2031-04-30", origin="a test").encode(), name="expected")
    assert table.fields == ("SAMPLE_ID", "SAMPLE_NAME", *fields, "LAB_L", "LAB_A", "LAB_B")
    (row,) = table.rows
    assert row[:2] == ("A1", "grey 153")
    expected = [*([share] * len(fields)), 61.25, -0.5, 1.125]
    assert [float(one) for one in row[2:]] == pytest.approx(expected, abs=5e-4)


def test_greys_have_a_mean_of_their_own() -> None:
    """Derived: on the grey axis dE00 is dL / S_L, and S_L is 1 where the mean lightness is 50.

    Off by 2, 4 and 9 about 50, the mean is 5 and that of the two greys 3.
    """
    found = check_strip(_values([49, 48, 45.5]), _values([51, 52, 54.5]))
    assert found.mean_de == pytest.approx(5, abs=1e-9)
    assert found.greys_mean_de == pytest.approx(3, abs=1e-9)
    assert found.worst_de == pytest.approx(9, abs=1e-9)
    assert [one.id for one in found.patches] == ["B1", "A2", "A1"]
    assert [one.measured_lab[0] for one in found.patches] == [54.5, 52, 51]
    assert [one.name for one in found.patches] == _NAMES[::-1]


@pytest.mark.parametrize(("off", "doubtful"), [(14.9, False), (15.1, True)])
def test_a_print_that_is_far_off_is_doubted(off: float, doubtful: bool) -> None:
    """Common practice: more than 15 on average is rather another strip. Derived: as above."""
    found = check_strip(_values([50 - off / 2] * 3), _values([50 + off / 2] * 3))
    assert found.doubtful == doubtful


def test_measured_patches_are_found_by_their_names_in_any_order() -> None:
    measured = _values([45.5, 51, 52], ids=["B1", "A1", "A2"])
    assert check_strip(_values([51, 52, 45.5]), measured).worst_de == 0


_WITHOUT = "CGATS.17\nBEGIN_DATA_FORMAT\nLAB_L LAB_A LAB_B\nEND_DATA_FORMAT\nBEGIN_DATA\n1 2 3\nEND_DATA\n"
_TWICE = (
    "CGATS.17\nBEGIN_DATA_FORMAT\nSAMPLE_ID LAB_L LAB_A LAB_B\nEND_DATA_FORMAT\n"
    "BEGIN_DATA\nA1 1 2 3\nA1 1 2 3\nEND_DATA\n"
)


@pytest.mark.parametrize(
    ("text", "english", "german"),
    [
        (
            _WITHOUT,
            "The CGATS text has no field SAMPLE_ID, which says which patch is which. Export the patches",
            "Im CGATS-Text fehlt die Spalte SAMPLE_ID, die sagt, welches Feld welches ist. Exportieren",
        ),
        (
            _TWICE,
            "The patch A1 stands in the CGATS text twice. Keep one measurement",
            "Das Feld A1 steht zweimal im CGATS-Text. Behalten",
        ),
    ],
)
def test_what_names_no_patches_is_refused_in_the_language_in_use(
    text: str, english: str, german: str
) -> None:
    for language, said in (("en", english), ("de", german)):
        with speaking(language), pytest.raises(FieldError) as caught:
            read_values(text.encode(), name="measured")
        assert str(caught.value).startswith(said)
        assert caught.value.field == "measured"


def test_a_strip_without_patches_is_refused() -> None:
    none = StripValues(strip_id="", ids=[], names=[], lab_d50=np.zeros((0, 3)))
    with pytest.raises(FieldError, match="own values have no patches") as caught:
        check_strip(none, _values([1, 2, 3]))
    assert caught.value.field == "expected"
