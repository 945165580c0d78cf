"""A reader of Standard MIDI Files of our own, from the published format alone, so that the writer is not its witness.

Source: Standard MIDI Files 1.0: a chunk is four letters and a length of four bytes; a track is pairs of a
variable-length quantity and an event; a status byte that is left out is that of the event before.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass


@dataclass(frozen=True)
class Happening:
    """``status`` FF: a meta event, of which ``kind`` is the second byte; else a channel message."""

    tick: int
    status: int
    kind: int
    content: bytes


def chunks(content: bytes) -> list[tuple[bytes, bytes]]:
    found = []
    while content:
        length = int.from_bytes(content[4:8], "big")
        assert len(content) >= 8 + length
        found.append((content[:4], content[8 : 8 + length]))
        content = content[8 + length :]
    return found


def quantity(content: bytes, place: int = 0) -> tuple[int, int]:
    """A variable-length quantity, and the place after it."""
    number = 0
    while True:
        number = number << 7 | content[place] & 0x7F
        place += 1
        if content[place - 1] < 0x80:
            return number, place


def happenings(track: bytes) -> Iterator[Happening]:
    place = tick = status = 0
    while place < len(track):
        later, place = quantity(track, place)
        tick += later
        if track[place] == 0xFF:
            length, begin = quantity(track, place + 2)
            yield Happening(tick, 0xFF, track[place + 1], track[begin : begin + length])
            place, status = begin + length, 0
        else:
            if track[place] >= 0x80:
                status, place = track[place], place + 1
            assert 0x80 <= status < 0xC0, "only messages of two bytes are expected"
            yield Happening(tick, status, 0, track[place : place + 2])
            place += 2
