"""Calls whose answers depend on nothing that a session keeps: neither the open picture nor its profiles.

Each takes its parameters as the page sends them and a buffer, and returns steps like `Session.call`, which
says what is raised. What they need is loaded when it is first asked for.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, Final

from pycore.bridge.answer import Answer, Arrays, Steps, parts_of
from pycore.bridge.messages import Method
from pycore.bridge.params import checked_params
from pycore.bridge.showing_messages import TurntableParams, TurntableReply
from pycore.printing.file_names import file_stem
from pycore.progress import Progress
from pycore.speech import say


def _turntable(params: Mapping[str, Any], buffer: bytes | None) -> Steps:
    """Make a turntable of frames, which are the buffer."""
    from pycore.tasks.turntable import make_turntable

    asked = TurntableParams.model_validate(params)
    made = yield from make_turntable(buffer or b"", options=asked)
    arrays: Arrays = []
    return Answer(TurntableReply(report=made.report, parts=parts_of(made.data, arrays)), arrays)


def _plan(params: Mapping[str, Any], buffer: bytes | None) -> Steps:
    """Plan the copies of a job on sheets or a roll."""
    from pycore.bridge.plan_messages import PlanParams
    from pycore.plan.check import check_copies, check_options
    from pycore.plan.options import PlanJob
    from pycore.tasks.plan import plan_jobs

    yield from ()
    # A person types these, so that what is wrong with them is said in a sentence.
    options = check_options(params["options"])
    copies = check_copies(params.get("copies", 1))
    job = checked_params(PlanParams, {**params, "options": {}}).job
    return Answer(plan_jobs([PlanJob(name=job.name, job=job, copies=copies)], options=options))


def _measure_strip(params: Mapping[str, Any], buffer: bytes | None) -> Steps:
    """Compare what a device measured with what was promised; the measured text is the buffer."""
    from pycore.bridge.strip_messages import MeasureStripParams
    from pycore.tasks.strip import measure_strip

    yield from ()
    asked = MeasureStripParams.model_validate(params)
    return Answer(measure_strip(expected=asked.expected.encode(), measured=buffer or b""))


def _answer(params: Mapping[str, Any], buffer: bytes | None) -> Steps:
    """Take a client's answer into the job."""
    from pycore.bridge.answer_messages import AnswerParams, AnswerReply
    from pycore.tasks.client_answer import take_answer

    yield from ()
    asked = checked_params(AnswerParams, params)
    taken = take_answer(asked.job, asked.text)
    return Answer(AnswerReply(job=taken.job, chosen=taken.chosen, changed=taken.changed, notes=taken.notes))


def _open_presets(params: Mapping[str, Any], buffer: bytes | None) -> Steps:
    """Put the entries of a file among one's own."""
    from pycore.bridge.preset_messages import OpenPresetsParams
    from pycore.contract.presets_check import check_presets
    from pycore.tasks.presets import join_presets

    yield from ()
    asked = OpenPresetsParams.model_validate(params)
    return Answer(join_presets(asked.presets, check_presets(asked.text)))


def _take_preset(params: Mapping[str, Any], buffer: bytes | None) -> Steps:
    """Take an entry into a job."""
    from pycore.bridge.preset_messages import TakePresetParams, TakePresetReply
    from pycore.tasks.presets import take_preset

    yield from ()
    asked = checked_params(TakePresetParams, params)
    job = take_preset(asked.job, asked.presets, kind=asked.kind, name=asked.name)
    return Answer(TakePresetReply(job=job))


def _keep_preset(params: Mapping[str, Any], buffer: bytes | None) -> Steps:
    """Keep what the job has under a name."""
    from pycore.bridge.preset_messages import KeepPresetParams, PresetsReply
    from pycore.tasks.presets import keep_preset

    yield from ()
    asked = checked_params(KeepPresetParams, params)
    kept = keep_preset(asked.presets, asked.job, kind=asked.kind, name=asked.name, price=asked.price)
    return Answer(PresetsReply(presets=kept))


def _open_bundle(params: Mapping[str, Any], buffer: bytes | None) -> Steps:
    """Open a bundle, which is the buffer."""
    from pycore.bridge.bundle_replies import open_bundle_answer
    from pycore.tasks.bundle import read_bundle

    yield Progress(done=0, label=say("Reading the bundle"))
    return open_bundle_answer(read_bundle(buffer or b""))


def _save_bundle(params: Mapping[str, Any], buffer: bytes | None) -> Steps:
    """Save a bundle; the files' bytes lie behind one another in the buffer."""
    from pycore.bridge.bundle_messages import SaveBundleParams
    from pycore.bridge.bundle_replies import given_files, save_bundle_answer
    from pycore.tasks.bundle import save_bundle

    asked = checked_params(SaveBundleParams, params)
    yield Progress(done=0, label=say("Saving the bundle"))
    files = given_files(asked.files, buffer or b"")
    return save_bundle_answer(save_bundle(asked.job, files, file=f"{file_stem(asked.job)}.zip"))


#: What answers each method that is one of these.
STATELESS: Final[Mapping[Method, Callable[[Mapping[str, Any], bytes | None], Steps]]] = {
    Method.TURNTABLE: _turntable,
    Method.PLAN: _plan,
    Method.MEASURE_STRIP: _measure_strip,
    Method.ANSWER: _answer,
    Method.OPEN_PRESETS: _open_presets,
    Method.TAKE_PRESET: _take_preset,
    Method.KEEP_PRESET: _keep_preset,
    Method.OPEN_BUNDLE: _open_bundle,
    Method.SAVE_BUNDLE: _save_bundle,
}
