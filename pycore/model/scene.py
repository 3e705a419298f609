"""The document of a model: panels with their canvas and bars, materials, and the fold as an animation.

Metres, x right, y up, z to the viewer, right-handed: the axes of the fold and of glTF are the same. The
origin is the middle of the piece in the plane of the bars' face; the wall is behind it.

The canvas's own shape is the folded one, so that whoever knows nothing of animations shows it folded. Each
earlier moment is a morph target; the animation's weights lead from one to the next in straight lines.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from pycore import __version__
from pycore.model.bars_mesh import BarsMesh
from pycore.model.canvas_mesh import CanvasMesh
from pycore.model.glb import Binary, Target, Tree

#: How long a stage of the fold takes.
STAGE_S: Final = 2.0

#: Bare cotton canvas and pale softwood, linear; from memory.
_RAW_CANVAS: Final = [0.78, 0.73, 0.63, 1.0]
_WOOD: Final = [0.55, 0.38, 0.22, 1.0]

_MM_PER_M: Final = 1000.0

#: Of the sampler (3.8.4): linear between pixels and between levels of detail; nothing repeats.
_LINEAR, _LINEAR_MIPMAP_LINEAR, _CLAMP = 9729, 9987, 33071


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class PanelPart:
    """One panel of a piece.

    Attributes
    ----------
    centre_mm : (x, y)
        Of its face, from the middle of the piece: x right, y up.
    texture : bytes
        Its flat canvas as a PNG.
    """

    centre_mm: tuple[float, float]
    texture: bytes


def model_file(canvas: CanvasMesh, bars: BarsMesh, panels: Sequence[PanelPart], *, name: str) -> bytes:
    """Write a model.

    Parameters
    ----------
    canvas : CanvasMesh
        The same for all panels.
    bars : BarsMesh
    panels : sequence of PanelPart
        At least one.
    name : str
        Of the piece.

    Returns
    -------
    bytes
        A glTF 2.0 binary file.

    References
    ----------
    ISO/IEC 12113:2022: 3.7.2 (meshes and morph targets), 3.9 (materials), 3.11 (animations).
    """
    binary = Binary()
    canvas_parts = _canvas_primitives(binary, canvas)
    wood = {
        "attributes": {
            "POSITION": binary.accessor(bars.positions_mm / _MM_PER_M, target=Target.VERTICES),
            "NORMAL": binary.accessor(bars.normals, target=Target.VERTICES),
        },
        "indices": binary.accessor(bars.triangles.ravel(), target=Target.INDICES),
        "material": 1,
    }
    targets = len(canvas.at) - 1
    materials = [_matte("raw canvas", _RAW_CANVAS), _matte("wood", _WOOD)]
    nodes: list[Tree] = [{"name": name or "piece", "children": []}]
    meshes: list[Tree] = [{"name": "bars", "primitives": [wood]}]
    images: list[Tree] = []
    for number, panel in enumerate(panels, start=1):
        own = "" if len(panels) == 1 else f" {number}"
        images.append(
            {"name": f"print{own}", "mimeType": "image/png", "bufferView": binary.view(panel.texture)}
        )
        printed: Tree = _matte(f"print{own}", [1.0, 1.0, 1.0, 1.0])
        printed["pbrMetallicRoughness"]["baseColorTexture"] = {"index": number - 1}
        materials.append(printed)
        front, back = canvas_parts
        meshes.append(
            {
                "name": f"canvas{own}",
                "primitives": [front | {"material": len(materials) - 1}, back | {"material": 0}],
                # Folded: no earlier moment weighs anything.
                "weights": [0.0] * targets,
            }
        )
        place = len(nodes)
        nodes[0]["children"].append(place)
        x, y = panel.centre_mm
        nodes.append(
            {
                "name": f"panel{own}",
                "translation": [x / _MM_PER_M, y / _MM_PER_M, 0.0],
                "children": [place + 1, place + 2],
            }
        )
        nodes.append({"name": f"canvas{own}", "mesh": len(meshes) - 1})
        nodes.append({"name": f"bars{own}", "mesh": 0})
    moving = [place for place, node in enumerate(nodes) if node.get("mesh", 0) > 0]
    return binary.file(
        {
            "asset": {"version": "2.0", "generator": f"tuckfold {__version__}"},
            "scene": 0,
            "scenes": [{"name": name or "piece", "nodes": [0]}],
            "nodes": nodes,
            "meshes": meshes,
            "materials": materials,
            "textures": [{"source": place, "sampler": 0} for place in range(len(images))],
            "images": images,
            "samplers": [
                {
                    "magFilter": _LINEAR,
                    "minFilter": _LINEAR_MIPMAP_LINEAR,
                    "wrapS": _CLAMP,
                    "wrapT": _CLAMP,
                }
            ],
            "animations": [_animation(binary, canvas, moving)],
        }
    )


def _canvas_primitives(binary: Binary, canvas: CanvasMesh) -> tuple[Tree, Tree]:
    """The print side and the raw back: one surface, each side drawn from where it is seen."""
    positions = canvas.positions_mm / _MM_PER_M
    folded = binary.accessor(positions[-1], target=Target.VERTICES)
    uv = binary.accessor(canvas.uv, target=Target.VERTICES)
    moved = [binary.accessor(one - positions[-1], target=Target.VERTICES) for one in positions[:-1]]
    sides: list[Tree] = []
    for facing, order in ((1.0, (0, 1, 2)), (-1.0, (0, 2, 1))):
        normals = facing * canvas.normals
        attributes = {"POSITION": folded, "NORMAL": binary.accessor(normals[-1], target=Target.VERTICES)}
        turned = [binary.accessor(one - normals[-1], target=Target.VERTICES) for one in normals[:-1]]
        sides.append(
            {
                "attributes": attributes,
                "indices": binary.accessor(canvas.triangles[:, order].ravel(), target=Target.INDICES),
                "targets": [
                    {"POSITION": position, "NORMAL": normal}
                    for position, normal in zip(moved, turned, strict=True)
                ],
            }
        )
    front, back = sides
    # Only the print side is textured; a coordinate that nothing reads would be waste.
    front["attributes"] = {**front["attributes"], "TEXCOORD_0": uv}
    return front, back


def _animation(binary: Binary, canvas: CanvasMesh, moving: Sequence[int]) -> Tree:
    """The fold from flat to folded: at moment i target i alone weighs, and at the last none does."""
    moments = len(canvas.at)
    weights = np.eye(moments)[:, : moments - 1]
    length_s = STAGE_S * len(canvas.stages)
    sampler = {
        "input": binary.accessor(canvas.at * length_s),
        "output": binary.accessor(weights.ravel()),
        "interpolation": "LINEAR",
    }
    return {
        "name": "fold",
        "samplers": [sampler],
        "channels": [{"sampler": 0, "target": {"node": node, "path": "weights"}} for node in moving],
        "extras": {
            "stages": [
                {"label": one.label, "start_s": one.start * length_s, "end_s": one.end * length_s}
                for one in canvas.stages
            ]
        },
    }


def _matte(name: str, colour: list[float]) -> Tree:
    """A material without gloss (3.9.2)."""
    return {
        "name": name,
        "pbrMetallicRoughness": {
            "baseColorFactor": colour,
            "metallicFactor": 0.0,
            "roughnessFactor": 1.0,
        },
    }
