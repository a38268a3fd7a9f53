import zlib

import pytest

from shoptui.store.frames import DamagedFrameError, frame, split

RECORDS = [b'{"changes":[["bins",1,{"code":"A1"}]]}', b'{"changes":[]}', b'{"a":"\\u2603"}']
WHOLE = b"".join(map(frame, RECORDS))


def test_crc_is_the_published_one():
    # Check value of CRC-32/ISO-HDLC for "123456789", the usual one in catalogues of CRCs (from memory).
    assert zlib.crc32(b"123456789") == 0xCBF43926
    assert frame(b"{}") == b"00000002 %08x {}\n" % zlib.crc32(b"{}")


def test_whole_records_come_back():
    assert split(WHOLE).payloads == tuple(RECORDS)
    assert split(WHOLE).length == len(WHOLE)
    assert split(b"").payloads == ()


@pytest.mark.parametrize("cut", range(len(WHOLE)))
def test_a_tail_torn_at_any_byte_is_left_out(cut):
    found = split(WHOLE[:cut])
    whole = WHOLE[:cut].count(b"\n")
    assert found.payloads == tuple(RECORDS[:whole])
    assert found.length == len(b"".join(map(frame, RECORDS[:whole])))


@pytest.mark.parametrize("position", range(len(WHOLE)))
def test_a_changed_byte_anywhere_is_damage_not_a_torn_tail(position):
    changed = bytes([WHOLE[position] ^ 0x41])
    with pytest.raises(DamagedFrameError) as damage:
        split(WHOLE[:position] + changed + WHOLE[position + 1 :])
    assert damage.value.offset <= position


@pytest.mark.parametrize("position", range(len(frame(RECORDS[0]))))
def test_zeros_before_whole_records_are_damage(position):
    with pytest.raises(DamagedFrameError, match="whole ones follow"):
        split(WHOLE[:position] + b"\0" + WHOLE[position + 1 :])


@pytest.mark.parametrize("cut", [0, 5, 18, 30])
def test_zeros_at_the_end_are_what_lost_power_leaves(cut):
    last = len(frame(RECORDS[0]) + frame(RECORDS[1]))
    found = split(WHOLE[: last + cut] + bytes(4096))
    assert found.payloads == tuple(RECORDS[:2])
    assert found.length == last


def test_a_missing_beginning_is_damage():
    with pytest.raises(DamagedFrameError):
        split(WHOLE[7:])


def test_line_ends_of_another_system_are_damage():
    with pytest.raises(DamagedFrameError):
        split(WHOLE.replace(b"\n", b"\r\n"))
