"""What the viewer of the client's page says by itself; a test compares it with the viewer's sources."""

from __future__ import annotations

from typing import Final

from pycore.speech import mark

VIEWER_WORDS: Final = (
    mark("Remarks"),
    mark("Name"),
    mark("Date"),
    mark("The text is copied."),
    mark("Copying is not allowed here: the text is marked, copy it by hand."),
    mark(
        "The canvas on the wall. Arrow keys turn the view, Shift and arrow keys move it, "
        "plus and minus zoom, Home faces the front."
    ),
    mark("The canvas on the wall as it was last drawn; it cannot be turned now."),
    mark("The 3D view stopped; it is being restarted. Until then the drawings show the same canvas."),
    mark("The 3D view has stopped; the drawings below show the same canvas."),
    mark("This browser shows no 3D view here; the drawings below show the same canvas."),
    mark("right"),
    mark("left"),
    mark(" It is a HEIC file: save it as JPEG first."),
    mark("{mm} mm ({mm2} in)"),
    mark("{widthMm} \N{MULTIPLICATION SIGN} {heightMm} mm, within {sure} mm"),
    mark("{wide}; its middle {length} above the floor"),
    mark("{length} {words} of"),
    mark("{wide}; its middle {across} and {length} {words} the paper's lower left corner"),
    mark("below"),
    mark("above"),
    mark(
        "Drag each ring on to a corner of the paper; the magnifier shows it. Arrow keys move "
        "it by one pixel, with Shift by ten."
    ),
    mark("Drag the canvas along the wall, or use the arrow keys: 1 mm, with Shift 10 mm."),
    mark("Drag the dashed line down to the floor, or use the arrow keys."),
    mark("Upper left"),
    mark("Upper right"),
    mark("Lower right"),
    mark("Lower left"),
    mark("The canvas, {words}. {piece}"),
    mark("{names} corner of the paper. Arrow keys move it."),
    mark("The floor. Arrow keys move it by 1 mm, with Shift by 10 mm."),
    mark(" The view is nearly frontal, so the sides may be drawn a little off."),
    mark("On the wall: {words}"),
    mark("The photograph of the wall"),
    mark(
        "Brush: arrow keys move it, Shift and arrow keys move it far, the space bar paints a "
        "spot, Ctrl and Z takes it back"
    ),
    mark("{name} is no photograph that this browser can read."),
    mark("Two corners lie in one place; mark each corner of the paper once."),
    mark("The edges cross; mark upper left, upper right, lower right and lower left, in this order."),
    mark(
        "Three corners lie in one line, or the paper is seen edge-on; mark them again, or "
        "photograph the wall from further in front."
    ),
    mark("The corners are in another order; mark upper left, upper right, lower right and lower left."),
    mark("One corner lies inside the others; mark them again."),
    mark(
        "No such sheet has its corners there; mark them again, check the paper, and use the "
        "whole photograph as the camera made it."
    ),
    mark("The canvas is larger than the wall in view; photograph more of the wall."),
    mark("holds across the face, at its middle"),
    mark("{mm} mm"),
    mark("{mm} in"),
)
