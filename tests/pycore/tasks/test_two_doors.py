"""The same job through the page and through the command line gives the same numbers, for every task."""

from __future__ import annotations

import io
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from PIL import Image

from pycore.bridge.answer import Answer
from pycore.bridge.session import Session
from pycore.cli.main import main
from pycore.client.page import viewer_program
from pycore.colour.icc.endpoints import Standard
from pycore.colour.illustrative import profile as illustrative
from pycore.colour.link.viewing import Viewing
from pycore.contract.check import check_job, job_tree
from pycore.contract.edits import edit_tree
from pycore.contract.job import Job
from pycore.progress import run_to_end
from pycore.proofing import proof_input as proof_input_module
from pycore.proofing.profile_store import ProfileStore
from pycore.proofing.proof_input import flat_proof_input
from pycore.tasks import proof as proof_module
from pycore.tasks.open_picture import open_picture
from tests.pycore.kept import kept_steps

pytestmark = [pytest.mark.native, pytest.mark.slow]

DAY = "2031-04-30"

Pixels = np.ndarray[Any, np.dtype[np.uint8]]


def ramps() -> Image.Image:
    """Every hue at every lightness: much of it outside the gamut."""
    rows, columns = np.mgrid[0:90, 0:120]
    hsv = np.dstack([columns * 255 // 119, np.full_like(rows, 230), 255 - rows * 200 // 89])
    return Image.merge("HSV", [Image.fromarray(hsv[..., one].astype(np.uint8)) for one in range(3)]).convert(
        "RGB"
    )


def shapes() -> Image.Image:
    """Discs and slanting lines that run into the edges."""
    rows, columns = np.mgrid[0:260, 0:200]
    pixels: Pixels = np.full((260, 200, 3), (225, 214, 190), np.uint8)
    pixels[(columns - rows) % 70 < 5] = (30, 60, 150)
    pixels[(columns - 185) ** 2 + (rows - 40) ** 2 < 900] = (235, 20, 30)
    return Image.fromarray(pixels)


def greys() -> Image.Image:
    """A grey picture with fine noise, of one channel."""
    noise = np.random.default_rng(4).integers(0, 256, (150, 150))
    return Image.fromarray(noise.astype(np.uint8))


PICTURES: dict[str, tuple[Callable[[], Image.Image], str]] = {
    "ramps": (ramps, "PNG"),
    "shapes": (shapes, "JPEG"),
    "greys": (greys, "TIFF"),
}

#: One job each, and a group: sizes are small so that print files are.
JOBS: dict[str, list[str]] = {
    "ramps": ["face.width_mm=120", "face.height_mm=90", "bars.depth_mm=10", "colour.bring_in=1"],
    "shapes": ["face.width_mm=100", "face.height_mm=130", "sides.fill=fade", "bars.depth_mm=18"],
    "greys": ["face.width_mm=110", "face.height_mm=110", "bars.depth_mm=20", "print.convert=convert"],
    "group": [
        "face.width_mm=80",
        "face.height_mm=110",
        "bars.depth_mm=10",
        "wrap.turnover_mm=20",
        "group.panels=3",
        "colour.bring_in=0.5",
        "colour.intent=perceptual",
    ],
}
COMMON = ["print.ppi=72", "print.marks=false"]


class Doors:
    """One job and picture behind both doors; the page keeps what it has worked out, as for a person."""

    #: What the command prints into, of each test.
    capsys: pytest.CaptureFixture[str]

    def __init__(self, name: str, folder: Path) -> None:
        make, kind = PICTURES.get(name, PICTURES["ramps"])
        self.folder = folder
        self.picture = folder / f"{name}.{kind.lower()}"
        make().save(self.picture, kind)
        self.edits = [*JOBS[name], *COMMON]
        self.session = Session()
        self.ask("open", {"file": self.picture.name}, self.picture.read_bytes())
        self.job = self._job()

    def _job(self) -> dict[str, Any]:
        return job_tree(check_job(edit_tree(job_tree(Job()), self.edits)))

    def ask(self, method: str, params: dict[str, Any], buffer: bytes | None = None) -> Answer:
        """What the page is answered."""
        found = run_to_end(self.session.call(method, params, buffer))
        assert isinstance(found, Answer)
        return found

    def page(self, method: str, **params: Any) -> Any:
        """The page's reply as plain data."""
        return self.ask(method, {"job": self.job, **params}).reply.model_dump(mode="json")

    def command(self, *arguments: str) -> Any:
        """What the command prints as JSON."""
        sets = [part for edit in self.edits for part in ("--set", edit)]
        assert main([*arguments, *sets, "--json"]) == 0
        return json.loads(self.capsys.readouterr().out)


@pytest.fixture(scope="module", params=JOBS)
def of_job(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Doors:
    return Doors(request.param, tmp_path_factory.mktemp("doors"))


#: Both doors take their figures from so many pixels of a canvas, and a proof has so many: fewer than for a
#: person, about as many as the pictures have.
PIXELS = 20_000

#: What both doors ask with the same arguments is worked out once.
KEPT = kept_steps()


@pytest.fixture
def doors(of_job: Doors, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Doors:
    for name, step in KEPT.items():
        monkeypatch.setattr(name, step)
    defaults = proof_input_module.flat_proof_input.__kwdefaults__
    assert defaults is not None
    monkeypatch.setitem(defaults, "most_px", PIXELS)
    monkeypatch.setattr(proof_module, "_PROOF_PX", PIXELS)
    of_job.capsys = capsys
    return of_job


def test_layout(doors: Doors) -> None:
    page = doors.page("show", preview_px=20_000)["layout"]
    command = doors.command("layout", str(doors.picture))
    expected = {
        **{name: page["flat"][name] for name in ("canvas_mm", "inked_mm", "face_zone_mm", "weight_g")},
        **page["sheet"],
        **page["use"],
        "notes": page["notes"],
        "largest_face": doors.page("propose_face", unit="mm")["face"],
    }
    if page["wall_mm"] is not None:
        expected |= {"wall_mm": page["wall_mm"], "plan": page["plan"]}
    assert command == expected


def test_bars(doors: Doors) -> None:
    page = doors.page("show", preview_px=20_000)["bars"]
    command = doors.command("bars", str(doors.picture))
    assert command == page
    assert command["panels"] == doors.job["group"]["panels"]


def test_clipping(doors: Doors) -> None:
    page = doors.page("clip")
    command = doors.command("clip", str(doors.picture))
    parts = [{name: one[name] for name in one if name != "share_before"} for one in page["parts"]]
    assert command["regions"] == parts
    assert command["groups"] == page["groups"]
    assert command["threshold_de"] == page["threshold_de"]


def test_intents(doors: Doors) -> None:
    page = doors.page("intents")
    command = doors.command("intents", str(doors.picture))
    rows = [{name: one[name] for name in one if name != "label"} for one in page["rows"]]
    assert [{name: one[name] for name in one if name != "harm"} for one in command["intents"]] == rows
    assert command["recommended"]["reason"] == page["reason"]
    best = page["rows"][page["recommended"]]
    assert command["recommended"]["intent"] == best["intent"]


def test_edges(doors: Doors) -> None:
    page = doors.ask("edges", {"job": doors.job}).reply.model_dump(mode="json", exclude_none=True)
    assert doors.command("edges", str(doors.picture)) == page


def test_comparison(doors: Doors) -> None:
    variants = []
    for depth in (10, 16):
        job = json.loads(json.dumps(doors.job))
        job["bars"]["depth_mm"] = depth
        variants.append({"label": f"{depth} mm", "job": job})
    asked = {"variants": variants, "viewing": "black", "screen": "srgb"}
    page = doors.ask("compare", asked).reply.model_dump(mode="json")
    command = doors.command("compare", str(doors.picture), "--depths", "10,16")
    assert command["textures"] == len(page["textures"])
    for mine, theirs in zip(command["variants"], page["variants"], strict=True):
        for name in ("label", "lost_share", "outside_share", "weight_g", "whole_g", "texture"):
            assert mine[name] == theirs[name], name
        for name in ("fits", "turned", "slack_mm", "largest_depth_mm"):
            assert mine[name] == theirs["layout"]["sheet"][name], name
        assert mine["notes"] == theirs["layout"]["notes"]


def test_print_file(doors: Doors) -> None:
    out = doors.folder / "canvas.tif"
    command = doors.command("print", str(doors.picture), "--out", str(out), "--date", DAY)
    files = command.get("files", [command])
    for panel, written in enumerate(files, start=1):
        answer = doors.ask("print", {"job": doors.job, "kind": "tiff", "date": DAY, "panel": panel})
        report = answer.reply.model_dump(mode="json")["report"]
        own = b"".join(part.tobytes() for part in answer.buffers)
        assert (doors.folder / written["file"]).read_bytes() == own
        for name in ("width_px", "height_px", "ppi", "size_mm", "profile_name", "bytes", "format", "bits"):
            assert written[name] == report[name], name


def test_model(doors: Doors) -> None:
    out = doors.folder / "canvas.glb"
    command = doors.command("model", str(doors.picture), "--out", str(out), "--texture-px", "40000")
    answer = doors.ask("model", {"job": doors.job, "texture_px": 40_000})
    reply = answer.reply.model_dump(mode="json")
    assert out.read_bytes() == b"".join(part.tobytes() for part in answer.buffers)
    report = {**reply["report"], "file": out.name, "notes": reply["notes"]}
    assert command == report


def test_client_page(doors: Doors) -> None:
    out = doors.folder / "client.html"
    command = doors.command("client", str(doors.picture), "--out", str(out), "--date", DAY)
    params = {"variants": [{"label": "", "job": doors.job}], "date": DAY}
    answer = doors.ask("client", params, viewer_program())
    assert out.read_bytes() == b"".join(part.tobytes() for part in answer.buffers)
    assert command["bytes"] == answer.reply.model_dump(mode="json")["report"]["bytes"]


def test_proof_is_the_screens_own(doors: Doors) -> None:
    """The picture that `proof` writes is the flat canvas through the table that the page's screen gets."""
    out = doors.folder / "proof.png"
    command = doors.command("proof", str(doors.picture), "--out", str(out))
    job = check_job(doors.job)
    picture = run_to_end(open_picture(doors.picture.read_bytes(), file=doors.picture.name))
    proof_input, grid = run_to_end(flat_proof_input(job, picture.preview, most_px=PIXELS))
    link = ProfileStore().link(proof_input, job.colour, viewing=Viewing.BLACK, screen=Standard.SRGB)
    expected = link.shown(proof_input.pixels)[..., :3]
    with Image.open(io.BytesIO(out.read_bytes())) as written:
        found = np.asarray(written)
    assert [command["width_px"], command["height_px"]] == [found.shape[1], found.shape[0]]
    inked = slice(grid.columns[1], grid.columns[4])
    for top in range(0, len(found), grid.height_px):
        rows = slice(top + grid.rows[1], top + grid.rows[4])
        assert (found[rows, inked] == expected[rows, inked]).all()


def test_a_profile(capsys: pytest.CaptureFixture[str]) -> None:
    file = Path(illustrative.__file__).with_name("illustrative-matte.icc")
    page = run_to_end(Session().call("profile", {"file": file.name}, file.read_bytes())).reply
    assert main(["profile", str(file), "--json"]) == 0
    command = json.loads(capsys.readouterr().out)
    for name in ("description", "device", "version", "white_lab", "black_lab", "gamut_volume"):
        assert command[name] == page.model_dump(mode="json")[name], name
