"""The form of the packed tables."""

import pytest

from turfplan.climate.packed_tables import number_bytes, numbers, pack, unpack


def test_a_header_and_a_blob_come_back() -> None:
    """Even where the blob holds line ends."""
    head, blob = unpack(pack({"rows": [[1, 2]], "name": "x"}, b"\x00\n\x01\n"))
    assert (head, blob) == ({"rows": [[1, 2]], "name": "x"}, b"\x00\n\x01\n")
    with pytest.raises(ValueError, match="Expecting"):
        unpack(b"no header\n")


def test_numbers_are_two_bytes_the_low_one_first() -> None:
    """With a sign and without."""
    assert number_bytes("H", [1, 258, 65535]) == b"\x01\x00\x02\x01\xff\xff"
    assert numbers("H", b"\x01\x00\x02\x01\xff\xff").tolist() == [1, 258, 65535]
    assert numbers("h", b"\xfe\xff\x02\x00").tolist() == [-2, 2]
    assert number_bytes("h", [-2, 2]) == b"\xfe\xff\x02\x00"
