"""The client's answer taken into the job."""

from __future__ import annotations

from pycore.client.answer import TakenAnswer, taken_answer
from pycore.contract.job import Job


def take_answer(job: Job, text: str) -> TakenAnswer:
    """Take a client's answer into the job that its page was made from.

    Parameters
    ----------
    job : Job
        A checked job.
    text : str
        As the client page gave it.

    Returns
    -------
    TakenAnswer

    Raises
    ------
    FieldError
        The text is no answer, too long, or belongs to another job.
    """
    return taken_answer(job, text)
