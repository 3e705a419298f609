"""Profiles that the colour tests share: small invented ones, and the illustrative canvas."""

from __future__ import annotations

from pathlib import Path

import pytest

from pycore.colour.gamut.device_gamut import DeviceGamut, make_device_gamut
from pycore.colour.icc.profile import parse_profile
from pycore.colour.illustrative.profile import illustrative_profile

DATA = Path(__file__).parent / "data"


@pytest.fixture(scope="session")
def profiles() -> dict[str, bytes]:
    """Every small profile by name, and the illustrative one."""
    small = {file.stem: file.read_bytes() for file in sorted(DATA.glob("*.icc"))}
    return small | {"illustrative-matte": illustrative_profile()}


@pytest.fixture(scope="session")
def gamut() -> DeviceGamut:
    """The illustrative canvas made ready."""
    return make_device_gamut(parse_profile(illustrative_profile()))
