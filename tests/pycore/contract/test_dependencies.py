"""Every result changes only with the job fields that the table declares for it, on pictures and on groups."""

from __future__ import annotations

import dataclasses
import hashlib
import io
import json
from collections.abc import Callable, Iterator
from functools import lru_cache
from typing import Any

import numpy as np
import pytest
from PIL import Image

from pycore.bridge.choice_replies import detail_answer, fills_answer, finishes_answer, intents_answer
from pycore.bridge.colour_replies import (
    clip_answer,
    compare_answer,
    intents_reply,
    look_reply,
    solid_answer,
)
from pycore.bridge.replies import fold_reply
from pycore.client.report import ClientOptions
from pycore.colour.link.viewing import Screen, Viewing
from pycore.compare.variants import CompareOptions, Variant
from pycore.contract.check import check_job, job_tree
from pycore.contract.dependencies import DEPENDENCIES, Result, dependence_key
from pycore.contract.job import Fill, Job
from pycore.conventions import Side
from pycore.fold.animation import fold_animation
from pycore.layout.group import panel_jobs
from pycore.plan.options import PlanJob, PlanOptions
from pycore.progress import run_to_end
from pycore.proofing import proof_input as proof_input_module
from pycore.proofing.profile_store import ProfileStore
from pycore.render.continued_plans import KeptPlans
from pycore.render.panels import panel_grid, stacked_canvas
from pycore.render.reduced_copy import whole_copy
from pycore.tasks.bars import order_bars
from pycore.tasks.choices import fill_choices, finish_choices, intent_choices
from pycore.tasks.client_page import write_client_page
from pycore.tasks.colour import clip, intents, look, solid
from pycore.tasks.compare import compare_variants
from pycore.tasks.edges import judge_edges
from pycore.tasks.layout import lay_out
from pycore.tasks.open_picture import OpenPicture, open_picture
from pycore.tasks.plan import plan_jobs
from pycore.tasks.print_detail import show_detail
from tests.pycore.kept import kept_steps

#: Inside Pyodide this would take many minutes, and it is about the table, not about the interpreter.
pytestmark = [pytest.mark.slow, pytest.mark.native]

#: Few pixels: what a result depends on does not depend on how finely it is made.
PIXELS = 10_000

#: Jobs that between them use every field: one piece; a group whose colours are brought in; continued sides.
JOBS: dict[str, dict[str, Any]] = {
    "piece": {"name": "Low tide", "sides": {"fill": "mirror", "blur_mm": 4, "left": {"fill": "fade"}}},
    "group": {
        "group": {"panels": 3, "across_gap": "joined"},
        "face": {"width_mm": 200, "height_mm": 260},
        "sides": {"fill": "plain", "top": {"fill": "drawn-out"}},
        "colour": {"bring_in": 0.5},
    },
    "continued": {"bars": {"depth_mm": 20}, "sides": {"fill": "continued"}},
}

#: Other values for a leaf, of which the first that differs is taken; what is not listed here is made from the
#: value's own kind.
OTHER: dict[str, tuple[Any, ...]] = {
    "picture.file": ("other.jpg",),
    "picture.sha256": ("ab" * 32,),
    "picture.crop": ({"x": 0.1, "y": 0.05, "width": 0.7, "height": 0.8},),
    "picture.turn": (90,),
    "picture.enlarging": ("drawing",),
    # Narrower than the turn-over, so that the note on it comes.
    "bars.width_mm": (15,),
    "bars.wood": ("beech",),
    "bars.density_kg_m3": (500,),
    "group.hung": ("down",),
    "group.across_gap": ("joined", "behind"),
    "wrap.finish": ("lapped",),
    "wrap.over": ("left-right",),
    "wrap.corners": ("cut-back",),
    "sides.fill": ("run-on", "mirror"),
    "sides.colour": ("#405060",),
    "sides.top": ({"fill": "plain", "colour": "#102030"},),
    "sides.right": ({"fill": "run-on"},),
    "sides.bottom": ({"blur_mm": 9},),
    "sides.left": ({"fill": "drawn-out", "band_mm": 7},),
    "sheet.height_mm": (None,),
    "colour.intent": ("absolute",),
    "colour.profile": ("other.icc",),
    "print.convert": ("convert",),
    "print.bits": (16,),
}


