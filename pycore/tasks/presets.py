"""A user's own sheets, rolls, bars and canvases: taken into a job or a plan, and kept under a name."""

from __future__ import annotations

from typing import Any, Final

from pycore.contract.check import check_job, job_tree
from pycore.contract.job import Bars, Job, Sheet
from pycore.contract.presets import (
    LIST_OF,
    BarsPreset,
    CanvasPreset,
    Preset,
    PresetKind,
    Presets,
    RollPreset,
    SheetPreset,
    entries,
)
from pycore.contract.presets_check import check_presets_tree
from pycore.contract.record import Record
from pycore.errors import FieldError, shown
from pycore.plan.options import Stock
from pycore.speech import say

#: So many names are listed where one is not found.
_LISTED: Final = 8


def find_preset(presets: Presets, *, kind: PresetKind, name: str) -> Preset:
    """The entry of a name.

    Parameters
    ----------
    presets : Presets
    kind : PresetKind
    name : str

    Returns
    -------
    Preset

    Raises
    ------
    FieldError
        There is none.

    Examples
    --------
    >>> own = Presets(rolls=(RollPreset(name="Wide", width_mm=1118),))
    >>> find_preset(own, kind=PresetKind.ROLL, name="Wide").width_mm
    1118.0
    """
    known = entries(presets, kind)
    found = next((entry for entry in known if entry.name == name), None)
    if found is not None:
        return found
    names = ", ".join(shown(entry.name) for entry in known[:_LISTED])
    more = ", …" if len(known) > _LISTED else ""
    raise FieldError(
        field=LIST_OF[kind],
        expected=say("one of {names}{more}", names=names, more=more)
        if known
        else say("the name of an entry"),
        got=shown(name),
        remedy=say("choose one of {names}{more}", names=names, more=more)
        if known
        else say("save an entry of that kind first"),
        said=say(
            "The presets have no entry {name} among their {list_of}.", name=shown(name), list_of=LIST_OF[kind]
        ),
    )


def take_preset(job: Job, presets: Presets, *, kind: PresetKind, name: str) -> Job:
    """Take a sheet, a roll, bars or a canvas into a job.

    Parameters
    ----------
    job : Job
        A checked job.
    presets : Presets
    kind : PresetKind
    name : str
        Of the entry.

    Returns
    -------
    Job
        Checked.

    Raises
    ------
    FieldError
        There is no such entry, or the job cannot have it.

    Examples
    --------
    >>> own = Presets(bars=(BarsPreset(name="Deep", depth_mm=38),))
    >>> take_preset(Job(), own, kind=PresetKind.BARS, name="Deep").bars.depth_mm
    38.0
    """
    return check_job(job_tree(_taken(job, find_preset(presets, kind=kind, name=name))))


def _taken(job: Job, entry: Preset) -> Job:
    if isinstance(entry, SheetPreset):
        sheet = Sheet(width_mm=entry.width_mm, height_mm=entry.height_mm, margin_mm=entry.margin_mm)
        return job.model_copy(update={"sheet": sheet})
    if isinstance(entry, RollPreset):
        return job.model_copy(update={"sheet": Sheet(width_mm=entry.width_mm, margin_mm=entry.margin_mm)})
    if isinstance(entry, BarsPreset):
        return job.model_copy(
            update={
                "bars": Bars(
                    depth_mm=entry.depth_mm,
                    width_mm=entry.width_mm,
                    wood=entry.wood,
                    density_kg_m3=entry.density_kg_m3,
                )
            }
        )
    canvas = {name: getattr(entry, name) for name in ("thickness_mm", "weight_gsm", "stretch_percent")}
    changed: dict[str, Any] = {"canvas": job.canvas.model_copy(update=canvas)}
    if entry.profile is not None:
        changed["colour"] = job.colour.model_copy(update={"profile": entry.profile})
    return job.model_copy(update=changed)


