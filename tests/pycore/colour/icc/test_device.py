"""Which tables serve which intent, and what happens without them."""

import pytest

from pycore.colour.icc.device import from_connection, to_connection
from pycore.colour.icc.profile import parse_profile
from pycore.contract.job import Intent
from pycore.errors import ProfileError


def without(data: bytes, *signatures: bytes) -> bytes:
    """The profile with tags renamed to what no one looks for."""
    for number, signature in enumerate(signatures):
        data = data.replace(signature, b"xx%02d" % number, 1)
    return data


@pytest.mark.parametrize(
    ("intent", "number"),
    [(Intent.PERCEPTUAL, 0), (Intent.RELATIVE, 1), (Intent.SATURATION, 2), (Intent.ABSOLUTE, 1)],
)
def test_each_intent_has_its_table(profiles: dict[str, bytes], intent: Intent, number: int) -> None:
    profile = parse_profile(profiles["cmyk-v2"])
    # published: ICC.1:2022, table 25
    assert to_connection(profile, intent=intent).source == f"A2B{number}"
    assert from_connection(profile, intent=intent).source == f"B2A{number}"


@pytest.mark.parametrize("intent", Intent)
def test_without_it_the_first_table_serves(profiles: dict[str, bytes], intent: Intent) -> None:
    data = without(profiles["cmyk-v2"], b"A2B1", b"A2B2", b"B2A1", b"B2A2")
    assert to_connection(parse_profile(data), intent=intent).source == "A2B0"
    assert from_connection(parse_profile(data), intent=intent).source == "B2A0"


def test_without_tables_the_matrix_serves(profiles: dict[str, bytes]) -> None:
    profile = parse_profile(profiles["matrix-v4"])
    assert to_connection(profile, intent=Intent.PERCEPTUAL).source == "matrix"
    assert from_connection(profile, intent=Intent.PERCEPTUAL).source == "matrix"
    grey = parse_profile(profiles["grey-v2"])
    assert to_connection(grey, intent=Intent.PERCEPTUAL).source == "grey curve"


def test_one_way_profiles_say_so(profiles: dict[str, bytes]) -> None:
    one_way = parse_profile(without(profiles["cmyk-v2"], b"B2A0", b"B2A1", b"B2A2"))
    assert to_connection(one_way, intent=Intent.RELATIVE).source == "A2B1"
    with pytest.raises(ProfileError, match="a table or matrix to the device; it is neither") as caught:
        from_connection(one_way, intent=Intent.RELATIVE)
    assert caught.value.field == "tag B2A0"


def test_a_missing_curve_is_named(profiles: dict[str, bytes]) -> None:
    with pytest.raises(ProfileError) as caught:
        to_connection(parse_profile(without(profiles["matrix-v4"], b"gTRC")), intent=Intent.RELATIVE)
    assert caught.value.field == "tag gTRC"


def test_primaries_in_one_plane_are_refused(profiles: dict[str, bytes]) -> None:
    data = profiles["matrix-v4"]
    profile = parse_profile(data)
    red, green = (bytes(profile.tag(one).data) for one in ("rXYZ", "gXYZ"))
    with pytest.raises(ProfileError, match="three primaries that are not in one plane"):
        to_connection(parse_profile(data.replace(green, red)), intent=Intent.RELATIVE)