def leaves(tree: dict[str, Any], prefix: str = "") -> Iterator[str]:
    """Every leaf field of the contract, by its dotted name."""
    for name, value in tree.items():
        field = f"{prefix}{name}"
        if isinstance(value, dict) and field not in OTHER:
            yield from leaves(value, f"{field}.")
        elif field != "version":
            yield field


def all_leaves() -> list[str]:
    """The leaves of a job, those that may be absent among them."""
    tree = Job().model_dump(mode="json")
    return list(leaves(tree))


def changed(job: dict[str, Any], field: str) -> Job:
    """The job with one leaf changed."""
    tree = job_tree(check_job(job))
    at: Any = tree
    *path, last = field.split(".")
    for step in path:
        at = at.setdefault(step, {})
    old = at.get(last)
    if field in OTHER:
        new = next(one for one in OTHER[field] if one != old)
    elif isinstance(old, bool):
        new = not old
    elif isinstance(old, list):
        new = [one + 1 for one in old]
    elif isinstance(old, int | float):
        new = old + 1 if old >= 1 else old + 0.25
    else:
        new = f"{old} and more"
    if new is None:
        at.pop(last, None)
    else:
        at[last] = new
    return check_job(tree)


def test_every_leaf_can_be_changed() -> None:
    for job in JOBS.values():
        for field in all_leaves():
            assert changed(job, field) != check_job(job), field


@lru_cache(maxsize=1)
def picture() -> OpenPicture:
    """A picture with colours outside the gamut, shapes and slant lines at its edges, and fine detail."""
    rows, columns = np.mgrid[0:120, 0:160]
    pixels = np.zeros((120, 160, 3), np.uint8)
    pixels[..., 0] = columns * 255 // 159
    pixels[..., 1] = rows * 255 // 119
    pixels[..., 2] = (columns * 7 + rows * 3) % 256
    pixels[(columns - rows) % 30 < 3] = (255, 0, 200)
    pixels[(columns - 150) ** 2 + (rows - 15) ** 2 < 125] = (0, 255, 255)
    file = io.BytesIO()
    Image.fromarray(pixels).save(file, "PNG")
    return run_to_end(open_picture(file.getvalue(), file="shapes.png"))


@lru_cache(maxsize=1)
def profiles() -> ProfileStore:
    """The invented canvas, also under another name with other colours: the names count, not the bytes."""
    store = ProfileStore()
    store.keep(dataclasses.replace(store.profile("illustrative-matte"), name="other.icc"))
    return store


def digest(*parts: Any) -> str:
    found = hashlib.sha256()
    for part in parts:
        if isinstance(part, np.ndarray):
            found.update(str(part.shape).encode() + np.ascontiguousarray(part).tobytes())
        elif isinstance(part, bytes):
            found.update(part)
        else:
            found.update(json.dumps(part, sort_keys=True, default=str).encode())
    return found.hexdigest()


def plain(record: Any) -> Any:
    return record.model_dump(mode="json")


def texture(job: Job) -> str:
    grid = panel_grid(job, preview_px=PIXELS)
    return digest(run_to_end(stacked_canvas(picture().preview, job, grid)))


def fold(job: Job) -> str:
    arrays: list[Any] = []
    reply = fold_reply(fold_animation(job, grid=panel_grid(job, preview_px=PIXELS)), arrays)
    return digest(plain(reply), *arrays)


def look_tables(job: Job) -> str:
    tables = run_to_end(
        look(job, picture(), profiles(), viewing=Viewing.BLACK, screen=Screen.DISPLAY_P3, fine=False)
    )
    arrays: list[Any] = []
    return digest(plain(look_reply(tables, arrays)), *arrays)


def clipping(job: Job) -> str:
    answer = clip_answer(run_to_end(clip(job, picture(), profiles())))
    return digest(plain(answer.reply), *answer.buffers)


