"""The fold can be computed again from the ticket's printed numbers alone."""

from __future__ import annotations

import io
import re
from typing import Any

import numpy as np
import numpy.typing as npt
import pytest
from pypdf import PdfReader
from ticketed import ticket

from pycore.contract.check import check_job
from pycore.fold.facets import corners, flat_facets
from pycore.fold.kinds import Kind
from pycore.fold.motion import facet_maps
from pycore.fold.spec import fold_spec

pytestmark = pytest.mark.native

#: As sizes are printed.
TIMES = "\N{MULTIPLICATION SIGN}"

Floats = npt.NDArray[np.float64]

JOBS: dict[str, dict[str, Any]] = {
    "tucked": {"face": {"width_mm": 240.25, "height_mm": 180}, "bars": {"depth_mm": 32.5}},
    "tucked, set back": {"wrap": {"setback_mm": 2.5, "turnover_mm": 31}},
    "lapped, cut back": {
        "bars": {"depth_mm": 38},
        "wrap": {"finish": "lapped", "corners": "cut-back", "over": "left-right"},
    },
    "lapped, whole": {"wrap": {"finish": "lapped", "turnover_mm": 17.75}},
    "trimmed": {"wrap": {"finish": "trimmed", "tab_mm": 7.5, "over": "left-right"}},
}


def text_of(data: bytes) -> str:
    return "\n".join(page.extract_text() for page in PdfReader(io.BytesIO(data)).pages)


def number_after(label: str, text: str) -> float:
    found = re.search(rf"^{label} ([\d.]+)", text, re.MULTILINE)
    return 0.0 if found is None else float(found[1])


class PrintedFold:
    """A corner as a hand would fold it that has the ticket's text and nothing else.

    Every point of the flat corner, p past the pair of sides that is folded under and q past the other one, is
    led to its place: round the front edge, round the back edge, and in the corner square by a reflection in
    its slanting crease. Derived from paper folding, not from the core's motion.
    """

    def __init__(self, text: str) -> None:
        size = re.search(rf"^Face ([\d.]+) {TIMES} ([\d.]+) mm", text, re.MULTILINE)
        assert size is not None
        self.face = (float(size[1]), float(size[2]))
        self.depth = number_after("Bar depth", text)
        self.turnover = number_after("Turn-over on the back", text)
        corner = re.search(r"^Corners (\w+); folded on to ([\w\s]+?)\n(?:On the|Tab)", text, re.MULTILINE)
        assert corner is not None
        self.finish, self.over = corner[1], " ".join(corner[2].split())
        self.whole = "On the back corners whole" in text
        self.tab = number_after("Tab", text)
        self.slant = np.arctan2(number_after("Set back at the wall", text), self.depth)

    @property
    def flat(self) -> dict[str, Floats]:
        """The facets of the corner square."""
        d, s = self.depth, self.depth + self.turnover
        if self.finish == "trimmed":
            t = self.tab
            return {"tab": np.array([[0, 0], [d, 0], [d - t, t], [t, t]])}
        edge, ridge = np.tan(self.slant), np.tan(np.pi / 4 + self.slant)
        parts = {
            "under": np.array([[0, 0], [d, 0], [d, d * ridge]]),
            "over": np.array([[0, 0], [d, d * ridge], [-d * edge, d]]),
        }
        if self.whole:
            r, free = self.turnover, [s / ridge, s]
            corner = [[s, s]] if self.slant else []
            parts["back under"] = np.array([[d, 0], [s, 0], [s, r]])
            parts["back middle"] = np.array([[d, 0], [s, r], *corner, free, [d, d * ridge]])
            parts["back over"] = np.array([[-d * edge, d], [d, d * ridge], free, [-s * edge, s]])
        return parts

    def folded(self, part: str, points: Floats) -> Floats:
        """Where points of a facet of the corner square end up, in the corner's frame."""
        d = self.depth
        p, q = points.T
        if part in ("over", "back over"):
            # In the slanting crease it lies mirrored upon its neighbour.
            angle = 2 * (np.pi / 4 + self.slant)
            p, q = np.cos(angle) * p + np.sin(angle) * q, np.sin(angle) * p - np.cos(angle) * q
        if part == "back under":
            # In the crease that runs from the back edge at 45 degrees: q = p - d.
            p, q = q + d, p - d
        back = np.maximum(p - d, 0.0)
        side = np.minimum(p, d)
        return np.column_stack([-q, -back, -side])


KINDS = {
    "under": Kind.GUSSET_UNDER,
    "over": Kind.GUSSET_OVER,
    "tab": Kind.TAB,
    "back under": Kind.BACK_UNDER,
    "back middle": Kind.BACK_MIDDLE,
    "back over": Kind.BACK_OVER,
}


@pytest.mark.parametrize("name", JOBS)
def test_the_printed_numbers_give_the_folds_own_corner(name: str) -> None:
    job = check_job(JOBS[name])
    printed = PrintedFold(text_of(ticket(JOBS[name]).data))
    assert printed.face == (job.face.width_mm, job.face.height_mm)
    assert printed.over == job.wrap.over.value.replace("-", " and ")
    spec = fold_spec(job)
    corner = corners(spec)["top-right"]
    facets = flat_facets(spec)
    own = {
        facet.kind: (facet, rigid)
        for facet, rigid in zip(facets, facet_maps(spec, facets, np.ones(1)), strict=True)
        if [end.name for end in facet.ends] == [corner.name]
    }
    parts = printed.flat
    assert len(parts) == len(own)
    # Derived: a whole corner square has five facets, one that is cut back two, a trimmed one its tab.
    whole = job.wrap.corners.value == "whole" and printed.finish != "trimmed"
    assert len(own) == {"trimmed": 1}.get(printed.finish, 5 if whole else 2)
    assert whole is printed.whole
    frame = np.eye(3)
    frame[:2, :2] = corner.axes
    origin = np.array([*printed.face, 0.0])
    for part, flat in parts.items():
        facet, rigid = own[KINDS[part]]
        local = (facet.flat - corner.origin) @ corner.axes
        # The same outline, wherever it begins: the numbers are printed with all their digits.
        assert sorted(map(tuple, flat.round(6) + 0.0)) == sorted(map(tuple, local.round(6) + 0.0))
        placed = rigid.apply(np.column_stack([facet.flat, np.zeros(len(facet.flat))]))[0]
        expected = printed.folded(part, local) @ frame.T + origin
        assert placed == pytest.approx(expected, abs=1e-6)
