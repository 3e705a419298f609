"""Tuckfold's core: wrap geometry, side fills, picture reading, colour and print files.

The names below are what a program needs that uses the core: the job and its checks, the tasks, the errors.
They are loaded when they are first used, so that importing the package alone loads neither numpy nor Pillow.

Examples
--------
>>> from pycore import check_job, lay_out
>>> layout = lay_out(check_job({"face": {"width_mm": 210, "height_mm": 297}, "bars": {"depth_mm": 20}}))
>>> layout.sheet.fits, layout.flat.canvas_mm
(True, (300.9, 387.9))
"""

from __future__ import annotations

import importlib
from typing import TYPE_CHECKING, Any, Final

if TYPE_CHECKING:
    from pycore.compare.variants import CompareOptions, Variant, depth_variants, fill_variants
    from pycore.contract.check import check_job, read_job
    from pycore.contract.job import Job
    from pycore.contract.notes import Note
    from pycore.errors import (
        FieldError,
        GeometryError,
        OutputError,
        PictureError,
        ProfileError,
        TuckfoldError,
    )
    from pycore.model.report import ModelOptions
    from pycore.printing.report import FileKind
    from pycore.progress import Progress, run_to_end
    from pycore.proofing.profile_store import ProfileStore
    from pycore.tasks.client_answer import take_answer
    from pycore.tasks.client_page import write_client_page
    from pycore.tasks.colour import clip, describe_profile, intents, look, open_profile, solid
    from pycore.tasks.compare import compare_variants
    from pycore.tasks.edges import judge_edges
    from pycore.tasks.fold import describe_fold
    from pycore.tasks.layout import lay_out
    from pycore.tasks.model import write_model
    from pycore.tasks.open_picture import OpenPicture, open_picture
    from pycore.tasks.print_file import print_files
    from pycore.tasks.proof import write_proof
    from pycore.tasks.show import show_canvas
    from pycore.tasks.strip import measure_strip, write_strip
    from pycore.tasks.turntable import make_turntable

__version__ = "0.1.0"

__all__ = [
    "CompareOptions",
    "FieldError",
    "FileKind",
    "GeometryError",
    "Job",
    "ModelOptions",
    "Note",
    "OpenPicture",
    "OutputError",
    "PictureError",
    "ProfileError",
    "ProfileStore",
    "Progress",
    "TuckfoldError",
    "Variant",
    "check_job",
    "clip",
    "compare_variants",
    "depth_variants",
    "describe_fold",
    "describe_profile",
    "fill_variants",
    "intents",
    "judge_edges",
    "lay_out",
    "look",
    "make_turntable",
    "measure_strip",
    "open_picture",
    "open_profile",
    "print_files",
    "read_job",
    "run_to_end",
    "show_canvas",
    "solid",
    "take_answer",
    "write_client_page",
    "write_model",
    "write_proof",
    "write_strip",
]

#: Where each name is made.
_MADE_IN: Final = {
    "pycore.compare.variants": ("CompareOptions", "Variant", "depth_variants", "fill_variants"),
    "pycore.contract.check": ("check_job", "read_job"),
    "pycore.contract.job": ("Job",),
    "pycore.contract.notes": ("Note",),
    "pycore.errors": (
        "FieldError",
        "GeometryError",
        "OutputError",
        "PictureError",
        "ProfileError",
        "TuckfoldError",
    ),
    "pycore.model.report": ("ModelOptions",),
    "pycore.printing.report": ("FileKind",),
    "pycore.progress": ("Progress", "run_to_end"),
    "pycore.proofing.profile_store": ("ProfileStore",),
    "pycore.tasks.client_answer": ("take_answer",),
    "pycore.tasks.client_page": ("write_client_page",),
    "pycore.tasks.colour": ("clip", "describe_profile", "intents", "look", "open_profile", "solid"),
    "pycore.tasks.compare": ("compare_variants",),
    "pycore.tasks.edges": ("judge_edges",),
    "pycore.tasks.fold": ("describe_fold",),
    "pycore.tasks.layout": ("lay_out",),
    "pycore.tasks.model": ("write_model",),
    "pycore.tasks.open_picture": ("OpenPicture", "open_picture"),
    "pycore.tasks.print_file": ("print_files",),
    "pycore.tasks.proof": ("write_proof",),
    "pycore.tasks.show": ("show_canvas",),
    "pycore.tasks.strip": ("measure_strip", "write_strip"),
    "pycore.tasks.turntable": ("make_turntable",),
}
_HOME: Final = {name: module for module, names in _MADE_IN.items() for name in names}


def __getattr__(name: str) -> Any:
    """Load a public name when it is first used."""
    home = _HOME.get(name)
    if home is None:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(importlib.import_module(home), name)


def __dir__() -> list[str]:
    """The public names, loaded or not."""
    return sorted({*globals(), *__all__})
