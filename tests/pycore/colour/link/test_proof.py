"""The soft proof."""

import numpy as np

from pycore.colour.gamut.device_gamut import DeviceGamut
from pycore.colour.icc.transform import Standard
from pycore.colour.link.proof import clip_request, proof_transform
from pycore.colour.link.viewing import Viewing
from pycore.colour.spaces.arrays import FloatArray
from pycore.contract.job import Intent

ENDS = np.array([[1.0, 1.0, 1.0], [0.0, 0.0, 0.0]])


def proof(gamut: DeviceGamut, viewing: Viewing) -> FloatArray:
    transform = proof_transform(
        Standard.SRGB,
        gamut,
        Standard.LAB,
        intent=Intent.RELATIVE,
        black_point_compensation=True,
        viewing=viewing,
    )
    return transform(ENDS)


def test_what_each_viewing_shows(gamut: DeviceGamut) -> None:
    # derived from the profile: white L* 95.34, black 18.55 absolute, 20.00 under its own white; a neutral
    # black comes out 0.2 lighter, since the deepest one is a little blue, and 0.5 when stretched to L* 0
    assert np.abs(proof(gamut, Viewing.CANVAS)[:, 0] - np.array([95.34, 18.55])).max() < 0.25
    assert np.abs(proof(gamut, Viewing.BLACK)[:, 0] - np.array([100.0, 20.0])).max() < 0.25
    assert np.abs(proof(gamut, Viewing.NEITHER)[:, 0] - np.array([100.0, 0.0])).max() < 0.6


def test_what_is_asked_of_the_canvas(gamut: DeviceGamut) -> None:
    def asked(intent: Intent, compensated: bool) -> FloatArray:
        request = clip_request(Standard.SRGB, gamut, intent=intent, black_point_compensation=compensated)
        return request(ENDS)

    # derived: relative asks for black itself, compensated for the canvas's own, absolute for a white that is
    # lighter than the canvas: L* of Y = 1 / 0.8848, 104.8
    assert np.abs(asked(Intent.RELATIVE, False)[:, 0] - np.array([100.0, 0.0])).max() < 1e-6
    assert np.abs(asked(Intent.RELATIVE, True)[:, 0] - np.array([100.0, 20.0])).max() < 0.05
    assert np.abs(asked(Intent.ABSOLUTE, False)[:, 0] - np.array([104.8, 0.0])).max() < 0.1
    assert np.array_equal(asked(Intent.PERCEPTUAL, True), asked(Intent.RELATIVE, True))
