"""What every page with the demo's picture asks first, worked out once, before cores are forked for the pages.

A core that is forked then finds the results by the contents of the arguments; everything else it works out
itself. Only steps whose results hold no words are kept, for a page may speak another language.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Generator, Sequence
from pathlib import Path
from pkgutil import resolve_name
from typing import Any, Final

from PIL import Image

from pycore.bridge.session import Session
from pycore.contract.check import parse_job
from pycore.contract.record import Pair
from pycore.progress import run_to_end
from pycore.wall.find_paper import FoundPaper, search_paper
from pycore.workers import limit_workers, worker_count
from tests.pycore.kept import kept

sys.path.insert(0, str(Path(__file__).parent))

from demo_given import reduced_demo
from native_core import PREVIEW_PX, RESULTS

_JOB: Final = Path(__file__).resolve().parents[2] / "demo_data" / "demo_job.json"

#: Names in the table of costly steps.
WORDLESS: Final = (
    "pycore.proofing.profile_store.ProfileStore.link",
    "pycore.proofing.proof_input.picture_colours",
    "pycore.colour.mapping.intent_comparison.clipping",
    "pycore.colour.mapping.intent_comparison._figures",
    "pycore.colour.mapping.clip_report.clipping",
    "pycore.colour.mapping.bring_in.clipping",
    "pycore.tasks.choices.part_changed_most",
    "pycore.tasks.edges.judge",
    "pycore.tasks.choices.corner_picture",
    "pycore.render.laid_sides.cut_things",
    "pycore.render.laid_sides.crop_move",
    "pycore.fill.continued_sides.plan_continued",
)


def keep_steps() -> None:
    """Put a step that is done once for the same arguments in the place of each of these.

    Once for all cores of a run where it names a folder for that; in it, or else in a core alone.
    """
    named = os.environ.get(RESULTS)
    folder = None if named is None else Path(named)
    for name in WORDLESS:
        module, _, function = name.rpartition(".")
        setattr(resolve_name(module), function, kept(resolve_name(name), folder))
    found_before = kept(found_at_once, folder)

    def search(
        photo: Image.Image, sizes: Sequence[Pair], *, focal_px: float | None, usual_px: float
    ) -> Generator[float, None, FoundPaper | None]:
        yield 0.0
        return found_before(photo, sizes, focal_px=focal_px, usual_px=usual_px)

    # A sheet is looked for again and again in one photograph.
    measure = resolve_name("pycore.wall.measure")
    assert measure.search_paper is search_paper
    measure.search_paper = search


def found_at_once(
    photo: Image.Image, sizes: Sequence[Pair], *, focal_px: float | None, usual_px: float
) -> FoundPaper | None:
    """What the search for a sheet ends with."""
    return run_to_end(search_paper(photo, sizes, focal_px=focal_px, usual_px=usual_px))


def ask_first() -> None:
    """Ask what a page with the demo asks when it starts and when its side fills come into sight."""
    job = dict(parse_job(_JOB.read_text(encoding="utf-8")))
    calls: tuple[tuple[str, dict[str, Any], bytes | None], ...] = (
        ("open", {"file": "estuary.jpg"}, reduced_demo()),
        ("show", {"job": job, "fresh": True, "preview_px": PREVIEW_PX}, None),
        ("edges", {"job": job}, None),
    )
    session = Session()
    for method, params, buffer in calls:
        run_to_end(session.call(method, params, buffer))


usual = worker_count()
# A forked process does not have the threads of the one that it was forked from.
limit_workers(1)
keep_steps()
ask_first()
limit_workers(usual)
