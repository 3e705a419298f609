"""Profiles that lie: whatever is done to them, only a ProfileError comes out, soon, and in little memory."""

import struct
import sys
import time
import tracemalloc
from collections.abc import Iterator

import numpy as np
import pytest

from pycore.colour.gamut.device_gamut import clipping, make_device_gamut
from pycore.colour.gamut.profile_report import profile_report, require_printer
from pycore.colour.icc.profile import description, parse_profile, require_device
from pycore.colour.icc.tone_curves import decode_table
from pycore.colour.icc.transform import Standard, make_transform
from pycore.colour.link import axes, make_map
from pycore.colour.link.display import display_map
from pycore.contract.job import Intent
from pycore.errors import ProfileError

from .conversion import Conversion

#: Mutations of each of the five small profiles; with the structured ones more than 300 profiles in all.
RANDOM = 40

BASES = ["matrix-v4", "grey-v2", "cmyk-v2", "curves-lab-v4", "curves-xyz-v4"]

#: What a count, size or offset may be turned into.
EXTREMES = [0, 1, 2**16, 2**31 - 1, 2**31, 2**32 - 1]

#: Inside Pyodide, where the same code runs five times as long, so many mutants are left out between two.
EVERY = 8 if sys.platform == "emscripten" else 1

#: Seconds that all the work on one profile may take on a slow machine; it takes about 0.1.
SECONDS = 5.0

#: Of a table on the way to the screen, along each of three channels.
FEW_NODES = 9

#: Bytes beside the profile itself: the largest table that is read, twice, is 64 MB.
MEMORY = 150_000_000


def structured(data: bytes) -> Iterator[bytes]:
    """Truncations, and every field of the tag table and of each tag's head turned into extremes in turn."""
    for share in (0.01, 0.3, 0.6, 0.9, 0.99):
        yield data[: int(len(data) * share)]
        cut = int(len(data) * share)
        yield struct.pack(">I", cut) + data[4:cut]
    count = int.from_bytes(data[128:132], "big")
    chance = np.random.default_rng(len(data))
    for entry in range(count):
        at = 132 + 12 * entry
        offset = int.from_bytes(data[at + 4 : at + 8], "big")
        for place in (at + 4, at + 8, offset, offset + 8, offset + 12, offset + 16):
            value = EXTREMES[int(chance.integers(len(EXTREMES)))]
            yield data[:place] + struct.pack(">I", value) + data[place + 4 :]


def random_changes(data: bytes) -> Iterator[bytes]:
    """A few bytes changed anywhere, most of them where the structure is."""
    chance = np.random.default_rng(len(data) + 1)
    for _ in range(RANDOM):
        changed = bytearray(data)
        for _ in range(int(chance.integers(1, 6))):
            end = 700 if chance.random() < 0.7 else len(data)
            changed[int(chance.integers(0, min(end, len(data))))] = int(chance.integers(256))
        yield bytes(changed)


def use(data: bytes) -> None:
    """Everything that the program does with a profile."""
    profile = parse_profile(data)
    description(data)
    decode_table(data)
    device = require_device(profile)
    values = np.random.default_rng(9).random((50, {"GRAY": 1, "RGB": 3, "CMYK": 4}[device]))
    lab_d50 = np.random.default_rng(9).uniform([0, -100, -100], [100, 100, 100], (50, 3))
    for intent in Intent:
        options: Conversion = {"intent": intent, "black_point_compensation": intent is not Intent.SATURATION}
        assert np.all(np.isfinite(make_transform(profile, Standard.LAB, **options)(values)))
        assert np.all(np.isfinite(make_transform(Standard.LAB, profile, **options)(lab_d50)))
    if device == "RGB":
        display_map(data)
    profile_report(profile)
    require_printer(profile)
    clipping(make_device_gamut(profile), lab_d50)


def refusal(data: bytes) -> ProfileError | None:
    """The error that comes out, if any; no other kind is caught."""
    try:
        use(data)
    except ProfileError as wrong:
        return wrong
    return None


@pytest.mark.slow
@pytest.mark.parametrize("name", BASES)
def test_only_profile_errors_come_out(
    profiles: dict[str, bytes], name: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    most = dict(axes.USUAL_NODES)
    mutants = [*structured(profiles[name]), *random_changes(profiles[name])][::EVERY]
    refused = 0
    for number, data in enumerate(mutants):
        # What goes wrong does not depend on the number of nodes, which takes most of the time; each tenth
        # mutant shows what time it takes with all of them.
        nodes = most[3] if number % 10 == 0 else FEW_NODES
        monkeypatch.setitem(axes.USUAL_NODES, 3, nodes)
        monkeypatch.setattr(make_map, "_MIDDLE_NODES", nodes)
        began = time.process_time()
        wrong = refusal(data)
        if wrong is not None:
            refused += 1
            assert all([wrong.field, wrong.expected, wrong.got, wrong.remedy])
        assert time.process_time() - began < SECONDS, f"mutant {number}"
    assert refused > len(mutants) // 4


def test_the_corpus_is_large(profiles: dict[str, bytes]) -> None:
    assert sum(len([*structured(profiles[name]), *random_changes(profiles[name])]) for name in BASES) >= 300


def test_memory_stays_bounded(profiles: dict[str, bytes]) -> None:
    mutants = [*structured(profiles["cmyk-v2"])]
    tracemalloc.start()
    for data in mutants[:: 3 if EVERY == 1 else 9]:
        refusal(data)
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert peak < MEMORY


def test_a_display_profile_is_no_canvas(profiles: dict[str, bytes]) -> None:
    with pytest.raises(ProfileError, match="that of an RGB or CMYK printer; it is a display's"):
        require_printer(parse_profile(profiles["matrix-v4"]))
    with pytest.raises(ProfileError, match=r"profile \(GRAY\)"):
        require_printer(parse_profile(profiles["grey-v2"]))
