"""The message about sheets and rolls: the open job's panels and copies, laid out and cut apart."""

from __future__ import annotations

from pycore.bridge.message import Message
from pycore.contract.job import Job
from pycore.plan.options import PlanOptions


class PlanParams(Message):
    """The open job, how many of it, and what is chosen."""

    job: Job
    copies: int = 1
    options: PlanOptions
