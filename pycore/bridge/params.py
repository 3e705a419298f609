"""A call's parameters, checked: the jobs inside by their own checks, the rest by the message."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar

from pycore.bridge.message import Message
from pycore.compare.variants import Variant, naming
from pycore.contract.check import check_job

Params = TypeVar("Params", bound=Message)


def checked_params(kind: type[Params], params: Mapping[str, Any]) -> Params:
    """Check parameters that may hold a job, or variants with a job each.

    A job's own checks name its fields in the user's words, which a message's validator would not.

    Parameters
    ----------
    kind : type of Message
        Whose fields `job` and `variants`, if any, are a job and a list of `Variant`.
    params : mapping
        As they came.

    Returns
    -------
    Message
        Of that kind.

    Raises
    ------
    FieldError
        A job is wrong; among variants the message names which.
    ValueError
        The parameters are none of that kind: a fault of the page, not of the user.
    """
    jobs: dict[str, Any] = {}
    bare = dict(params)
    if "job" in kind.model_fields:
        jobs["job"] = check_job(params["job"])
        bare["job"] = {}
    if "variants" in kind.model_fields:
        bare["variants"] = [{**one, "job": {}} for one in params["variants"]]
    checked = kind.model_validate(bare)
    if "variants" in kind.model_fields:
        labels = [one["label"] for one in params["variants"]]
        jobs["variants"] = [
            _variant(label, one["job"]) for label, one in zip(labels, params["variants"], strict=True)
        ]
    return checked.model_copy(update=jobs)


def _variant(label: str, tree: Mapping[str, Any]) -> Variant:
    with naming(label):
        return Variant(label=label, job=check_job(tree))
