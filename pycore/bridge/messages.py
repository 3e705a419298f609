"""Every method between the page and the core and its messages; the page's types are generated from it.

A call is `{id, method, params}` and at most one buffer of bytes. An answer is known by its tag: `result`
(with the reply and its buffers), `error` (with code, field, expected, got, remedy), or `progress`. Only plain
data crosses. What is absent is left out; nothing is ever null. A buffer is named in the reply by a `Buffer`:
its place in the list of buffers that travel (are transferred) beside the reply, its shape, kind and state.
"""

from __future__ import annotations

from enum import StrEnum

from pycore.bars.report import BarsReport
from pycore.bridge.answer_messages import AnswerParams, AnswerReply
from pycore.bridge.bundle_messages import (
    OpenBundleParams,
    OpenBundleReply,
    SaveBundleParams,
    SaveBundleReply,
)
from pycore.bridge.choice_messages import ChoicesParams, ChoicesReply, DetailParams, DetailReply
from pycore.bridge.colour_messages import (
    ClipParams,
    ClipReply,
    IntentsParams,
    IntentsReply,
    LookParams,
    LookReply,
    ProfileParams,
    ProfileReply,
    SolidParams,
    SolidReply,
)
from pycore.bridge.message import Buffer as Buffer
from pycore.bridge.message import Message
from pycore.bridge.message import Texture as Texture
from pycore.bridge.plan_messages import PlanParams
from pycore.bridge.preset_messages import (
    KeepPresetParams,
    OpenPresetsParams,
    PresetsReply,
    TakePresetParams,
    TakePresetReply,
)
from pycore.bridge.showing_messages import (
    ClientParams,
    ClientReply,
    CompareParams,
    EdgesParams,
    ModelParams,
    ModelReply,
    ProposeFaceParams,
    ProposeFaceReply,
    TicketParams,
    TicketReply,
    TurntableParams,
    TurntableReply,
)
from pycore.bridge.strip_messages import MeasureStripParams, StripParams, StripReply
from pycore.bridge.wall_messages import (
    FindReferenceParams,
    FindReferenceReply,
    HangParams,
    HangReply,
    MeasureWallParams,
    MeasureWallReply,
    OpenWallParams,
    OpenWallReply,
    WallCanvasParams,
    WallCanvasReply,
)
from pycore.contract.error_record import ErrorRecord
from pycore.contract.job import Job
from pycore.contract.notes import Note as Note
from pycore.contract.record import Pair
from pycore.edges.report import EdgesReport
from pycore.fold.layers import Bulk
from pycore.fold.stages import FoldStage
from pycore.layout.grid import Box
from pycore.layout.panel_places import PanelPlace
from pycore.layout.report import Layout
from pycore.picture.info import PictureInfo
from pycore.plan.result import Plan
from pycore.printing.report import FileKind, FileReport
from pycore.progress import Progress
from pycore.strip.report import StripCheck
from pycore.tasks.presets import JoinedPresets
from pycore.tasks.show import ShowOptions


class FoldReply(Message):
    """The canvas as a triangle mesh, at sampled positions from flat to folded."""

    stages: list[FoldStage]
    bulk: list[Bulk]
    at: list[float]
    """The sampled positions, rising from 0 to 1; between two of them the page interpolates."""
    positions: Buffer
    """(frames, vertices, 3), float32, mm."""
    uv: Buffer
    """(vertices, 2), float32, fraction of the texture from its top-left corner."""
    triangles: Buffer
    """(triangles, 3), uint32, index; counter-clockwise seen from the print side."""
    outlines: Buffer
    """(segments, 2), uint32, index of two vertices: crease and cut lines, to be drawn on the flat sheet."""
    crease_count: int
    """The first so many outlines are creases, the others cuts."""
    notes: list[Note]


class ShowParams(ShowOptions, Message):
    """The job to be shown."""

    job: Job
    fresh: bool = False
    """Send every part, whatever was sent before (a new page, or a worker started again)."""


class ShowReply(Message):
    """What has changed on the stage. A part that is as it was before is left out."""

    job: Job
    layout: Layout
    bars: BarsReport
    texture: Texture | None = None
    """Of a group the panels' canvases, one below the other; face and inked are the first's."""
    fold: FoldReply | None = None
    """Every panel folds alike; its texture coordinates are those of one canvas."""
    panels: list[PanelPlace]
    """One where there is no group."""
    worker_ms: float


class VariantReply(Message):
    """One variant's figures, and what of the reply's lists it shows."""

    label: str
    job: Job
    layout: Layout
    lost_share: float
    """Of the picture: cut away, 0 to 1."""
    weight_g: float
    """Of the canvas alone as trimmed, without its cut corners, all panels."""
    whole_g: Pair
    """Of the whole piece, all panels: lowest and highest."""
    outside_share: float
    """Outside the gamut, of all that is seen of the piece, 0 to 1."""
    panels: list[PanelPlace]
    texture: int
    inked: Box
    """On its texture."""
    fold: int
    """Its texture coordinates are those of its texture."""
    look: int


