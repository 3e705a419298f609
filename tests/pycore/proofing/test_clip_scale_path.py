"""The gamut map's colours: their path in Oklab, every eye, the wall's greys, and the published palettes."""

from __future__ import annotations

import hashlib
import importlib
import json
import warnings
from functools import cache
from pathlib import Path
from types import ModuleType

import numpy as np
import pytest
from numpy.typing import NDArray

from pycore.colour.spaces.srgb import srgb_decode, srgb_encode
from pycore.proofing.clip_scale import clip_scale, scale_path

pytestmark = pytest.mark.native

Floats = NDArray[np.float64]

PALETTES = Path(__file__).parent / "data" / "published_palettes.json"
#: Of the file as it was sampled; its own first line says from what.
PALETTES_SHA256 = "118cc64ee3949291eb53d047a8089058d828c1223e309b5c0bbadb73c23e443f"

DEFICIENCIES = ("Protanomaly", "Deuteranomaly", "Tritanomaly")

#: srgb_encoded: the page's wall by day and by night, and the map's own greys.
GREYS = ((0xE5, 0xDC, 0xCD), (0xD6, 0xCB, 0xB8), (0x35, 0x30, 0x2A), (150, 150, 150), (250, 250, 250))


@cache
def colour() -> ModuleType:
    """Take colour-science's package; only the process that runs these tests takes the time to import it."""
    return importlib.import_module("colour")


def oklab(srgb_encoded: Floats) -> Floats:
    """Oklab by colour-science, an engine that is not ours."""
    xyz_d65 = colour().sRGB_to_XYZ(srgb_encoded)
    return np.asarray(colour().XYZ_to_Oklab(xyz_d65), np.float64)


def scale() -> Floats:
    return clip_scale() / 255.0


def seen_with(deficiency: str) -> Floats:
    """The scale as an eye with a full deficiency sees it (Machado, Oliveira and Fernandes 2009)."""
    with warnings.catch_warnings():
        # It says that the paper models a lack of the third cone by a shift, roughly; the paper says so too.
        warnings.filterwarnings("ignore", message='"Machado et al. \\(2009\\)" simulation of tritanomaly')
        matrix = colour().matrix_cvd_Machado2009(deficiency, 1.0)
    return np.asarray(srgb_encode(np.clip(srgb_decode(scale()) @ matrix.T, 0.0, 1.0)))


def test_the_scale_lies_on_its_stated_path() -> None:
    path = scale_path(np.linspace(0.0, 1.0, 4001, dtype=np.float64))
    nearest = np.linalg.norm(oklab(scale())[:, np.newaxis] - path, axis=2).min(axis=1)
    # derived: half an 8-bit step is 0.002 of the encoded value and moves Oklab by less than 0.003; the
    # published matrices of sRGB, to four digits, add less than 0.0005.
    assert nearest.max() < 0.0035


def test_the_path_stays_inside_srgb() -> None:
    """A clipped colour would leave the path, and lightness would no longer fall in a straight line."""
    rgb = colour().XYZ_to_sRGB(
        colour().Oklab_to_XYZ(scale_path(np.linspace(0.0, 1.0, 401, dtype=np.float64)))
    )
    assert rgb.min() > 0.0
    assert rgb.max() < 1.0


def test_lightness_falls_with_every_step() -> None:
    lightness = oklab(scale())[:, 0]
    assert np.all(np.diff(lightness) < 0)
    # derived: the path falls from 0.93 to 0.36.
    assert lightness[0] - lightness[-1] == pytest.approx(0.57, abs=0.004)


@pytest.mark.parametrize("deficiency", DEFICIENCIES)
def test_every_eye_sees_a_scale(deficiency: str) -> None:
    """Lightness falls, and two colours that differ by an eighth of the scale are told apart."""
    lab = oklab(seen_with(deficiency))
    assert np.all(np.diff(lab[:, 0]) < 0)
    apart = np.linalg.norm(lab[:, np.newaxis] - lab, axis=2)
    places = np.arange(len(lab))
    eighth = np.abs(places[:, np.newaxis] - places) >= len(lab) // 8
    # common practice, no source: 0.02 in Oklab is about one just noticeable difference; three of them here.
    assert apart[eighth].min() > 0.06


def test_it_keeps_clear_of_greys() -> None:
    chroma = np.linalg.norm(oklab(scale())[:, 1:], axis=1)
    # derived: the path's least chroma, 0.076, less what 8 bits round.
    assert chroma.min() > 0.072
    greys = oklab(np.array(GREYS) / 255.0)
    # The strongest of these greys is the plaster, far paler than the scale.
    assert np.linalg.norm(greys[:, 1:], axis=1).max() < 0.035
    apart = np.linalg.norm(oklab(scale())[:, np.newaxis] - greys, axis=2)
    assert apart.min() > 0.05


def palette(name: str) -> Floats:
    text = PALETTES.read_text(encoding="utf-8")
    colours = json.loads(text)["palettes"][name].split()
    return np.array([[int(one[at : at + 2], 16) for at in (0, 2, 4)] for one in colours]) / 255.0


def test_the_published_palettes_are_the_ones_that_were_sampled() -> None:
    assert hashlib.sha256(PALETTES.read_bytes()).hexdigest() == PALETTES_SHA256


@pytest.mark.parametrize("name", ["viridis", "magma", "plasma", "inferno", "cividis", "turbo", "cubehelix"])
def test_it_runs_along_no_published_palette(name: str) -> None:
    """Each of its colours is apart from all of a palette's, and on the whole far; reversed ones count too."""
    theirs = oklab(palette(name))
    apart = np.linalg.norm(oklab(scale())[:, np.newaxis] - theirs, axis=2).min(axis=1)
    # common practice, no source: 0.02 in Oklab is about one just noticeable difference.
    assert apart.min() > 0.04
    assert apart.mean() > 0.1


def test_a_palette_would_fail_that_test() -> None:
    """Two published palettes that are akin are nearer to one another than this scale is to any."""
    magma, inferno = oklab(palette("magma")), oklab(palette("inferno"))
    apart = np.linalg.norm(magma[:, np.newaxis] - inferno, axis=2).min(axis=1)
    assert apart.min() < 0.04
