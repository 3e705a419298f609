"""The answer to the call for the client's page. Imported when it is first asked for."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from pycore.bridge.answer import Answer, Arrays, Steps, parts_of
from pycore.bridge.colour_calls import ColourWork
from pycore.bridge.file_stem import file_stem
from pycore.bridge.showing_messages import ClientParams, ClientReply, Variant
from pycore.client.page import make_client_page
from pycore.client.recheck import check_client_page
from pycore.contract.check import check_job
from pycore.render.preview import PreviewSource


def client(params: Mapping[str, Any], preview: PreviewSource, colour: ColourWork, *, viewer: bytes) -> Steps:
    """Make the client's page, read it again, and hand it over.

    Parameters
    ----------
    params : mapping
        As `ClientParams`.
    preview : PreviewSource
        The open picture.
    colour : ColourWork
        Holds the canvas profiles.
    viewer : bytes
        The viewer's program.

    Returns
    -------
    generator
        Yields `Progress`, returns `Answer`.

    Raises
    ------
    TuckfoldError
        A variant cannot be made, or what was written is not what was meant.
    """
    # Jobs by their own checks, whose messages name fields in the user's words.
    given = [{**one, "job": {}} for one in params["variants"]]
    asked = ClientParams.model_validate({**params, "variants": given})
    variants = [
        Variant(label=one.label, job=check_job(tree["job"]))
        for one, tree in zip(asked.variants, params["variants"], strict=True)
    ]
    page = yield from make_client_page(
        variants,
        preview,
        colour.desk,
        viewer=viewer,
        message=asked.message,
        date=asked.date,
        surroundings=asked.surroundings,
    )
    file = f"{file_stem(variants[0].job)}-client.html"
    report = check_client_page(page.data, file=file, variants=len(variants))
    arrays: Arrays = []
    parts = parts_of(page.data, arrays)
    return Answer(ClientReply(report=report, parts=parts, notes=page.notes), arrays)