def preset_stock(presets: Presets, *, kind: PresetKind, name: str) -> Stock:
    """A sheet or a roll as a plan takes it.

    Parameters
    ----------
    presets : Presets
    kind : PresetKind
        Sheet or roll.
    name : str
        Of the entry.

    Returns
    -------
    Stock

    Raises
    ------
    FieldError
        There is no such entry, or the kind is another.

    Examples
    --------
    >>> own = Presets(rolls=(RollPreset(name="Wide", width_mm=1118, price_per_m2=18),))
    >>> preset_stock(own, kind=PresetKind.ROLL, name="Wide").price_per_m2
    18.0
    """
    entry = find_preset(presets, kind=kind, name=name)
    if isinstance(entry, SheetPreset):
        size: dict[str, Any] = {"height_mm": entry.height_mm}
    elif isinstance(entry, RollPreset):
        size = {"longest_mm": entry.length_mm}
    else:
        raise FieldError(
            field="kind",
            expected=say("sheet or roll"),
            got=kind.value,
            remedy=say("plan on sheets and rolls"),
        )
    return Stock(
        name=entry.name,
        width_mm=entry.width_mm,
        margin_mm=entry.margin_mm,
        price_per_m2=entry.price_per_m2,
        **size,
    )


def keep_preset(
    presets: Presets, job: Job, *, kind: PresetKind, name: str, price: float | None = None
) -> Presets:
    """Keep what a job has under a name; an entry of that name and kind is replaced.

    Parameters
    ----------
    presets : Presets
    job : Job
        A checked job.
    kind : PresetKind
        Sheet or roll by what the job has.
    name : str
        Of the entry.
    price : float, optional
        Of a square metre of a sheet or roll, of a metre of bars; a canvas has none.

    Returns
    -------
    Presets
        Checked; the new entry stands where the former did, or last.

    Raises
    ------
    FieldError
        The name or the price cannot be used, or the job has a sheet and a roll was asked for.

    Examples
    --------
    >>> own = keep_preset(Presets(), Job(), kind=PresetKind.SHEET, name="Usual", price=20)
    >>> own.sheets[0].height_mm, own.sheets[0].price_per_m2
    (483.0, 20.0)
    """
    entry: dict[str, Any] = {"name": name, **_part(job, kind)}
    if price is not None:
        entry["price_per_m" if kind is PresetKind.BARS else "price_per_m2"] = price
    tree = presets.model_dump(mode="json", exclude_none=True)
    others = tree[LIST_OF[kind]]
    places = [place for place, other in enumerate(others) if other["name"] == name]
    if places:
        others[places[0]] = entry
    else:
        others.append(entry)
    return check_presets_tree(tree)


class JoinedPresets(Record):
    """Presets with those of a file among them."""

    presets: Presets
    added: int
    """Entries that are new."""
    replaced: int
    """Entries whose name was known and whose values were others."""


def join_presets(presets: Presets, others: Presets) -> JoinedPresets:
    """Put other presets among one's own; an entry of a known name and kind is replaced.

    Parameters
    ----------
    presets : Presets
        One's own.
    others : Presets
        For example of a file.

    Returns
    -------
    JoinedPresets

    Raises
    ------
    FieldError
        Together they are too many.

    Examples
    --------
    >>> own = Presets(rolls=(RollPreset(name="Wide", width_mm=1118),))
    >>> join_presets(own, own).replaced
    0
    """
    tree: dict[str, Any] = {"version": presets.version}
    added = replaced = 0
    for kind, field in LIST_OF.items():
        known = {entry.name: entry for entry in entries(presets, kind)}
        came = {entry.name: entry for entry in entries(others, kind)}
        added += len(came.keys() - known.keys())
        replaced += sum(known[name] != came[name] for name in came.keys() & known.keys())
        merged = (known | came).values()
        tree[field] = [entry.model_dump(mode="json", exclude_none=True) for entry in merged]
    return JoinedPresets(presets=check_presets_tree(tree), added=added, replaced=replaced)


def _part(job: Job, kind: PresetKind) -> dict[str, Any]:
    """What of a job an entry of a kind holds, as JSON data."""
    tree = job_tree(job)
    if kind in (PresetKind.SHEET, PresetKind.ROLL):
        has = PresetKind.ROLL if job.sheet.height_mm is None else PresetKind.SHEET
        if kind is not has:
            raise FieldError(
                field="sheet",
                expected=say("a {kind}", kind=kind.value),
                got=say("a job with a {has}", has=has.value),
                remedy=say("load a {kind} first", kind=kind.value),
                said=say("The job has a {has}, not a {kind}.", has=has.value, kind=kind.value),
            )
        return dict(tree["sheet"])
    if kind is PresetKind.BARS:
        return dict(tree["bars"])
    names = [name for name in CanvasPreset.model_fields if name in tree["canvas"]]
    return {**{name: tree["canvas"][name] for name in names}, "profile": job.colour.profile}
