"""A written model opened again and measured."""

from __future__ import annotations

import io
import json
import struct
from typing import Any, NamedTuple

import numpy as np
import numpy.typing as npt
from PIL import Image

from pycore.errors import OutputError
from pycore.model.glb import BIN_CHUNK, FLOAT, JSON_CHUNK, KINDS, MAGIC, VERSION
from pycore.model.report import ModelReport
from pycore.speech import say

#: How far a written length may be from what was meant.
NEAR_MM = 0.01

_COLUMNS = {kind: columns for columns, kind in KINDS.items()}


class ModelFile:
    """A glTF 2.0 binary file whose one buffer is its own.

    Parameters
    ----------
    data : bytes

    Attributes
    ----------
    tree : dict
        The document.
    binary : bytes

    Raises
    ------
    OutputError
        It is none, or was cut short.
    """

    def __init__(self, data: bytes) -> None:
        if len(data) < 20:
            raise _wrong(say("a file of at least 20 bytes"), f"{len(data)}")
        magic, version, total, text_length, text_kind = struct.unpack_from("<5I", data)
        if (magic, version, text_kind) != (MAGIC, VERSION, JSON_CHUNK):
            raise _wrong(say("a glTF 2.0 binary file"), say("another"))
        start = 20 + text_length
        if total != len(data) or len(data) < start + 8:
            raise _wrong(say("{total} bytes", total=total), f"{len(data)}")
        length, kind = struct.unpack_from("<2I", data, start)
        if kind != BIN_CHUNK or start + 8 + length != total:
            raise _wrong(
                say("a buffer up to the file's end"),
                say("{length} bytes of kind {kind:#x}", length=length, kind=kind),
            )
        self.tree: dict[str, Any] = json.loads(data[20:start])
        self.binary = data[start + 8 :]

    def view(self, place: int) -> bytes:
        """Cut out the bytes of a view.

        Parameters
        ----------
        place : int
            Among the document's views, from 0.

        Returns
        -------
        bytes
        """
        view = self.tree["bufferViews"][place]
        return self.binary[view["byteOffset"] : view["byteOffset"] + view["byteLength"]]

    def numbers(self, place: int) -> npt.NDArray[Any]:
        """Read the numbers of an accessor, and check its count, least and greatest.

        Parameters
        ----------
        place : int
            Among the document's accessors, from 0.

        Returns
        -------
        (count, columns) float32 or uint32

        Raises
        ------
        OutputError
            They are not those that the document states.
        """
        accessor = self.tree["accessors"][place]
        kind = "<f4" if accessor["componentType"] == FLOAT else "<u4"
        found = np.frombuffer(self.view(accessor["bufferView"]), kind).reshape(-1, _COLUMNS[accessor["type"]])
        ends = [found.min(axis=0).tolist(), found.max(axis=0).tolist()]
        if len(found) != accessor["count"] or ends != [accessor["min"], accessor["max"]]:
            raise _wrong(
                say(
                    "numbers from {accessor} to {accessor2}",
                    accessor=accessor["min"],
                    accessor2=accessor["max"],
                ),
                say("from {ends0} to {ends1}", ends0=ends[0], ends1=ends[1]),
            )
        return found


def check_model(
    data: bytes, *, file: str, size_mm: tuple[float, float, float], texture_px: tuple[int, int]
) -> ModelReport:
    """Open a written model again and measure it.

    Parameters
    ----------
    data : bytes
        The whole file.
    file : str
        Its name, for the report.
    size_mm : tuple of 3 floats
        What every folded canvas should measure.
    texture_px : (width, height)
        What every texture should have.

    Returns
    -------
    ModelReport

    Raises
    ------
    OutputError
        It is not what was meant.
    """
    model = ModelFile(data)
    meshes = [model.tree["meshes"][node["mesh"]] for node in model.tree["nodes"] if "mesh" in node]
    found = [_measured(model, primitive, size_mm) for mesh in meshes for primitive in mesh["primitives"]]
    folded = [one.size_mm for one in found if one.size_mm is not None]
    across, up, deep = folded[-1] if folded else (0.0, 0.0, 0.0)
    _check_textures(model, texture_px)
    return ModelReport(
        file=file,
        bytes=len(data),
        vertices=sum(one.vertices for one in found),
        triangles=sum(one.triangles for one in found),
        size_mm=(round(across, 3), round(up, 3), round(deep, 3)),
        texture_px=texture_px,
        animation_s=_length_s(model),
    )


class _Measured(NamedTuple):
    """A part of a mesh with one material; its size only where it folds."""

    vertices: int
    triangles: int
    size_mm: tuple[float, float, float] | None


def _measured(model: ModelFile, primitive: dict[str, Any], size_mm: tuple[float, float, float]) -> _Measured:
    """Check a part of a mesh: its triangles, its moments, and where it folds its size."""
    corners = model.numbers(primitive["indices"])
    positions = model.numbers(primitive["attributes"]["POSITION"]).astype(np.float64)
    count = len(positions)
    if len(corners) % 3 or int(corners.max()) >= count:
        raise _wrong(
            say("triangles of {position_count} vertices", position_count=count),
            say("vertex {max}", max=int(corners.max())),
        )
    for target in primitive.get("targets", []):
        if {len(model.numbers(place)) for place in target.values()} != {count}:
            raise _wrong(
                say("{position_count} vertices at every moment", position_count=count), say("another number")
            )
    if "targets" not in primitive:
        return _Measured(count, len(corners) // 3, None)
    across, up, deep = np.ptp(positions, axis=0) * 1000
    measured = (float(across), float(up), float(deep))
    if max(abs(one - other) for one, other in zip(measured, size_mm, strict=True)) > NEAR_MM:
        raise _wrong(_lengths(size_mm), _lengths(measured))
    return _Measured(count, len(corners) // 3, measured)


def _check_textures(model: ModelFile, texture_px: tuple[int, int]) -> None:
    for image in model.tree["images"]:
        with Image.open(io.BytesIO(model.view(image["bufferView"]))) as texture:
            texture.load()
            if texture.size != texture_px:
                raise _wrong(
                    say("a texture of {texture_px} pixels", texture_px=texture_px), f"{texture.size}"
                )


def _length_s(model: ModelFile) -> float:
    """How long the animation is; its moments have to rise (3.11)."""
    (animation,) = model.tree["animations"]
    (sampler,) = animation["samplers"]
    moments = model.numbers(sampler["input"])[:, 0]
    if not np.all(np.diff(moments) > 0):
        raise _wrong(say("moments that rise"), say("moments that do not"))
    return float(moments[-1])


def _lengths(lengths: tuple[float, float, float]) -> str:
    return " x ".join(f"{length:.3f}" for length in lengths) + " mm"


def _wrong(expected: str, got: str) -> OutputError:
    return OutputError(
        field="model",
        expected=expected,
        got=got,
        remedy=say("write it again"),
        said=say(
            "The written 3D model is wrong: it should have {expected}, and has {got}.",
            expected=expected,
            got=got,
        ),
    )
