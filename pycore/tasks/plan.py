"""Many jobs on sheets and rolls: where each canvas lies, how they are cut apart, what it costs."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from pycore.errors import OutputError
from pycore.plan.drawing import plan_svg
from pycore.plan.make import make_plan
from pycore.plan.options import PlanJob, PlanOptions
from pycore.plan.result import Plan
from pycore.printing.place import check_place, file_at
from pycore.speech import say


def plan_jobs(jobs: Sequence[PlanJob], *, options: PlanOptions) -> Plan:
    """Lay every canvas of some jobs on sheets and rolls.

    Parameters
    ----------
    jobs : sequence of PlanJob
        Checked jobs with their names and copies. No picture is needed.
    options : PlanOptions
        Without stocks each job lies on its own sheet or roll.

    Returns
    -------
    Plan

    Raises
    ------
    FieldError
        No jobs, two of one name, a canvas that no sheet or roll holds, or a pin that cannot be kept.

    Examples
    --------
    >>> from pycore.contract.job import Job
    >>> plan = plan_jobs([PlanJob(name="Low tide", job=Job())], options=PlanOptions())
    >>> plan.sheets[0].stock, plan.sheets[0].pieces[0].turned
    ('329 x 483 mm sheet', True)
    """
    return make_plan(jobs, options=options)


def draw_plan(plan: Plan, out: Path) -> None:
    """Write a plan as a drawing to scale.

    Parameters
    ----------
    plan : Plan
    out : Path
        An SVG file.

    Raises
    ------
    OutputError
        It is no SVG file, or it cannot be written there.
    """
    if out.suffix.lower() != ".svg":
        raise OutputError(
            field="--out",
            expected=say("a file that ends in .svg"),
            got=out.name,
            remedy=say("give it that ending"),
        )
    check_place(out, field="--out")
    with file_at(out, field="--out") as file:
        file.write(plan_svg(plan).encode())
