"""The part of the face that printing changes most, and how each intent shows it."""

from __future__ import annotations

import numpy as np
import pytest

from pycore.colour.icc.endpoints import Standard
from pycore.colour.link.proof import proof_transform
from pycore.colour.link.viewing import Viewing
from pycore.contract.check import check_job
from pycore.contract.job import Intent, Job
from pycore.layout.grid import pixel_grid
from pycore.picture.tones import U8
from pycore.proofing.intent_pictures import (
    HEIGHT_PX,
    WIDTH_PX,
    changed_most,
    intent_pictures,
    part_changed_most,
)
from pycore.proofing.profile_store import ProfileStore
from pycore.proofing.proof_input import make_proof_input

JOB = check_job({"face": {"width_mm": 200, "height_mm": 150}, "bars": {"depth_mm": 20}})
GRID = pixel_grid(JOB, ppi=60)


def canvas(colour: tuple[int, int, int]) -> U8:
    """Mid grey with one strong colour in the lower right of the face."""
    pixels = np.full((GRID.height_px, GRID.width_px, 3), 128, np.uint8)
    middle_row = (GRID.rows[2] + GRID.rows[3]) // 2
    middle_column = (GRID.columns[2] + GRID.columns[3]) // 2
    pixels[middle_row : GRID.rows[3], middle_column : GRID.columns[3]] = colour
    return pixels


def shown(job: Job, pixels: U8) -> dict[Intent, U8]:
    proof_input = make_proof_input(pixels, Standard.SRGB, GRID)
    part = part_changed_most(proof_input, GRID, job.colour, ProfileStore())
    return dict(intent_pictures(part, Standard.SRGB, job.colour, ProfileStore(), viewing=Viewing.BLACK))


def test_each_intent_shows_its_own_proof_of_the_strongest_part() -> None:
    strong = (0, 255, 60)
    found = shown(JOB, canvas(strong))
    assert list(found) == list(Intent)
    gamut = ProfileStore().profile(JOB.colour.profile).gamut
    for intent, picture in found.items():
        assert picture.shape == (HEIGHT_PX, WIDTH_PX, 4)
        proof = proof_transform(
            Standard.SRGB,
            gamut,
            Standard.SRGB,
            intent=intent,
            black_point_compensation=intent is not Intent.ABSOLUTE,
            viewing=Viewing.BLACK,
        )
        expected = np.clip(proof(np.array([strong]) / 255.0)[0], 0, 1) * 255
        # derived: half an 8-bit step.
        assert picture[HEIGHT_PX // 2, WIDTH_PX // 2, :3] == pytest.approx(expected, abs=0.51)


def test_a_part_is_found_wherever_it_lies() -> None:
    change = np.zeros(1 << 18, np.float32)
    change[-1] = 10
    for top, left in ((0, 0), (0, 140), (60, 70), (60, 140)):
        face = np.zeros((100, 200, 3), np.uint8)
        face[top : top + 40, left : left + 60] = 255
        found = changed_most(face, change)
        width, height = found[2] - found[0], found[3] - found[1]
        # derived: two fifths of 100 px are 40, and 40 x 168 / 140 is 48.
        assert (width, height) == (48, 40)
        inside = face[found[1] : found[3], found[0] : found[2]]
        assert inside.min() == 255


def test_the_part_never_reaches_past_the_face() -> None:
    chance = np.random.default_rng(3)
    change = chance.uniform(0, 5, 1 << 18).astype(np.float32)
    for rows, columns in ((7, 300), (300, 7), (1, 1), (513, 211)):
        face = chance.integers(0, 256, (rows, columns, 3), dtype=np.uint8)
        left, top, right, bottom = changed_most(face, change)
        assert 0 <= left < right <= columns
        assert 0 <= top < bottom <= rows
