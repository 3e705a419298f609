"""Every command that a document tells a person to run, and what tests it; see test_documented_commands.py."""

from __future__ import annotations

import sys
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from build.pins import read_pins
from build.places import places

ROOT: Final = Path(__file__).resolve().parents[1]
DEMO: Final = ROOT / "demo_data"
PROFILE: Final = ROOT / "pycore" / "colour" / "illustrative" / "illustrative-matte.icc"
LETTERS: Final = ROOT / "pycore" / "printing" / "pdf" / "data" / "letters.ttf"
COLOUR: Final = ROOT / "tests" / "pycore" / "colour"

#: The smallest of the wheels that the site carries.
WHEEL: Final = places(ROOT).wheels / read_pins(ROOT / "web" / "pins.json").carried[0].file


@dataclass(frozen=True)
class Here:
    """A command that is run here: what follows the program, `{folder}` being a folder of the test's own.

    `{quick}` is the address of a site with a native core. What the file `made` holds is to be what
    `committed` holds, byte for byte.
    """

    arguments: str
    made: str = ""
    committed: Path | None = None
    program: str = sys.executable
    browser: bool = False
    slow: bool = False


@dataclass(frozen=True)
class Elsewhere:
    """A command that another test runs, and why it is not run here."""

    reason: str
    test: str


#: What `spring.csv` holds.
TABLE: Final = "name,picture.file,face.width_mm,face.height_mm\nLow tide,tide.jpg,240,180\n"

COMPARE: Final = "tests/compare_commits.py HEAD --jobs mirror --commands layout"
MAKER: Final = "python -m pycore.colour.illustrative.make_profile"

