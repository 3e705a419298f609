"""The calls for bundles as the page makes them."""

from __future__ import annotations

import io
from typing import Any

import numpy as np
import pytest
from PIL import Image

from pycore.bridge.session import Session
from pycore.bundle.read import open_bundle
from pycore.errors import BundleError, FieldError

from .test_session import A4, answer


def photograph() -> bytes:
    """A wall without metadata, which goes in as it is."""
    file = io.BytesIO()
    Image.new("RGB", (40, 30), "beige").save(file, "JPEG")
    return file.getvalue()


FILES = {
    "picture": ("low tide.png", b"a picture"),
    "profile": ("matte.icc", b""),
    "wall": ("wall.jpg", photograph()),
    "wall-marks": ("wall.json", b'{"at": [450, 180]}'),
}


def asked(**job: Any) -> tuple[dict[str, Any], bytes]:
    listed = [{"role": role, "file": name, "bytes": len(data)} for role, (name, data) in FILES.items()]
    return {"job": {**A4, **job}, "files": listed}, b"".join(data for _, data in FILES.values())


def test_what_is_saved_is_opened_again() -> None:
    session = Session()
    saved = answer(session, "save_bundle", *asked(name="Low tide"))
    reply: Any = saved.reply
    data = b"".join(saved.buffers[part.place].tobytes() for part in reply.parts)
    assert reply.report.file == "Low-tide-297x210mm.zip"
    assert reply.report.bytes == len(data)
    assert open_bundle(data).job.colour.profile == "matte.icc"
    opened = answer(session, "open_bundle", {}, data)
    found: Any = opened.reply
    assert found.job.name == "Low tide"
    assert {
        one.role.value: (
            one.file,
            b"".join(np.asarray(opened.buffers[part.place]).tobytes() for part in one.parts),
        )
        for one in found.files
    } == FILES


def test_a_bundle_that_is_none_is_refused() -> None:
    with pytest.raises(BundleError, match="is no bundle"):
        answer(Session(), "open_bundle", {}, b"{}")


def test_a_picture_that_is_not_at_hand_is_asked_for() -> None:
    with pytest.raises(FieldError, match=r"'tide\.jpg' by name alone"):
        answer(Session(), "save_bundle", {"job": {**A4, "picture": {"file": "tide.jpg"}}, "files": []})


def test_a_buffer_of_another_length_is_a_fault_of_the_page() -> None:
    params, _ = asked()
    with pytest.raises(ValueError, match="not as long as the buffer"):
        answer(Session(), "save_bundle", params, b"short")
