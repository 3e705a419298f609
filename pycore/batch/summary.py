"""A batch's summary as text and as a page."""

from __future__ import annotations

import html
from urllib.parse import quote

from pycore.batch.report import BatchReport, JobResult, WholeResult
from pycore.contract.notes import Severity, note_line
from pycore.speech import language, say


def summary_text(report: BatchReport) -> str:
    """Tell what came of a batch.

    Parameters
    ----------
    report : BatchReport

    Returns
    -------
    str
        Lines, what went wrong first.

    Examples
    --------
    >>> from pycore.batch.report import JobResult
    >>> job = JobResult(name="tide", source="tide.json", ok=True, files=["tide/tide.tif"])
    >>> print(summary_text(BatchReport(jobs=[job], whole=[], done=1, skipped=0, failed=0, seconds=2)))
    1 job: 1 done.
    done      tide: tide/tide.tif
    """
    lines = [_verdict(report)]
    words = {"failed": say("not done"), "kept": say("kept"), "done": say("done")}
    wide = max(map(len, words.values())) + 2
    for one in report.jobs:
        if not one.ok:
            lines.append(f"{words['failed']:<{wide}}{one.name} ({one.source}): {one.error}")
    for one in report.jobs:
        if one.ok:
            word = words["kept" if one.skipped else "done"]
            lines.append(f"{word:<{wide}}{one.name}: {', '.join(one.files) or say('planned only')}")
        stops = [note for note in one.note_records if note.severity is Severity.STOP]
        lines += [f"{'':<{wide}}{note_line(note)}" for note in stops]
    for whole in _wholes(report):
        lines += ["", f"{whole.kind}: {whole.error or ', '.join(whole.files)}"]
        lines += [f"  {line}" for line in whole.lines]
    return "\n".join(lines)


def _wholes(report: BatchReport) -> list[WholeResult]:
    """What there is something to say of: no job that can be planned makes no plan."""
    return [one for one in report.whole if one.error or one.files or one.lines]


def _verdict(report: BatchReport) -> str:
    count = len(report.jobs)
    parts = [say("{count} done", count=report.done)]
    parts += [say("{count} kept from an earlier batch", count=report.skipped)] if report.skipped else []
    parts += [say("{count} not done", count=report.failed)] if report.failed else []
    jobs = say("{count, plural, one {1 job} other {{count} jobs}}", count=count)
    return f"{jobs}: {', '.join(parts)}."


_STYLE = """\
body { font: 16px/1.5 system-ui, sans-serif; max-width: 60rem; margin: 2rem auto; padding: 0 1rem; }
body { color: #222; background: #fff; }
table { border-collapse: collapse; width: 100%; }
td, th { border-bottom: 1px solid #bbb; padding: 0.4rem 0.6rem; text-align: left; vertical-align: top; }
td { overflow-wrap: anywhere; }
.failed { color: #a01818; }
.wide { overflow-x: auto; }
@media (prefers-color-scheme: dark) {
  body { color: #ddd; background: #1b1b1b; }
  td, th { border-color: #555; }
  a { color: #9cf; }
  .failed { color: #ff9a8a; }
}
"""


def summary_page(report: BatchReport) -> str:
    """Write the summary as a page that lies in the batch's folder.

    Parameters
    ----------
    report : BatchReport

    Returns
    -------
    str
        HTML, which needs nothing but the files that it leads to.

    Examples
    --------
    >>> "1 job" in summary_page(BatchReport(jobs=[], whole=[], done=0, skipped=0, failed=0, seconds=0))
    False
    """
    ordered = sorted(report.jobs, key=lambda one: one.ok)
    rows = "\n".join(_row(one) for one in ordered)
    heads = "".join(f"<th>{_text(one)}</th>" for one in (say("Job"), say("Came of it"), say("Files")))
    whole = "\n".join(
        f"<h2>{_text(one.kind.capitalize())}</h2>"
        + (f'<p class="failed">{_text(one.error)}</p>' if one.error else f"<p>{_links(one.files)}</p>")
        + "<ul>"
        + "".join(f"<li>{_text(line)}</li>" for line in one.lines)
        + "</ul>"
        for one in _wholes(report)
    )
    return f"""<!doctype html>
<html lang="{language()}"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width">
<title>{_text(say("Batch: {verdict}", verdict=_verdict(report)))}</title><style>
{_STYLE}</style></head><body>
<h1>{_text(_verdict(report))}</h1>
<div class="wide"><table><thead><tr>{heads}</tr></thead><tbody>
{rows}
</tbody></table></div>
{whole}
</body></html>
"""


def _row(one: JobResult) -> str:
    if not one.ok:
        said = f'<span class="failed">{_text(say("Not done."))} {_text(one.error)}</span>'
    else:
        said = _text(say("Kept from an earlier batch") if one.skipped else say("Done"))
    notes = "".join(f"<br>{_text(note)}" for note in one.notes)
    source = f"<br><small>{_text(one.source)}</small>"
    return f"<tr><td>{_text(one.name)}{source}</td><td>{said}{notes}</td><td>{_links(one.files)}</td></tr>"


def _links(files: list[str]) -> str:
    return "<br>".join(f'<a href="{quote(one)}">{_text(one.rpartition("/")[2])}</a>' for one in files)


def _text(text: str) -> str:
    return html.escape(text)