def solid_points(job: Job) -> str:
    answer = solid_answer(run_to_end(solid(job, picture(), profiles())))
    return digest(plain(answer.reply), *answer.buffers)


def continued_plan(job: Job) -> str:
    plans = []
    for one in panel_jobs(job, width_px=160, height_px=120):
        kept = KeptPlans(picture().source, whole_copy(picture().source))
        plans.append(run_to_end(kept.plans(one, share=1.0)))
    return digest([repr(one) for one in plans])


def comparison(job: Job) -> str:
    deeper = job.model_copy(update={"bars": job.bars.model_copy(update={"depth_mm": 45.5})})
    variants = [Variant(label="one", job=job), Variant(label="two", job=deeper)]
    found = run_to_end(
        compare_variants(variants, picture(), profiles(), options=CompareOptions(preview_px=PIXELS))
    )
    answer = compare_answer(found, is_srgb=True)
    reply = plain(answer.reply)
    for one in reply["variants"]:
        # The job itself is what was given, not what was worked out.
        del one["job"]
    return digest(reply, *answer.buffers)


def client(job: Job) -> str:
    page = run_to_end(
        write_client_page(
            [Variant(label="", job=job)],
            picture(),
            profiles(),
            viewer=b"void 0;",
            options=ClientOptions(date="2031-04-30"),
            file="client.html",
        )
    )
    return digest(page.data)


def chosen_fills(job: Job) -> str:
    # Continued lines are planned on the whole canvas; they are shown where a job has them.
    continued = job.sides.fill is Fill.CONTINUED
    fills = [fill for fill in Fill if continued or fill is not Fill.CONTINUED]
    answer = fills_answer(run_to_end(fill_choices(job, picture(), fills=fills)))
    return digest(plain(answer.reply), *answer.buffers)


def chosen_side_fills(job: Job) -> str:
    found = fill_choices(job, picture(), fills=[Fill.MIRROR, Fill.PLAIN], side=Side.TOP)
    answer = fills_answer(run_to_end(found))
    return digest(plain(answer.reply), *answer.buffers)


def chosen_finishes(job: Job) -> str:
    answer = finishes_answer(run_to_end(finish_choices(job, picture())))
    return digest(plain(answer.reply), *answer.buffers)


def chosen_intents(job: Job) -> str:
    answer = intents_answer(run_to_end(intent_choices(job, picture(), profiles(), viewing=Viewing.BLACK)))
    return digest(plain(answer.reply), *answer.buffers)


def shown_detail(job: Job) -> str:
    answer = detail_answer(run_to_end(show_detail(job, picture(), width_px=120, height_px=90)))
    return digest(plain(answer.reply), *answer.buffers)


MAKERS: dict[Result, Callable[[Job], str]] = {
    Result.TEXTURE: texture,
    Result.FOLD: fold,
    Result.LAYOUT: lambda job: digest(plain(lay_out(job, picture()))),
    Result.BARS: lambda job: digest(plain(order_bars(job))),
    Result.LOOK: look_tables,
    Result.CLIP: clipping,
    Result.INTENTS: lambda job: digest(plain(intents_reply(run_to_end(intents(job, picture(), profiles()))))),
    Result.SOLID: solid_points,
    Result.EDGES: lambda job: digest(plain(judge_edges(job, picture()))),
    Result.CONTINUED_PLAN: continued_plan,
    Result.COMPARISON: comparison,
    Result.CLIENT_PAGE: client,
    Result.CHOICES_FILLS: chosen_fills,
    Result.CHOICES_SIDE_FILLS: chosen_side_fills,
    Result.CHOICES_FINISHES: chosen_finishes,
    Result.CHOICES_INTENTS: chosen_intents,
    Result.CUTTING: lambda job: digest(
        plain(plan_jobs([PlanJob(name=job.name, job=job)], options=PlanOptions()))
    ),
    Result.DETAIL: shown_detail,
}


#: No costly step is done twice with the same.
KEPT = kept_steps()


