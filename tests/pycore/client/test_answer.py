"""The client's answer read back: the page's own text picks its variant, other texts are refused."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from pycore.cli.main import main
from pycore.client.answer import taken_answer
from pycore.client.offer import OfferedVariant
from pycore.client.words import answer_lines
from pycore.compare.variants import Variant, bring_in_variants, depth_variants, fill_variants, finish_variants
from pycore.contract.check import check_job, job_tree, open_job
from pycore.contract.job import LONGEST_ANSWER, Job
from pycore.errors import FieldError
from pycore.layout.window import picture_window
from pycore.speech import speaking

JOB = check_job({"name": "Low tide", "client": "Mara", "sides": {"left": {"fill": "plain", "blur_mm": 2}}})


def of_size(width_mm: float, height_mm: float) -> Variant:
    """A variant as the page calls it by its size."""
    job = check_job({**job_tree(JOB), "face": {"width_mm": width_mm, "height_mm": height_mm}})
    return Variant(label=f"{width_mm:g} \N{MULTIPLICATION SIGN} {height_mm:g} mm", job=job)


SIZES = [of_size(450, 310), of_size(203.5, 130)]


def text_of(variant: Variant, letter: str, *, alone: bool = False, remarks: str = "") -> str:
    """What the page gives for a variant, as web/src/client/answer.ts ends it."""
    use = picture_window(variant.job, width_px=600, height_px=400)
    offered = OfferedVariant(label=variant.label, job=variant.job, use=use, texture=0, fold=0, panels=())
    lines = [*answer_lines(offered, letter=letter, alone=alone), "", "Name: Mara", "Date: 2031-04-30"]
    return "\n".join([*lines, *(["", f"Remarks: {remarks}"] if remarks else [])])


@pytest.mark.parametrize(
    ("variants", "changed"),
    [
        (depth_variants(JOB, [12, 32]), ["bars.depth_mm"]),
        (fill_variants(JOB, ["run-on", "continued"]), ["sides.fill", "sides.left.fill"]),
        (finish_variants(JOB, ["lapped", "trimmed"]), ["wrap.finish"]),
        (bring_in_variants(JOB, [0.5, 1]), ["colour.bring_in"]),
        (SIZES, ["face.width_mm", "face.height_mm"]),
    ],
)
def test_the_pages_own_text_picks_the_variant(variants: list[Variant], changed: list[str]) -> None:
    for letter, variant in zip("AB", variants, strict=True):
        taken = taken_answer(JOB, text_of(variant, letter, remarks="Gladly,\n\nSize: as it is"))
        assert taken.job.model_copy(update={"answer": ""}) == variant.job
        assert taken.changed == changed
        assert taken.job.answer.endswith("Remarks: Gladly,\n\nSize: as it is")
        assert taken.notes == []


def test_a_yes_changes_nothing_and_keeps_the_words() -> None:
    taken = taken_answer(JOB, text_of(Variant(label="", job=JOB), "A", alone=True))
    assert taken.changed == []
    assert taken.chosen == "I say yes to this canvas."
    assert "Name: Mara" in taken.job.answer
    again = taken_answer(taken.job, taken.job.answer)
    assert again.job == taken.job


GROUP = check_job({**job_tree(JOB), "group": {"panels": 3, "gap_mm": 25}})


def test_a_groups_answer_is_read_too() -> None:
    assert taken_answer(GROUP, text_of(Variant(label="", job=GROUP), "A", alone=True)).changed == []
    (_, deep) = depth_variants(GROUP, [12, 32])
    assert taken_answer(GROUP, text_of(deep, "B")).changed == ["bars.depth_mm"]


@pytest.mark.parametrize("spoken", ["en", "de"])
def test_a_group_takes_the_size_of_its_panels(spoken: str) -> None:
    larger = check_job({**job_tree(GROUP), "face": {"width_mm": 450.5, "height_mm": 310}})
    with speaking(spoken):
        text = text_of(Variant(label="450.5 \N{MULTIPLICATION SIGN} 310 mm", job=larger), "A")
    taken = taken_answer(GROUP, text)
    assert taken.changed == ["face.width_mm", "face.height_mm"]
    assert taken.job.face == larger.face
    # Of another number of panels the size is another job's.
    four = check_job({**job_tree(larger), "group": {"panels": 4, "gap_mm": 25}})
    with pytest.raises(FieldError, match="belongs to another job: its line “Panels”"):
        taken_answer(GROUP, text_of(Variant(label="450.5 \N{MULTIPLICATION SIGN} 310 mm", job=four), "A"))


def test_each_side_may_have_its_own_fill() -> None:
    other = check_job({**job_tree(JOB), "sides": {"fill": "continued", "top": {"fill": "fade"}}})
    taken = taken_answer(JOB, text_of(Variant(label="", job=other), "B"))
    fills = {side: getattr(taken.job.sides, side).fill for side in ("top", "right", "bottom", "left")}
    assert fills == {"top": "fade", "right": "continued", "bottom": "continued", "left": "continued"}
    assert taken.job.sides.left is not None
    assert taken.job.sides.left.blur_mm == 2


def test_mail_may_wrap_and_quote_it() -> None:
    (_, variant) = fill_variants(JOB, ["run-on", "continued"])
    text = text_of(variant, "B")
    wrapped = text.replace(", or mirrored", ",\nor mirrored").replace("\n", "\r\n> ")
    assert ",\r\n> or mirrored" in wrapped
    taken = taken_answer(JOB, f"Hello,\r\n\r\n> {wrapped}")
    assert taken.job.model_copy(update={"answer": ""}) == variant.job


def test_another_size_that_was_not_on_offer_is_another_job() -> None:
    other = of_size(450, 310)
    with pytest.raises(FieldError, match="belongs to another job"):
        taken_answer(JOB, text_of(Variant(label="12 mm", job=other.job), "A"))


def test_a_letter_alone_is_noted() -> None:
    taken = taken_answer(JOB, text_of(Variant(label="", job=JOB), "B"))
    assert [note.code for note in taken.notes] == ["answer-letter-alone"]


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (("Low tide", "High tide"), "its line “Piece” says “High tide”, this job's “Low tide”"),
        (("For: Mara\n", ""), "its line “For” says nothing, this job's “Mara”"),
        (("300", "400"), "belongs to another job: its line “Size”"),
        (("Depth: 20 mm", "Depth: deep"), "is no depth"),
        (("Depth: 20 mm", "Depth: 3 mm"), "Bar depth must be 6 to 100 mm"),
        (("Corners: folded in", "Corners: folded out"), "which no corner is called"),
        (("Sides: top: ", "Sides: up: "), "which no side shows"),
        (("I say yes to this canvas.", "I choose Z."), "names no choice A to D"),
        (("I say yes to this canvas.", "Hello"), "The text is no answer of a client page"),
        (("Name: Mara", "I choose A."), "every choice of the client page"),
    ],
)
def test_another_text_is_refused_in_a_sentence(change: tuple[str, str], said: str) -> None:
    text = text_of(Variant(label="", job=JOB), "A", alone=True)
    assert change[0] in text
    with pytest.raises(FieldError, match=said):
        taken_answer(JOB, text.replace(change[0], change[1], 1))


def test_a_huge_text_is_refused() -> None:
    with pytest.raises(FieldError, match="an answer has at most 8000"):
        taken_answer(JOB, "I say yes to this canvas.\n" * LONGEST_ANSWER)
    with pytest.raises(FieldError):
        taken_answer(JOB, ">" * LONGEST_ANSWER)


def test_a_job_without_an_answer_opens_as_before() -> None:
    tree = job_tree(Job())
    del tree["answer"]
    job, notes = open_job(json.dumps(tree))
    assert (job.answer, notes) == ("", [])


def test_the_command_saves_the_job(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (_, variant) = depth_variants(JOB, [12, 32])
    (tmp_path / "job.json").write_text(json.dumps(job_tree(JOB)))
    (tmp_path / "answer.txt").write_text(text_of(variant, "B"))
    arguments = ["answer", str(tmp_path / "answer.txt"), "--job", str(tmp_path / "job.json")]
    assert main([*arguments, "--out", str(tmp_path / "job.json"), "--json"]) == 0
    figures = json.loads(capsys.readouterr().out)
    saved = open_job((tmp_path / "job.json").read_text())[0]
    assert figures["changed"] == ["bars.depth_mm"]
    assert (saved.bars.depth_mm, saved.answer) == (32, figures["answer"])
    (tmp_path / "answer.txt").write_bytes(b"\xff" * 100_000)
    assert main([*arguments, "--out", str(tmp_path / "job.json")]) == 2
    assert "at most 8000 characters" in capsys.readouterr().err
    (tmp_path / "answer.txt").write_text(text_of(variant, "B").replace("Mara", "Ida"))
    assert main([*arguments, "--out", str(tmp_path / "job.json")]) == 2
    assert "belongs to another job" in capsys.readouterr().err
