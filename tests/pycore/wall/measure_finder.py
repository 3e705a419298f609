"""How often the finder finds a sheet's corners without a hand; takes minutes.

    python tests/pycore/wall/measure_finder.py 1000 1060 [FOLDER]

It renders rooms of 1600 x 1200 pixels, from the first seed to before the last. Each room has a random camera,
light, shadow, wall, blur, noise and compression (`random_room`). Seeds from 1000 to 1059 and from 3000 on
judge; they tuned nothing. Seeds from 2000 to 2999 tune. With the word `photographs` in place of the seeds it
takes pictures that look like photographs; `photographs.py` says what they are made of, and which ones tune.
Where a folder is given, the pictures are kept there.
"""

from __future__ import annotations

import sys
from pathlib import Path

import numpy as np
from PIL import Image

sys.path.insert(0, str(Path(__file__).resolve().parents[3]))

from pycore.progress import run_to_end
from pycore.wall.find_paper import search_paper
from pycore.wall.fit_wall import Marked, fit_wall, usual_focal_px
from pycore.wall.homography import mapped
from tests.pycore.wall.cameras import A4_MM, Floats, Scene, scene
from tests.pycore.wall.rooms import Room, random_room, render

SIZE_PX = (1600, 1200)
BOTH = [A4_MM, (A4_MM[1], A4_MM[0])]
#: A corner this near is found; one this far off is wrong by far.
NEAR_PX, FAR_PX = 1.0, 5.0
#: The whole sheet lies in the photograph, so far from its edge.
WITHIN_PX = 5


def room_of(seed: int) -> tuple[Scene, Room] | None:
    """A camera and its room; None where it does not see the whole sheet."""
    random = np.random.default_rng(seed)
    off, way = random.uniform(10, 55), random.uniform(0, 2 * np.pi)
    one = scene(
        lens_mm=random.uniform(24, 85),
        yaw_deg=float(off * np.cos(way)),
        pitch_deg=float(off * np.sin(way)),
        roll_deg=random.uniform(-4, 4),
        wide_mm=random.uniform(1200, 2600),
        look_at_mm=(random.uniform(0, 700), random.uniform(0, 500)),
        size_px=SIZE_PX,
        size_mm=BOTH[0] if random.random() < 0.5 else BOTH[1],
    )
    corners = one.corners_px
    if (corners < WITHIN_PX).any() or (corners > np.array(SIZE_PX) - WITHIN_PX).any():
        return None
    return one, random_room(random)


def found_corners(photo: Image.Image) -> Floats | None:
    """The sheet's corners, found without a hand."""
    usual = usual_focal_px(photo.size)
    found = run_to_end(search_paper(photo, BOTH, focal_px=None, usual_px=usual))
    return None if found is None else found.corners_px


def farthest_px(corners: Floats | None, one: Scene) -> float | None:
    """How far the worst corner is off; None where no sheet is found."""
    return None if corners is None else float(np.linalg.norm(corners - one.corners_px, axis=1).max())


def piece_off(corners: Floats, one: Scene, *, is_filed: bool) -> tuple[float, float]:
    """How far a piece of 300 x 200 mm beside the sheet is off: width as a share, front corner in pixels.

    The fit gets these corners, and the camera's focal length where it is filed.
    """
    filed = one.pose.focal_px if is_filed else None
    reference = Marked(size_mm=one.size_mm, corners_px=corners)
    fit = fit_wall([reference], size_px=one.size_px, filed_focal_px=filed)
    x, y = one.size_mm[0] + 250, one.size_mm[1] / 2
    ends = np.array([[x - 150, y], [x + 150, y]])
    left, right = mapped(np.linalg.inv(one.pose.wall_to_photo), mapped(fit.wall_to_photo, ends))
    signs = [(-1, 1), (1, 1), (1, -1), (-1, -1)]
    front = np.array([(x + 150 * across, y + 100 * up, 38.0) for across, up in signs])
    seen = np.column_stack([front, np.ones(4)]) @ fit.camera.T
    apart = np.linalg.norm(seen[:, :2] / seen[:, 2:] - one.seen(front), axis=1)
    return abs(float(np.linalg.norm(right - left)) / 300 - 1), float(apart.max())


def tell_pieces(name: str, off: list[tuple[float, float]]) -> None:
    """Print how far pieces beside the sheet are off."""
    sizes, corners = np.array(off).T
    width, corner = (f"median {np.median(one):.4f}, 95 of 100 within " for one in (sizes, corners))
    print(
        f"{name}: share of the width off by {width}{np.quantile(sizes, 0.95):.4f}; pixels of the worst front "
        f"corner by {corner}{np.quantile(corners, 0.95):.2f}"
    )


def tell(name: str, off: list[float | None]) -> None:
    """Print the counts."""
    seen = np.array([one for one in off if one is not None])
    near, far = int((seen < NEAR_PX).sum()), int((seen > FAR_PX).sum())
    print(
        f"{name}: of {len(off)} found within {NEAR_PX:g} pixel {near}, within {FAR_PX:g} "
        f"{len(seen) - near - far}, wrong by far {far}, not found {len(off) - len(seen)}; "
        f"median {np.median(seen):.2f} pixels"
    )


def main(first: int, last: int, kept: Path | None) -> None:
    """Print each room that fails and the counts; photographs are taken from a folder where they are kept."""
    off: list[float | None] = []
    pieces: dict[tuple[bool, bool], list[tuple[float, float]]] = {
        (given, is_filed): [] for given in (True, False) for is_filed in (False, True)
    }
    for seed in range(first, last):
        seen = room_of(seed)
        if seen is None:
            continue
        one, room = seen
        file = None if kept is None else kept / f"room-{seed}.png"
        if file is not None and file.exists():
            photo = Image.open(file).convert("RGB")
        else:
            photo = render(one, room)
            if file is not None:
                photo.save(file, compress_level=1)
        corners = found_corners(photo)
        off.append(farthest_px(corners, one))
        for given, is_filed in pieces:
            into = one.corners_px if given else corners
            if into is not None:
                pieces[given, is_filed].append(piece_off(into, one, is_filed=is_filed))
        if off[-1] is None or off[-1] > NEAR_PX:
            print(seed, "not found" if off[-1] is None else f"off by {off[-1]:.1f}", room, flush=True)
    tell("rendered rooms", off)
    for (given, is_filed), found in pieces.items():
        way = f"corners {'given' if given else 'found'}, focal length {'filed' if is_filed else 'not filed'}"
        tell_pieces(way, found)


def main_of_photographs(kept: Path | None) -> None:
    """Print each picture's worst corner and the counts."""
    # It takes a package that not every interpreter has; the rooms do without.
    from tests.pycore.wall.photographs import photographs

    for other in (False, True):
        off: list[float | None] = []
        for name, photo, one in photographs(other=other):
            if kept is not None:
                photo.save(kept / f"{int(other)}-{name.replace(', ', '-').replace(' ', '-')}.png")
            off.append(farthest_px(found_corners(photo), one))
            print(f"{name}: {'not found' if off[-1] is None else f'off by {off[-1]:.2f}'}", flush=True)
        tell(f"pictures that look like photographs, which {'judge' if other else 'tune'}", off)


if __name__ == "__main__" and sys.argv[1:2] == ["photographs"]:
    main_of_photographs(Path(sys.argv[2]) if len(sys.argv) > 2 else None)
elif __name__ == "__main__":
    main(int(sys.argv[1]), int(sys.argv[2]), Path(sys.argv[3]) if len(sys.argv) > 3 else None)