#: Sizes of what is worked on inside, smaller here for the same reason as `PIXELS`.
FEWER: dict[str, int] = {
    "pycore.edges.working._FACE_PX": 12_000,
    "pycore.edges.working._MOST_PX": 22_000,
    "pycore.edges.working._LEAST_DEEP_PX": 4,
    "pycore.fill.continued_sides.PLAN_DEPTH": 20,
    "pycore.proofing.intent_pictures.WIDTH_PX": 84,
    "pycore.proofing.intent_pictures.HEIGHT_PX": 70,
    "pycore.render.corner_view.PICTURE_WIDTH_PX": 108,
    "pycore.render.corner_view.PICTURE_HEIGHT_PX": 104,
    "pycore.tasks.choices.PICTURE_WIDTH_PX": 108,
}


@pytest.fixture(autouse=True)
def small(monkeypatch: pytest.MonkeyPatch) -> None:
    """Figures are taken from fewer pixels here."""
    defaults = proof_input_module.flat_proof_input.__kwdefaults__
    assert defaults is not None
    monkeypatch.setitem(defaults, "most_px", PIXELS)
    for name, fewer in FEWER.items():
        monkeypatch.setattr(name, fewer)
    for name, step in KEPT.items():
        monkeypatch.setattr(name, step)


def test_every_result_is_made_and_declared() -> None:
    assert set(MAKERS) == set(Result) == set(DEPENDENCIES)


def test_every_declared_field_exists() -> None:
    names = {".".join(field.split(".")[:count]) for field in all_leaves() for count in range(1, 4)}
    names |= {f"sides.{side}.{part}" for side in Side for part in ("fill", "band_mm")}
    for depends in DEPENDENCIES.values():
        assert {*depends.fields, *depends.while_bringing_in} <= names


#: Sides that are continued take long, and matter to these results in their own way.
CONTINUED = (Result.TEXTURE, Result.LAYOUT, Result.EDGES, Result.CONTINUED_PLAN, Result.COMPARISON)


@pytest.mark.parametrize(
    ("result", "name"),
    [(result, name) for result in Result for name in JOBS if name != "continued" or result in CONTINUED],
)
def test_what_changes_was_declared(result: Result, name: str) -> None:
    job = check_job(JOBS[name])
    make = MAKERS[result]
    before = make(job)
    key = dependence_key(job, result)
    undeclared = [
        field for field in all_leaves() if dependence_key(changed(JOBS[name], field), result) == key
    ]
    # derived: every result leaves out the job's notes at least.
    assert "notes" in undeclared
    moved = [field for field in undeclared if make(changed(JOBS[name], field)) != before]
    assert moved == []


@pytest.mark.parametrize(
    ("result", "field"),
    [
        (Result.TEXTURE, "sides.fill"),
        (Result.FOLD, "wrap.setback_mm"),
        (Result.LAYOUT, "sheet.width_mm"),
        (Result.BARS, "bars.wood"),
        (Result.LOOK, "colour.intent"),
        (Result.CLIP, "group.panels"),
        (Result.INTENTS, "group.panels"),
        (Result.SOLID, "picture.turn"),
        (Result.EDGES, "picture.crop"),
        (Result.CONTINUED_PLAN, "picture.turn"),
        (Result.COMPARISON, "canvas.weight_gsm"),
        (Result.CLIENT_PAGE, "client"),
        (Result.CHOICES_FILLS, "sides.blur_mm"),
        (Result.CHOICES_SIDE_FILLS, "sides.fill"),
        (Result.CHOICES_FINISHES, "wrap.turnover_mm"),
        (Result.CHOICES_INTENTS, "colour.clip_threshold_de"),
        (Result.CUTTING, "group.panels"),
        (Result.DETAIL, "print.sharpening"),
    ],
)
def test_a_declared_field_does_change_its_result(result: Result, field: str) -> None:
    """Otherwise the test above could not fail."""
    job = JOBS["continued"]
    assert MAKERS[result](changed(job, field)) != MAKERS[result](check_job(job))
    assert dependence_key(changed(job, field), result) != dependence_key(check_job(job), result)
