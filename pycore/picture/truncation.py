"""Is the whole file there? Decoders fill in what a cut file lacks; here a cut file is an error."""

from __future__ import annotations

from PIL import Image

from pycore.picture.guard import picture_error
from pycore.speech import say

_STRIP_OFFSETS, _STRIP_BYTES, _TILE_OFFSETS, _TILE_BYTES = 273, 279, 324, 325


def check_whole(data: bytes, image: Image.Image) -> None:
    """Check by the container's own marks that nothing is missing at the end.

    JPEG data that ends early is reported by the decoder itself, when it looks for the end mark.

    Parameters
    ----------
    data : bytes
        The file.
    image : PIL.Image.Image
        The picture as opened from it, not decoded yet.

    Raises
    ------
    PictureError
        The file ends before its format says that it does.

    References
    ----------
    PNG (third edition) 11.2.5 (IEND); RIFF size, RFC 9649 section 2.4; TIFF 6.0 section 4 (strips) and
    section 15 (tiles).
    """
    missing = False
    if image.format == "PNG":
        missing = data.rfind(b"IEND") < 0
    elif image.format == "WEBP":
        missing = int.from_bytes(data[4:8], "little") + 8 > len(data)
    elif image.format == "TIFF":
        missing = _tiff_data_end(image) > len(data)
    if missing:
        raise picture_error(
            expected=say("a whole {format} file", format=image.format),
            got=say("cut off after {data_count} bytes", data_count=len(data)),
            remedy=say("copy or export the picture again"),
        )


def _tiff_data_end(image: Image.Image) -> int:
    tags = getattr(image, "tag_v2", {})
    offsets = tags.get(_STRIP_OFFSETS) or tags.get(_TILE_OFFSETS) or ()
    counts = tags.get(_STRIP_BYTES) or tags.get(_TILE_BYTES) or ()
    return max((offset + count for offset, count in zip(offsets, counts, strict=False)), default=0)
