"""The desk: which profile is meant, what clips where, and what bringing in leaves."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from unittest.mock import Mock

import numpy as np
import pytest

from pycore.colour.icc.endpoints import Standard
from pycore.colour.link.axes import source_axes
from pycore.colour.link.viewing import Viewing
from pycore.colour.mapping.intent_advice import intent_advice
from pycore.colour.mapping.node_moves import node_moves
from pycore.contract.job import Job
from pycore.errors import FieldError
from pycore.layout.grid import PixelGrid, pixel_grid, preview_ppi
from pycore.picture.source import SourcePicture
from pycore.progress import run_to_end
from pycore.proofing.adjust import fitted, shift
from pycore.proofing.profile_store import ProfileStore
from pycore.proofing.proof_input import ProofInput, make_proof_input, picture_space
from pycore.render.preview import PreviewSource


def on_canvas(source: SourcePicture, job: Job) -> tuple[ProofInput, PixelGrid]:
    grid = pixel_grid(job, ppi=preview_ppi(job, preview_px=100_000))
    pixels = np.ascontiguousarray(run_to_end(PreviewSource(source).canvas(job, grid))[..., :3])
    return make_proof_input(pixels, picture_space(source), grid), grid


def test_a_profile_that_is_not_open_is_named() -> None:
    with pytest.raises(FieldError, match=r"'matte\.icc'") as caught:
        ProfileStore().profile("matte.icc")
    assert caught.value.field == "colour.profile"


def test_the_invented_canvas_says_so() -> None:
    profile = ProfileStore().profile("illustrative-matte")
    assert profile.illustration
    assert [note.code for note in profile.notes] == ["illustrative-profile"]
    assert "not a measured one" in profile.notes[0].message


def test_clipping_is_found_where_it_is(job: Callable[..., Job], source: SourcePicture) -> None:
    """Derived: the right half and right side are red, which clips; grey does not; the left side is blue."""
    made = job(canvas={"thickness_mm": 0})
    proof_input, grid = on_canvas(source, made)
    found = ProfileStore().clipped(proof_input, made.colour, grid)
    parts = {part.name: part for part in found.report.regions}
    assert parts["right"].share == pytest.approx(1, abs=0.02)
    assert parts["left"].share > 0.4
    # Half of the face is red, a sixteenth is blue.
    assert parts["face"].share == pytest.approx(0.5 + 1 / 16, abs=0.02)
    assert parts["face"].chroma == pytest.approx(parts["face"].share, abs=1e-9)
    assert len(found.report.groups) == 2
    middle = found.labels[grid.rows[2] : grid.rows[3], grid.columns[2] : grid.columns[3]]
    width = middle.shape[1]
    assert np.all(middle[:, int(width * 0.2) : int(width * 0.45)] == 0)
    assert np.all(middle[:, int(width * 0.55) :] == 1)


def test_bare_canvas_never_clips(job: Callable[..., Job], source: SourcePicture) -> None:
    made = job()
    proof_input, grid = on_canvas(source, made)
    labels = ProfileStore().clipped(proof_input, made.colour, grid).labels
    assert np.all(labels[: grid.rows[1]] == 0)
    assert np.all(labels[:, : grid.columns[1]] == 0)
    assert labels.any()


def test_a_higher_threshold_clips_less(job: Callable[..., Job], source: SourcePicture) -> None:
    made = job()
    proof_input, grid = on_canvas(source, made)
    strict = made.colour.model_copy(update={"clip_threshold_de": 0.5})
    lax = made.colour.model_copy(update={"clip_threshold_de": 50.0})
    profiles = ProfileStore()
    assert profiles.clipped(proof_input, strict, grid).report.regions[0].share > 0.5
    assert profiles.clipped(proof_input, lax, grid).report.regions[0].share == 0


def test_bringing_in_leaves_almost_nothing_out(job: Callable[..., Job], source: SourcePicture) -> None:
    made = job(colour={"bring_in": 1})
    proof_input, grid = on_canvas(source, made)
    found = ProfileStore().clipped(proof_input, made.colour, grid)
    before, after = found.before.regions[0], found.report.regions[0]
    assert before.share > 0.5
    assert after.share <= 0.005


def test_the_link_begins_with_what_is_brought_in(job: Callable[..., Job], source: SourcePicture) -> None:
    proof_input, _ = on_canvas(source, job())
    profiles = ProfileStore()
    plain, brought = (
        profiles.link(
            proof_input,
            job(colour={"bring_in": strength}).colour,
            viewing=Viewing.BLACK,
            screen=Standard.SRGB,
        )
        for strength in (0.0, 1.0)
    )
    # Between the nodes of the one there is a node more of the other.
    assert brought.nodes == 2 * plain.nodes - 1
    same = brought.table[::2, ::2, ::2]
    red, grey = (32, 0, 0), (16, 16, 16)
    assert plain.table[*red, 3] > 0.04
    assert same[*red, 3] < plain.table[*red, 3] / 2
    # Mid grey lies inside and is left alone.
    assert same[*grey, :3] == pytest.approx(plain.table[*grey, :3], abs=1e-6)


def test_screen_and_print_file_share_what_is_brought_in(
    job: Callable[..., Job], source: SourcePicture, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The moves at a table's nodes cost most of the work: they are worked out once."""
    made = Mock(side_effect=node_moves)
    monkeypatch.setattr("pycore.colour.mapping.node_moves.node_moves", made)
    proof_input, grid = on_canvas(source, job())
    profiles, colour = ProfileStore(), job(colour={"bring_in": 0.37}).colour
    profiles.link(proof_input, colour, viewing=Viewing.BLACK, screen=Standard.SRGB)
    profiles.brought(proof_input, colour, grid)
    profiles.link(proof_input, colour, viewing=Viewing.CANVAS, screen=Standard.SRGB)
    gamut = profiles.profile(colour.profile).gamut
    again = shift(fitted(proof_input, gamut, colour), proof_input.space, gamut, colour)
    assert again is not None
    again(source_axes(proof_input.space, intent=colour.intent))
    assert made.call_count == 1


def test_a_fit_holds_for_any_strength(
    job: Callable[..., Job], source: SourcePicture, monkeypatch: pytest.MonkeyPatch
) -> None:
    made = Mock(side_effect=fitted)
    monkeypatch.setattr("pycore.proofing.profile_store.fitted", made)
    proof_input, grid = on_canvas(source, job())
    profiles = ProfileStore()
    brought = [
        profiles.brought(proof_input, job(colour={"bring_in": strength}).colour, grid)
        for strength in (0.31, 0.62)
    ]
    assert made.call_count == 1
    assert not np.array_equal(brought[0].pixels, brought[1].pixels)
    # What was fitted to one picture or one threshold does not serve another.
    other = job(colour={"bring_in": 0.31, "clip_threshold_de": 4.0}).colour
    profiles.brought(proof_input, other, grid)
    assert made.call_count == 2
    profiles.brought(replace(proof_input), other, grid)
    assert made.call_count == 3


def test_intents_are_ranked_without_the_absolute_one(job: Callable[..., Job], source: SourcePicture) -> None:
    proof_input, _ = on_canvas(source, job())
    figures = tuple(ProfileStore().intents_in_turn(proof_input, job().colour))
    advice = intent_advice(figures)
    assert len(figures) == 7
    assert advice.intent.value != "absolute"
    assert advice.reason.endswith(".")


def test_a_profile_of_the_same_name_makes_way() -> None:
    profiles = ProfileStore()
    first = profiles.profile("illustrative-matte")
    profiles.keep(replace(first, description="another"))
    assert profiles.profile("illustrative-matte").description == "another"
