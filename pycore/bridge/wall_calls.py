"""The calls about a photographed wall; they keep the one photograph that is open."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any

from pycore.bridge.answer import Answer, Arrays, Steps, parts_of
from pycore.bridge.messages import Method
from pycore.bridge.params import checked_params
from pycore.bridge.replies import texture_reply
from pycore.errors import PictureError
from pycore.speech import say
from pycore.tasks.open_picture import OpenPicture

if TYPE_CHECKING:
    from pycore.proofing.profile_store import ProfileStore
    from pycore.wall.photograph import WallPhoto


class WallCalls:
    """One page's photographed wall.

    Parameters
    ----------
    picture : callable
        Gives the open picture, or says that there is none.
    profiles : callable
        Gives the opened profiles.
    """

    def __init__(self, picture: Callable[[], OpenPicture], profiles: Callable[[], ProfileStore]) -> None:
        self._picture, self._profiles = picture, profiles
        self._photo: WallPhoto | None = None

    @property
    def answers(self) -> dict[Method, Callable[[Mapping[str, Any], bytes | None], Steps]]:
        """What answers each method that is one of these."""
        return {
            Method.OPEN_WALL: self._open,
            Method.FIND_REFERENCE: self._find,
            Method.MEASURE_WALL: self._measure,
            Method.WALL_CANVAS: self._canvas,
            Method.HANG: self._hang,
        }

    def photo(self) -> WallPhoto:
        """The open photograph.

        Returns
        -------
        WallPhoto

        Raises
        ------
        PictureError
            None is open.
        """
        if self._photo is None:
            raise PictureError(
                field="wall.photo",
                expected=say("open"),
                got=say("none"),
                remedy=say("open a photograph of the wall first"),
                said=say("No photograph of a wall is open."),
            )
        return self._photo

    def _open(self, params: Mapping[str, Any], buffer: bytes | None) -> Steps:
        from pycore.bridge.wall_messages import OpenWallParams, OpenWallReply
        from pycore.tasks.wall_view import keep_wall_photo

        asked = OpenWallParams.model_validate(params)
        opened = yield from keep_wall_photo(buffer or b"", file=asked.file, focal_px=asked.focal_px)
        kept = opened.kept
        # Only here, when nothing can fail any more, does the new photograph take the place of the old.
        self._photo = kept.photo
        arrays: Arrays = []
        reply = OpenWallReply(
            file=kept.photo.file,
            photo_px=kept.photo.size_px,
            focal_px=kept.photo.focal_px,
            parts=parts_of(kept.data, arrays),
            notes=opened.notes,
        )
        return Answer(reply, arrays)

    def _find(self, params: Mapping[str, Any], buffer: bytes | None) -> Steps:
        from pycore.bridge.wall_messages import FindReferenceParams, FindReferenceReply
        from pycore.tasks.wall_view import find_reference

        photo = self.photo()
        found = yield from find_reference(photo, FindReferenceParams.model_validate(params).reference)
        return Answer(FindReferenceReply(corners=found.corners, size_mm=found.size_mm, snapped=found.snapped))

    def _measure(self, params: Mapping[str, Any], buffer: bytes | None) -> Steps:
        from pycore.bridge.wall_messages import MeasureWallParams
        from pycore.bridge.wall_replies import measure_reply
        from pycore.tasks.wall import measure_wall

        yield from ()
        asked = checked_params(MeasureWallParams, params)
        return Answer(measure_reply(measure_wall(asked.job, self.photo(), options=asked)))

    def _canvas(self, params: Mapping[str, Any], buffer: bytes | None) -> Steps:
        from pycore.bridge.wall_messages import WallCanvasParams, WallCanvasReply
        from pycore.tasks.wall_view import wall_canvas

        asked = checked_params(WallCanvasParams, params)
        canvas, grid = yield from wall_canvas(
            asked.job, self._picture(), self._profiles(), colours=asked.colours
        )
        arrays: Arrays = []
        return Answer(WallCanvasReply(texture=texture_reply(canvas, grid, arrays, is_srgb=True)), arrays)

    def _hang(self, params: Mapping[str, Any], buffer: bytes | None) -> Steps:
        from pycore.bridge.wall_messages import HangParams, HangReply
        from pycore.printing.file_names import file_stem
        from pycore.tasks.wall import hang_on_wall, open_wall_photo
        from pycore.tasks.wall_view import still_file

        photo, picture = self.photo(), self._picture()
        asked = checked_params(HangParams, params)
        mask = (yield from open_wall_photo(buffer, file="mask.png")) if buffer else None
        hung = yield from hang_on_wall(
            asked.job, picture, self._profiles(), photo, options=asked, in_front=mask
        )
        made = still_file(hung, file=f"{file_stem(asked.job)}-on-the-wall.jpg")
        arrays: Arrays = []
        return Answer(
            HangReply(report=made.report, parts=parts_of(made.data, arrays), notes=made.notes), arrays
        )
