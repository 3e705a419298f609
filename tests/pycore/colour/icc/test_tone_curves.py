"""Linear light of 8-bit values."""

import numpy as np
import pytest

from pycore.colour.icc.tone_curves import decode_table


def test_no_profile_is_srgb() -> None:
    table = decode_table(None)
    assert table is not None
    # published: IEC 61966-2-1, 5.2: 10 / 255 / 12.92, and ((188 / 255 + 0.055) / 1.055)^2.4
    assert table[0, 10] == pytest.approx(10 / 255 / 12.92, abs=1e-12)
    assert table[2, 188] == pytest.approx(((188 / 255 + 0.055) / 1.055) ** 2.4, abs=1e-12)
    assert table[:, 0].tolist() == [0.0] * 3
    assert table[:, 255].tolist() == pytest.approx([1.0] * 3)


def test_each_channel_has_its_own_curve(profiles: dict[str, bytes]) -> None:
    table = decode_table(profiles["matrix-v4"])
    assert table is not None
    assert table.shape == (3, 256)
    # derived: green is a plain gamma of 1.9 (rounded to 1/65536)
    assert table[1, 128] == pytest.approx((128 / 255) ** 1.9, abs=1e-5)
    assert np.all(np.diff(table, axis=1) >= 0.0)


def test_grey(profiles: dict[str, bytes]) -> None:
    table = decode_table(profiles["grey-v2"])
    assert table is not None
    assert table.shape == (1, 256)
    # derived: 0.03 + 0.97 x^1.8 at x = 1
    assert table[0, [0, 255]].tolist() == pytest.approx([0.03, 1.0], abs=1e-5)


@pytest.mark.parametrize("name", ["cmyk-v2", "curves-lab-v4", "illustrative-matte"])
def test_tables_have_none(profiles: dict[str, bytes], name: str) -> None:
    assert decode_table(profiles[name]) is None
