"""Media white and adaptation."""

import struct

import numpy as np
import pytest

from pycore.colour.icc.profile import parse_profile
from pycore.colour.icc.white import device_adaptation, media_white
from pycore.colour.spaces.adapt import xy_to_xyz
from pycore.colour.spaces.lab import D50_XYZ
from pycore.errors import ProfileError


def test_a_printers_white_is_its_paper(profiles: dict[str, bytes]) -> None:
    # derived: as `make_profiles.py` wrote it, to half of 1/65536
    expected = np.array(D50_XYZ) * np.array([0.84, 0.85, 0.78])
    assert np.abs(media_white(parse_profile(profiles["cmyk-v2"])) - expected).max() < 8e-6


def test_a_version_2_display_is_seen_by_an_adapted_eye(profiles: dict[str, bytes]) -> None:
    data = bytearray(profiles["cmyk-v2"])
    data[12:16] = b"mntr"
    assert media_white(parse_profile(bytes(data))).tolist() == list(D50_XYZ)


def test_chad_leads_back_to_the_display(profiles: dict[str, bytes]) -> None:
    matrix = device_adaptation(parse_profile(profiles["matrix-v4"]))
    # published: CIE D65, x 0.3127, y 0.3290
    assert np.abs(np.linalg.solve(matrix, np.array(D50_XYZ)) - xy_to_xyz((0.3127, 0.3290))).max() < 1e-4
    assert device_adaptation(parse_profile(profiles["cmyk-v2"])).tolist() == np.eye(3).tolist()


def test_a_black_white_is_refused(profiles: dict[str, bytes]) -> None:
    data = profiles["grey-v2"]
    at = data.index(b"XYZ \0\0\0\0")
    with pytest.raises(ProfileError, match="a white above 0 in X, Y and Z") as caught:
        media_white(parse_profile(data[: at + 8] + struct.pack(">3i", 1, 0, 1) + data[at + 20 :]))
    assert caught.value.field == "tag wtpt"


def test_a_singular_adaptation_is_refused(profiles: dict[str, bytes]) -> None:
    data = profiles["matrix-v4"]
    at = data.index(b"sf32")
    with pytest.raises(ProfileError, match="a matrix that can be inverted"):
        device_adaptation(parse_profile(data[: at + 8] + bytes(36) + data[at + 44 :]))