#: Every command but `tuckfold`, whose lines are run as they stand.
KNOWN: Final[dict[str, Here | Elsewhere]] = {
    "python -m pycore.cli": Here("-m pycore.cli --help"),
    f"{MAKER} pycore/colour/illustrative/illustrative-matte.icc": Here(
        "-m pycore.colour.illustrative.make_profile {folder}/matte.icc", "matte.icc", PROFILE, slow=True
    ),
    "python -m pycore.printing.pdf.make_letters pycore/printing/pdf/data": Here(
        "-m pycore.printing.pdf.make_letters {folder}", "letters.ttf", LETTERS
    ),
    "python tests/pycore/colour/make_profiles.py tests/pycore/colour/data": Here(
        "tests/pycore/colour/make_profiles.py {folder}", "cmyk-v2.icc", COLOUR / "data" / "cmyk-v2.icc"
    ),
    "python tests/pycore/colour/littlecms.py table FILE...": Here(
        "tests/pycore/colour/littlecms.py table tests/pycore/colour/data/grey-v2.icc"
    ),
    "python tests/pycore/colour/littlecms.py table": Here(
        "tests/pycore/colour/littlecms.py table tests/pycore/colour/data/matrix-v4.icc"
    ),
    "python tests/pycore/colour/littlecms.py store": Here(
        "tests/pycore/colour/littlecms.py store --out {folder}/stored.json",
        "stored.json",
        COLOUR / "data" / "littlecms_reference.json",
    ),
    "python3 demo_data/paint.py": Here(
        # At its full size, test_the_script_paints_the_picture compares it with the committed one.
        "demo_data/paint.py --out {folder}/estuary.jpg --scale 0.1",
        "estuary.jpg",
        slow=True,
    ),
    "python3 demo_data/paint_room.py": Here(
        "demo_data/paint_room.py --out {folder}/room.jpg --scale 0.05", "room.jpg", slow=True
    ),
    "python3 demo_data/bake_preview.py http://127.0.0.1:8137/": Here(
        "demo_data/bake_preview.py {quick} --folder {folder} --only light_phone --quickly",
        "preview_light_phone.webp",
        browser=True,
    ),
    "python3 demo_data/take_pictures.py http://127.0.0.1:8137/": Here(
        "demo_data/take_pictures.py {quick} --folder {folder} --only narrow --quickly",
        "page-390.webp",
        browser=True,
    ),
    "python3 demo_data/take_finishes.py http://127.0.0.1:8137/": Here(
        "demo_data/take_finishes.py {quick} --folder {folder} --only lapped --quickly",
        "finish-lapped.webp",
        browser=True,
    ),
    "python tests/bench_print.py": Elsewhere(
        "it needs libvips", "tests/test_bench_print.py::test_our_half_is_made_and_measured"
    ),
    "python tests/bench_plan.py": Here("tests/bench_plan.py --sets 6"),
    "python tests/bench_batch.py": Here(
        "tests/bench_batch.py --jobs 2 --planned 2 --ppi 60 --make print --reduced 4", slow=True
    ),
    "python3 tests/bench.py": Elsewhere(
        "it measures for minutes", "tests/test_bench.py::test_the_table_of_the_native_part_is_printed"
    ),
    "python3 tests/fuzz.py": Here("tests/fuzz.py --mutants 20"),
    "python3 tests/soak.py": Here("tests/soak.py --minutes 0.001 --address {quick}", browser=True),
    "python -m tests.pycore.wall.write_page_walls": Elsewhere(
        "it writes into the repository",
        "tests/pycore/wall/test_page_walls.py::test_the_file_holds_what_the_core_measures",
    ),
    "python -m tests.pycore.wall.write_page_exif": Elsewhere(
        "it writes into the repository",
        "tests/pycore/wall/test_page_walls.py::test_the_focal_lengths_are_those_that_the_core_reads",
    ),
    "python tests/pycore/wall/measure_wall.py": Here("tests/pycore/wall/measure_wall.py 3"),
    "python tests/pycore/wall/measure_finder.py 1000 1060": Elsewhere(
        "it renders for minutes", "tests/pycore/wall/test_find_paper.py::test_the_measure_counts_what_it_sees"
    ),
    "node tools/snapshot.mjs PROGRAM WORK DEMO": Elsewhere(
        "it takes parts that the build makes",
        "tests/web/tools/test_snapshot.py::test_made_again_it_is_the_same_to_the_byte",
    ),
    "node tools/load_snapshot.mjs PY": Elsewhere(
        "it takes a made snapshot",
        "tests/web/tools/test_snapshot.py::test_the_core_is_there_without_an_import_and_answers",
    ),
    "python tests/browser/measure_core.py": Here(
        # The other parts make calls that test_start.py makes in Pyodide.
        "tests/browser/measure_core.py --share 0.02 --in-chromium print",
        browser=True,
    ),
    "python tests/browser/measure_keeping.py": Here(
        "tests/browser/measure_keeping.py --rounds 1 --edits 2 --address {quick}", browser=True
    ),
    "python tests/browser/measure_load.py": Here(
        "tests/browser/measure_load.py --runs 1 --quickly", browser=True
    ),
    "python3 web/serve.py": Elsewhere(
        "it ends by a key alone",
        "tests/test_documented_commands.py::test_the_site_is_served_until_a_key_ends_it",
    ),
    "python3 web/serve.py --port 8137": Elsewhere(
        "the port may be taken: it serves at a free one",
        "tests/test_documented_commands.py::test_the_site_is_served_until_a_key_ends_it",
    ),
    "python3 web/serve.py --build-only": Elsewhere(
        "packing takes minutes after a change", "tests/web/test_serve.py::test_a_repeated_run_does_nothing"
    ),
    "python3 web/serve.py --wheel FOLDER": Elsewhere(
        "it needs the built site",
        "tests/web/build/test_page_wheel.py::test_the_wheel_brings_the_page_and_serves_it",
    ),
    "python web/tools/draw_icon.py": Here(
        "web/tools/draw_icon.py {folder}", "icon.svg", ROOT / "web" / "static" / "icon.svg"
    ),
    "node tools/pack.mjs OUT FILE...": Here(
        "web/tools/pack.mjs {folder} {wheel}", f"{WHEEL.name}.br", program="node"
    ),
    "python3 tests/run.py": Elsewhere(
        "it would run this test again",
        "tests/test_documented_commands.py::test_ci_runs_what_the_readme_says",
    ),
    "python3 tests/run.py --quick": Elsewhere(
        "it would run this test again", "tests/test_run.py::test_quick_leaves_browsers_and_pyodide_out"
    ),
    "python3 tests/run.py -k fold": Elsewhere(
        "it would run this test again", "tests/test_run.py::test_arguments_go_to_pytest"
    ),
    "python tests/speech_keys.py": Here("tests/speech_keys.py"),
    "python tests/speech_keys.py missing": Here("tests/speech_keys.py missing"),
    "python tests/list_messages.py > tests/data/messages.txt": Elsewhere(
        "it writes into the checkout", "tests/test_messages.py::test_the_list_is_current"
    ),
    "python3 tests/compare_commits.py OLD": Here(COMPARE),
    **{
        f"npm run {name}": Elsewhere(reason, "tests/test_run.py::test_everything_is_built_and_run")
        for name, reason in (
            ("lint", "it is a step of every run"),
            ("format:check", "it is a step of every run"),
            ("format", "it writes into the checkout; format:check says what it would change"),
        )
    },
    "python -m pycore.bridge.schema": Elsewhere(
        "it writes into the checkout",
        "tests/pycore/bridge/test_schema.py::test_the_committed_schema_is_that_of_the_models",
    ),
    "python web/write_guide.py": Elsewhere(
        "it writes into the checkout",
        "tests/web/guidebook/test_drawings.py::test_the_committed_drawings_are_those_that_are_made",
    ),
    "python demo_data/write_readme_outputs.py": Elsewhere(
        "it writes into the checkout",
        "tests/demo_data/test_readme.py::test_the_outputs_are_those_that_are_printed",
    ),
    "npm run types": Elsewhere(
        "it writes into the checkout", "tests/web/contract/types.test.ts::the committed types"
    ),
    "npm run client": Elsewhere(
        "it writes into the checkout",
        "tests/web/tools/test_client.py::test_the_committed_viewer_is_the_one_that_is_built",
    ),
    "node web/tools/validate_model.mjs FILE.glb": Elsewhere(
        "it needs models",
        "tests/pycore/model/test_validator.py::test_the_validator_finds_no_error_and_no_warning",
    ),
    "node tools/compile.mjs OUT FILE...": Here(
        "web/tools/compile.mjs {folder} {wheel}", WHEEL.name, program="node"
    ),
    "node tools/pyodide_node.mjs ROOT OUT WHEEL... -- ARGUMENT...": Elsewhere(
        "it takes minutes", "tests/parity/test_parity.py::test_the_cores_own_tests_pass_inside_pyodide"
    ),
}
