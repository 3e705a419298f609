"""Variants of a job, and errors in the user's words."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from pycore.compare.variants import (
    USUAL_DEPTHS_MM,
    Variant,
    bring_in_variants,
    check_variants,
    depth_variants,
    fill_variants,
    finish_variants,
    naming,
    profile_variants,
)
from pycore.contract.check import check_job
from pycore.contract.job import Fill, Job
from pycore.errors import FieldError, GeometryError


def test_depths_change_the_depth_alone() -> None:
    job = Job(name="Low tide")
    found = depth_variants(job, USUAL_DEPTHS_MM)
    assert [one.label for one in found] == ["18 mm", "38 mm", "50 mm"]
    assert [one.job.bars.depth_mm for one in found] == [18, 38, 50]
    assert all(one.job.model_copy(update={"bars": job.bars}) == job for one in found)


def test_a_fill_is_that_of_every_side_and_the_rest_of_a_side_stays() -> None:
    job = check_job(
        {"sides": {"left": {"fill": "plain", "colour": "#112233"}, "top": {"fill": "fade"}, "band_mm": 5}}
    )
    run_on, plain = fill_variants(job, ["run-on", "plain"])
    assert (run_on.job.sides.fill, plain.job.sides.fill) == (Fill.RUN_ON, Fill.PLAIN)
    left = plain.job.sides.left
    assert left is not None
    assert (left.fill, left.colour) == (None, "#112233")
    assert plain.job.sides.top is None
    assert plain.job.sides.band_mm == 5


def test_finishes_profiles_and_bringing_in() -> None:
    finishes = finish_variants(Job(), ["tucked", "lapped", "trimmed"])
    assert [one.job.wrap.finish.value for one in finishes] == ["tucked", "lapped", "trimmed"]
    profiles = profile_variants(Job(), ["illustrative-matte", "mine.icc"])
    assert [one.job.colour.profile for one in profiles] == ["illustrative-matte", "mine.icc"]
    shares = bring_in_variants(Job(), [0, 0.25, 1])
    assert [one.job.colour.bring_in for one in shares] == [0, 0.25, 1]
    assert [one.label for one in shares] == ["nothing brought in", "25 % brought in", "all brought in"]


@pytest.mark.parametrize(
    ("ask", "field", "expected", "got"),
    [
        (lambda: depth_variants(Job(), [18]), "bars.depth_mm", "2 to 4 values", "1"),
        (
            lambda: depth_variants(Job(), [10, 18, 25, 38, 50]),
            "bars.depth_mm",
            "2 to 4 values",
            "5",
        ),
        (lambda: depth_variants(Job(), [18, 38, 18.0]), "bars.depth_mm", "values that differ", "'18 mm'"),
        (lambda: depth_variants(Job(), [18, 101]), "bars.depth_mm", "6 to 100 mm", "“101 mm”"),
        (lambda: depth_variants(Job(), [18, float("nan")]), "bars.depth_mm", "", "“nan mm”"),
        (lambda: fill_variants(Job(), ["mirror", "mirrored"]), "sides.fill", "'mirror'", "'mirrored'"),
        (lambda: fill_variants(Job(), []), "sides.fill", "2 to 4 values", "0"),
        (lambda: finish_variants(Job(), ["tucked", "tucked"]), "wrap.finish", "that differ", "'tucked'"),
        (lambda: bring_in_variants(Job(), [0, 1.5]), "colour.bring_in", "0 to 1", "150 % brought in"),
    ],
)
def test_errors_name_field_and_variant(
    ask: Callable[[], list[Variant]], field: str, expected: str, got: str
) -> None:
    with pytest.raises(FieldError) as caught:
        ask()
    assert caught.value.field == field
    assert expected in caught.value.expected
    assert got in caught.value.got


def test_a_depth_that_the_rest_of_the_job_forbids_says_which() -> None:
    # derived: a tab of 10 mm asks for bars of at least 20 mm.
    with pytest.raises(FieldError, match="18 mm") as caught:
        depth_variants(check_job({"wrap": {"finish": "trimmed"}}), [18, 38])
    assert caught.value.field == "wrap.tab_mm"


def test_equal_jobs_under_two_labels_are_refused() -> None:
    twice = [Variant(label="thin", job=Job()), Variant(label="usual", job=Job())]
    with pytest.raises(FieldError, match="usual as thin"):
        check_variants(twice, field="variants")


def test_naming_keeps_the_kind_of_error() -> None:
    with pytest.raises(GeometryError, match=r"60 mm in the variant “deep”\. Less"), naming("deep"):
        raise GeometryError(field="bars.depth_mm", expected="50 mm", got="60 mm", remedy="less")
