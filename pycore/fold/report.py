"""The fold in figures, as the command line prints it."""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from pycore.contract.job import Job
from pycore.errors import FieldError
from pycore.fold.facets import flat_facets
from pycore.fold.layers import bulk_of, layer_ranks
from pycore.fold.motion import facet_maps
from pycore.fold.notes import fold_notes
from pycore.fold.spec import fold_spec
from pycore.fold.stages import stages_of
from pycore.fold.visible import visible_parts
from pycore.speech import say


def fold_report(job: Job, *, at: float) -> dict[str, Any]:
    """Every facet of a job's canvas at one moment.

    Parameters
    ----------
    job : Job
        A checked job.
    at : float
        0 flat to 1 folded.

    Returns
    -------
    dict
        `facets`: name, flat_mm (n x 2), position_mm (n x 3, same order), layer, visible_mm (polygons);
        `bulk_mm` and `layers` by place; `stages`; `notes`. Lengths in mm.

    Raises
    ------
    FieldError
        `at` is not from 0 to 1.
    GeometryError
        The corners cannot be folded at these sizes.

    Examples
    --------
    >>> len(fold_report(Job(), at=1.0)["facets"])
    29
    """
    if not (math.isfinite(at) and 0 <= at <= 1):
        raise FieldError(
            field="at",
            expected=say("a number from 0 (flat) to 1 (folded)"),
            got=f"{at:g}",
            remedy=say("give one of these"),
        )
    spec = fold_spec(job)
    facets, ranks, bulk = flat_facets(spec), layer_ranks(spec), bulk_of(spec)
    maps = facet_maps(spec, facets, np.array([at]))
    return {
        "at": at,
        "facets": [
            {
                "name": facet.name,
                "flat_mm": facet.flat.tolist(),
                "position_mm": rigid.apply(np.column_stack([facet.flat, np.zeros(len(facet.flat))]))[
                    0
                ].tolist(),
                "layer": ranks[facet.kind],
                "visible_mm": [part.tolist() for part in visible_parts(spec, facet)],
            }
            for facet, rigid in zip(facets, maps, strict=True)
        ],
        "bulk_mm": {one.place: one.thickness_mm for one in bulk},
        "layers": {one.place: one.layers for one in bulk},
        "stages": [
            {"name": stage.name, "label": stage.label, "start": stage.start, "end": stage.end}
            for stage in stages_of(spec)
        ],
        "notes": [note.model_dump(mode="json") for note in fold_notes(spec)],
    }
