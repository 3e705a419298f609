"""CIEDE2000 against its published data."""

from pathlib import Path

import numpy as np
import pytest

from pycore.colour.spaces.ciede2000 import delta_e_2000

PAIRS = np.loadtxt(Path(__file__).parents[1] / "data" / "ciede2000_pairs.csv", delimiter=",")


@pytest.mark.parametrize("number", range(1, 35))
def test_published_pairs(number: int) -> None:
    row = PAIRS[number - 1]
    # published: Sharma, Wu and Dalal (2005), table 1; half of the last printed digit
    assert float(delta_e_2000(row[:3], row[3:6])) == pytest.approx(row[6], abs=5e-5)
    assert float(delta_e_2000(row[3:6], row[:3])) == pytest.approx(row[6], abs=5e-5)


def test_all_pairs_are_there() -> None:
    assert PAIRS.shape == (34, 7)


def test_equal_colours_do_not_differ() -> None:
    lab_d50 = np.array([[0.0, 0.0, 0.0], [50.0, 20.0, -30.0]])
    assert delta_e_2000(lab_d50, lab_d50).tolist() == [0.0, 0.0]
