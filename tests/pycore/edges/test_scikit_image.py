"""Gradients, orientation and busyness beside scikit-image's own."""

from __future__ import annotations

import numpy as np
import pytest
import skimage.data
import skimage.feature
import skimage.filters
import skimage.filters.rank
from skimage.morphology import disk

from pycore.conventions import Side
from pycore.edges.detail import busy
from pycore.edges.gradients import F64, gradient, tensor

from .drawn import judged, line


def picture() -> F64:
    """A photograph of scikit-image's, reduced, one channel."""
    grey: F64 = skimage.data.camera()[::4, ::4].astype(float)[..., np.newaxis] / 255
    return grey


def test_the_gradient_is_that_of_scikit_image() -> None:
    values = picture()
    down, across = gradient(values)
    # Derived: its kernel is divided by 4, ours by 8, for steps of two pixels.
    inside = (slice(1, -1), slice(1, -1))
    their_down: F64 = skimage.filters.sobel_h(values[..., 0])[inside]
    their_across: F64 = skimage.filters.sobel_v(values[..., 0])[inside]
    np.testing.assert_allclose(2 * down[..., 0][inside], their_down, atol=1e-12)
    np.testing.assert_allclose(2 * across[..., 0][inside], their_across, atol=1e-12)


def test_the_tensor_is_that_of_scikit_image() -> None:
    values = picture()
    found = tensor(values)
    rr, rc, cc = skimage.feature.structure_tensor(values[..., 0], sigma=3, mode="nearest", order="rc")
    weights = _gaussian(3.0)
    inside = (slice(16, -16), slice(16, -16))
    for mine, theirs in ((found.rr, rr), (found.rc, rc), (found.cc, cc)):
        mean = _filtered(_filtered(mine, weights, axis=0), weights, axis=1)
        # Derived: its kernel is not divided at all, ours by 8; products differ by the square of that.
        np.testing.assert_allclose(64 * mean[inside], theirs[inside], atol=1e-9)


def test_angle_and_coherence_are_those_of_scikit_image() -> None:
    """`2 |J_rc| / (J_rr + J_cc)` is coherence x sin of twice the angle of its eigenvectors."""
    image = line(35)[100:200, :60, 0]
    parts = skimage.feature.structure_tensor(image, sigma=6, mode="nearest", order="rc")
    # Half-way down, six pixels from the front edge: on the line.
    large, small = skimage.feature.structure_tensor_eigenvalues(parts)[:, 58, 6]
    rr, rc, cc = (part[58, 6] for part in parts)
    coherence = (large - small) / (large + small)
    aslant = 2 * np.abs(rc) / (rr + cc)
    # Derived: a straight line is coherent, and sin 70 degrees = 0.940.
    assert coherence > 0.95
    assert aslant == pytest.approx(0.940 * coherence, abs=0.02)
    # Full from 0.8 on: the line counts by its contrast alone, and that is plain.
    assert judged(line(35))[Side.LEFT].broken > 0.9


def test_photographs_are_ranked_as_by_local_entropy() -> None:
    """Entropy counts grey levels and knows nothing of gradients, so the two agree in rank, not in figures."""
    mine, entropies = [], []
    for image in (skimage.data.camera(), skimage.data.brick(), skimage.data.grass(), skimage.data.moon()):
        small = np.ascontiguousarray(image[::2, ::2])
        entropy = skimage.filters.rank.entropy(small, disk(5))
        for top in range(0, small.shape[0] - 31, 32):
            mine.append(busy(tensor(small[top : top + 32, :, np.newaxis] / 255.0).energy))
            entropies.append(entropy[top : top + 32].mean())
    assert len(mine) >= 32
    ranks = np.argsort(np.argsort([mine, entropies], axis=1), axis=1)
    assert np.corrcoef(ranks)[0, 1] > 0.85


def _gaussian(sigma: float) -> F64:
    # scikit-image cuts its Gaussian at four sigma.
    place = np.arange(-int(4 * sigma + 0.5), int(4 * sigma + 0.5) + 1)
    weights: F64 = np.exp(-(place**2) / (2 * sigma**2))
    weights /= weights.sum()
    return weights


def _filtered(values: F64, weights: F64, *, axis: int) -> F64:
    return np.apply_along_axis(lambda line: np.convolve(line, weights, mode="same"), axis, values)