class CompareReply(Message):
    """Variants under one light. What several of them share is sent once."""

    textures: list[Texture]
    folds: list[FoldReply]
    looks: list[LookReply]
    """Looks may name the same buffers."""
    variants: list[VariantReply]


class OpenParams(Message):
    """The picture's file name; its bytes travel as the call's buffer."""

    file: str


class OpenReply(Message):
    """The opened picture and a small copy of it."""

    info: PictureInfo
    thumbnail: Buffer
    """(height, width, 4), uint8, srgb_encoded: upright, not turned, not cropped."""


class CloseReply(Message):
    """No picture is open any more; what needs one is refused until one is."""


class PrintParams(Message):
    """Write the print file of a job."""

    job: Job
    kind: FileKind
    date: str
    """Of today, YYYY-MM-DD, for the text line; the core has no clock of its own."""
    panel: int = 1
    """Which of a group's panels."""


class PrintReply(Message):
    """The written file, re-opened and measured."""

    report: FileReport
    parts: list[Buffer]
    """The file's bytes in order, each (n,), uint8, file."""
    notes: list[Note]


class JobParams(Message):
    """The text of a job file."""

    text: str


class JobReply(Message):
    """A checked job."""

    job: Job
    notes: list[Note]
    """What of an earlier version's file is worth a look."""


class HelloParams(Message):
    """Nothing is needed."""


class HelloReply(Message):
    """The core is there."""

    version: str
    python: str
    numpy: str
    pillow: str
    job: Job
    """A job with every field at its default."""


class ErrorReply(ErrorRecord, Message):
    """Why a call failed."""


class Method(StrEnum):
    """What may be called."""

    HELLO = "hello"
    CHECK = "check"
    OPEN = "open"
    CLOSE = "close"
    PROPOSE_FACE = "propose_face"
    SHOW = "show"
    PRINT = "print"
    PROFILE = "profile"
    LOOK = "look"
    CLIP = "clip"
    INTENTS = "intents"
    SOLID = "solid"
    COMPARE = "compare"
    EDGES = "edges"
    CHOICES = "choices"
    DETAIL = "detail"
    MODEL = "model"
    TURNTABLE = "turntable"
    CLIENT = "client"
    OPEN_BUNDLE = "open_bundle"
    SAVE_BUNDLE = "save_bundle"
    TICKET = "ticket"
    PLAN = "plan"
    STRIP = "strip"
    MEASURE_STRIP = "measure_strip"
    ANSWER = "answer"
    OPEN_PRESETS = "open_presets"
    TAKE_PRESET = "take_preset"
    KEEP_PRESET = "keep_preset"
    OPEN_WALL = "open_wall"
    FIND_REFERENCE = "find_reference"
    MEASURE_WALL = "measure_wall"
    WALL_CANVAS = "wall_canvas"
    HANG = "hang"


class Contract(Message):
    """Every method's parameters and reply, so that one schema holds them all."""

    job: Job
    hello: tuple[HelloParams, HelloReply]
    check: tuple[JobParams, JobReply]
    open: tuple[OpenParams, OpenReply]
    close: tuple[HelloParams, CloseReply]
    propose_face: tuple[ProposeFaceParams, ProposeFaceReply]
    show: tuple[ShowParams, ShowReply]
    print: tuple[PrintParams, PrintReply]
    profile: tuple[ProfileParams, ProfileReply]
    look: tuple[LookParams, LookReply]
    clip: tuple[ClipParams, ClipReply]
    intents: tuple[IntentsParams, IntentsReply]
    solid: tuple[SolidParams, SolidReply]
    compare: tuple[CompareParams, CompareReply]
    edges: tuple[EdgesParams, EdgesReport]
    choices: tuple[ChoicesParams, ChoicesReply]
    detail: tuple[DetailParams, DetailReply]
    model: tuple[ModelParams, ModelReply]
    turntable: tuple[TurntableParams, TurntableReply]
    client: tuple[ClientParams, ClientReply]
    open_bundle: tuple[OpenBundleParams, OpenBundleReply]
    save_bundle: tuple[SaveBundleParams, SaveBundleReply]
    ticket: tuple[TicketParams, TicketReply]
    plan: tuple[PlanParams, Plan]
    strip: tuple[StripParams, StripReply]
    measure_strip: tuple[MeasureStripParams, StripCheck]
    answer: tuple[AnswerParams, AnswerReply]
    open_presets: tuple[OpenPresetsParams, JoinedPresets]
    take_preset: tuple[TakePresetParams, TakePresetReply]
    keep_preset: tuple[KeepPresetParams, PresetsReply]
    open_wall: tuple[OpenWallParams, OpenWallReply]
    find_reference: tuple[FindReferenceParams, FindReferenceReply]
    measure_wall: tuple[MeasureWallParams, MeasureWallReply]
    wall_canvas: tuple[WallCanvasParams, WallCanvasReply]
    hang: tuple[HangParams, HangReply]
    method: Method
    progress: Progress
    error: ErrorReply
