"""Colours gathered into bins."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from pycore.colour.mapping.picture_colours import Region, bins_of, label_pixels, picture_colours
from pycore.errors import FieldError


def region(name: str, left: int, top: int, right: int, bottom: int) -> Region:
    return Region(name=name, left=left, top=top, right=right, bottom=bottom)


@given(st.integers(0, 2**32 - 1), st.integers(1, 12), st.integers(1, 12))
def test_every_pixel_counts_once(seed: int, rows: int, columns: int) -> None:
    pixels = np.random.default_rng(seed).integers(0, 256, (rows, columns, 3), dtype=np.uint8)
    colours = picture_colours(pixels, [region("face", 0, 0, columns, rows)])
    assert colours.counts.sum() == rows * columns
    # The mean colour is kept, whatever the bins.
    assert np.abs(colours.weights @ colours.rgb_encoded - pixels.mean(axis=(0, 1)) / 255.0).max() < 1e-9
    assert colours.bins.tolist() == sorted(set(bins_of(pixels).ravel().tolist()))


def test_regions_are_counted_apart() -> None:
    pixels = np.zeros((4, 6, 3), dtype=np.uint8)
    pixels[:, 3:] = 255
    colours = picture_colours(pixels, [region("left", 0, 0, 3, 4), region("all", 0, 0, 6, 4)])
    # derived: black fills the left half, white the right
    assert colours.counts.tolist() == [[12, 0], [12, 12]]
    assert colours.rgb_encoded.tolist() == [[0.0] * 3, [1.0] * 3]


def test_labels_return_to_their_pixels() -> None:
    pixels = np.random.default_rng(8).integers(0, 256, (9, 7, 3), dtype=np.uint8)
    colours = picture_colours(pixels, [region("face", 0, 0, 7, 9)])
    labels = (colours.rgb_encoded[:, 0] > 0.5).astype(np.uint8)
    spread = label_pixels(pixels, colours, labels)
    assert spread.shape == (9, 7)
    # derived: bins are four steps wide and 0.5 lies between two of them
    assert np.array_equal(spread == 1, pixels[:, :, 0] >= 128)


@pytest.mark.parametrize(
    ("shape", "regions", "field"),
    [
        ((4, 4, 4), [region("face", 0, 0, 4, 4)], "pixels"),
        ((4, 4, 3), [], "regions"),
        ((4, 4, 3), [region("top", 0, 0, 5, 4)], "region top"),
        ((4, 4, 3), [region("top", 2, 0, 2, 4)], "region top"),
        ((4, 4, 3), [region("top", -1, 0, 2, 4)], "region top"),
    ],
)
def test_what_does_not_fit_is_refused(shape: tuple[int, ...], regions: list[Region], field: str) -> None:
    with pytest.raises(FieldError) as caught:
        picture_colours(np.zeros(shape, dtype=np.uint8), regions)
    assert caught.value.field == field
