"""A picture's own colours turned into sRGB for the screen."""

from __future__ import annotations

from typing import Final

import numpy as np
from PIL import Image, ImageFilter

from pycore.colour.icc.device import CHANNELS
from pycore.colour.icc.endpoints import Standard
from pycore.colour.icc.profile import parse_profile, require_device
from pycore.colour.icc.transform import Transform, make_transform
from pycore.colour.spaces.arrays import ByteArray, FloatArray
from pycore.contract.job import Intent
from pycore.errors import FieldError, ProfileError

#: Nodes of the table for the screen; Pillow takes at most 65. Odd numbers keep the middle grey on a node.
_NODES: Final = 49

#: Nodes for cyan, magenta and yellow, one table for each of the 256 values of black.
_INK_NODES: Final = 17

#: One step of 8 bits: what differs by less from sRGB everywhere is sRGB on the screen.
_SAME: Final = 1.0 / 255.0


def display_lut(profile: bytes | None) -> ImageFilter.Color3DLUT | None:
    """The table that turns 8-bit RGB of a profile into 8-bit sRGB.

    Relative colorimetric with black point compensation: the picture's white and black are the screen's.

    Parameters
    ----------
    profile : bytes or None
        The picture's ICC profile; None stands for sRGB.

    Returns
    -------
    PIL.ImageFilter.Color3DLUT or None
        For `Image.filter` on a picture of mode RGB. None where the picture can be shown as it is.

    Raises
    ------
    ProfileError
        The profile is damaged, or is none of an RGB space.

    Examples
    --------
    >>> display_lut(None) is None
    True
    """
    if profile is None:
        return None
    transform = _to_srgb(profile)
    if transform.inputs != 3:
        raise ProfileError(
            field="profile colour space",
            expected="RGB",
            got=f"a device of {transform.inputs} channels",
            remedy="turn its pixels into sRGB before they are filtered",
        )
    nodes = rgb_nodes(_NODES)
    table = transform(nodes)
    if float(np.max(np.abs(table - nodes))) < _SAME:
        return None
    return pillow_table(table, nodes=_NODES, mode="RGB")


def to_srgb_pixels(pixels: ByteArray, *, profile: bytes) -> ByteArray:
    """Pixels of any grey, RGB or CMYK profile as sRGB; relative colorimetric with black point compensation.

    Parameters
    ----------
    pixels : (rows, columns, channels) uint8
        One, three or four channels; for CMYK 255 is full ink.
    profile : bytes
        The profile of these pixels.

    Returns
    -------
    (rows, columns, 3) uint8
        srgb_encoded.

    Raises
    ------
    ProfileError
        The profile is damaged or of a kind that has no pixels.
    FieldError
        The pixels have another number of channels than the profile.
    """
    transform = _to_srgb(profile)
    if pixels.ndim != 3 or pixels.shape[2] != transform.inputs:
        raise FieldError(
            field="pixels",
            expected=f"rows, columns and {transform.inputs} channels",
            got=f"an array of shape {pixels.shape}",
            remedy="give the pixels the profile that belongs to them",
        )
    if transform.inputs == 1:
        levels = np.arange(256, dtype=np.float64)[:, None] / 255.0
        return _to_bytes(transform(levels))[pixels[:, :, 0]]
    flat = np.ascontiguousarray(pixels).reshape(-1, transform.inputs)
    if transform.inputs == 3:
        nodes = rgb_nodes(_NODES)
        shown = _filter(flat, pillow_table(transform(nodes), nodes=_NODES, mode="RGB"))
    else:
        shown = _inks_to_srgb(flat, transform)
    return shown.reshape(*pixels.shape[:2], 3)


def rgb_nodes(nodes: int) -> FloatArray:
    """The nodes of a table over RGB in Pillow's order, red fastest.

    Parameters
    ----------
    nodes : int
        Along each axis.

    Returns
    -------
    (nodes ** 3, 3) float64
        0 to 1.

    Examples
    --------
    >>> rgb_nodes(2)[:3].tolist()
    [[0.0, 0.0, 0.0], [1.0, 0.0, 0.0], [0.0, 1.0, 0.0]]
    """
    steps = np.linspace(0.0, 1.0, nodes)
    blue, green, red = np.meshgrid(steps, steps, steps, indexing="ij")
    return np.stack([red.ravel(), green.ravel(), blue.ravel()], axis=1)


def pillow_table(table: FloatArray, *, nodes: int, mode: str) -> ImageFilter.Color3DLUT:
    """Wrap a table for Pillow.

    Parameters
    ----------
    table : (nodes ** 3, channels) float64
        In the order of `rgb_nodes`, full scale 1; Pillow clips them to -2 to 2; three or four channels.
    nodes : int
    mode : str
        Of the picture that comes out: "RGB", "RGBA" or "CMYK".

    Returns
    -------
    PIL.ImageFilter.Color3DLUT
    """
    # Pillow reads any flat buffer of float32 (`array`-like with typecode f) and copies nothing.
    flat = np.ascontiguousarray(table, dtype=np.float32).ravel()
    return ImageFilter.Color3DLUT(nodes, flat, channels=table.shape[1], target_mode=mode, _copy_table=False)


def _to_srgb(profile: bytes) -> Transform:
    parsed = parse_profile(profile)
    require_device(parsed)
    return make_transform(
        parsed, Standard.SRGB_UNBOUNDED, intent=Intent.RELATIVE, black_point_compensation=True
    )


def _inks_to_srgb(flat: ByteArray, transform: Transform) -> ByteArray:
    """CMYK, one value of black after the other: that leaves three inputs, which Pillow can interpolate."""
    order = np.argsort(flat[:, 3], kind="stable")
    sorted_inks = flat[order, :3]
    ends = np.searchsorted(flat[order, 3], np.arange(257))
    shown = np.empty_like(sorted_inks)
    nodes = np.empty((_INK_NODES**3, CHANNELS["CMYK"]))
    nodes[:, :3] = rgb_nodes(_INK_NODES)
    for black in range(256):
        start, end = int(ends[black]), int(ends[black + 1])
        if start == end:
            continue
        nodes[:, 3] = black / 255.0
        table = pillow_table(transform(nodes), nodes=_INK_NODES, mode="RGB")
        shown[start:end] = _filter(sorted_inks[start:end], table)
    result = np.empty_like(shown)
    result[order] = shown
    return result


def _filter(flat: ByteArray, table: ImageFilter.Color3DLUT) -> ByteArray:
    """Send (n, 3) bytes through a table of three channels."""
    picture = Image.fromarray(flat[None])
    shown: ByteArray = np.asarray(picture.filter(table))[0]
    return shown


def _to_bytes(values: FloatArray) -> ByteArray:
    return np.rint(np.clip(values, 0.0, 1.0) * 255.0).astype(np.uint8)
