"""Two copies of one profile are the same profile; two profiles are not."""

import struct

from pycore.colour.icc.profile import parse_profile
from pycore.colour.icc.same_profile import is_same_profile


def test_a_copy_saved_at_another_time(profiles: dict[str, bytes]) -> None:
    for data in profiles.values():
        later = bytearray(data)
        later[24:36] = struct.pack(">6H", 2033, 2, 1, 3, 4, 5)
        later[40:44], later[80:84], later[84:100] = b"MSFT", b"made", bytes(range(16))
        assert is_same_profile(parse_profile(data), parse_profile(bytes(later)))


def test_tags_in_another_place(profiles: dict[str, bytes]) -> None:
    """All tags moved down by sixteen bytes of padding."""
    data = profiles["grey-v2"]
    count = struct.unpack(">I", data[128:132])[0]
    begin = 132 + 12 * count
    table = b""
    for index in range(count):
        name, offset, size = struct.unpack(">4sII", data[132 + 12 * index : 144 + 12 * index])
        table += struct.pack(">4sII", name, offset + 16, size)
    moved = struct.pack(">I", len(data) + 16) + data[4:132] + table + bytes(16) + data[begin:]
    assert is_same_profile(parse_profile(data), parse_profile(moved))


def test_a_copy_with_other_words(profiles: dict[str, bytes]) -> None:
    """Another name or copyright is no other colour; a profile without them is the same, too."""
    for data in profiles.values():
        renamed, nameless = bytearray(data), bytearray(data)
        for index in range(struct.unpack(">I", data[128:132])[0]):
            entry = 132 + 12 * index
            name, offset, size = struct.unpack(">4sII", data[entry : entry + 12])
            if name in (b"desc", b"cprt"):
                # Behind the type and the counts; texts have no sums that would not fit any more.
                renamed[offset + 12 : offset + size] = bytes(
                    one ^ 1 if chr(one).isalnum() else one for one in data[offset + 12 : offset + size]
                )
                nameless[entry : entry + 4] = b"dmdd" if name == b"desc" else b"dmnd"
        assert bytes(renamed) != data
        tags = [parse_profile(bytes(one)) for one in (data, renamed, nameless)]
        assert is_same_profile(tags[0], tags[1])
        assert is_same_profile(tags[2], tags[0])


def test_another_value_or_another_device(profiles: dict[str, bytes]) -> None:
    data = profiles["illustrative-matte"]
    changed = data[:-3000] + bytes([data[-3000] ^ 1]) + data[-2999:]
    assert not is_same_profile(parse_profile(data), parse_profile(changed))
    kind = data[:12] + b"mntr" + data[16:]
    assert not is_same_profile(parse_profile(data), parse_profile(kind))
    names = list(profiles)
    for one in names:
        for other in names:
            same = is_same_profile(parse_profile(profiles[one]), parse_profile(profiles[other]))
            assert same is (one == other)
