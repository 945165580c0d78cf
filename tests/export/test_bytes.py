"""The files byte by byte against the published format."""

from __future__ import annotations

import csv
from io import BytesIO
from pathlib import Path

import mido
import pytest

from engraver.export import midi_file
from engraver.export.tracks import track
from engraver.style import Style
from tests.export.conftest import lanes, piece
from tests.export.standard_midi import Happening, chunks, happenings, quantity

SOURCES = Path(__file__).parents[1] / "sources"


def table(name: str) -> list[dict[str, str]]:
    return list(
        csv.DictReader(line for line in (SOURCES / name).read_text("utf-8").splitlines() if not line.startswith("#"))
    )


LENGTHS = table("midi_variable_length.csv")
EVENTS = {row["meaning"]: bytes.fromhex(row["bytes"]) for row in table("midi_events.csv")}


def written(text: str, number: int = 0) -> bytes:
    return midi_file(piece(text, number), Style())


def test_one_stroke_is_this_file() -> None:
    """Put together by hand from the format; the choice of texts, 480 ticks and velocities is ours."""
    expected = f"""
    4D546864 00000006 0001 0003 01E0                  MThd, six bytes, format 1, three tracks, 480 ticks a quarter
    4D54726B 00000042                                 7 + 17 + 7 + 8 + 12 + 10 + 5 bytes
    00 FF 03 03 {b"Tap".hex()}                        track name
    00 FF 01 0D {b"quarter = 120".hex()}              text
    00 FF 51 03 07A120                                500,000 microseconds a quarter
    00 FF 58 04 01 02 18 08                           1/4, a click every 24 clocks, 8 thirty-seconds a quarter
    00 FF 06 08 {b"count-in".hex()}                   marker
    83 60 FF 06 05 {b"bar 1".hex()}                   480 ticks later
    83 60 FF 2F 00
    4D54726B 00000015                                 7 + 5 + 5 + 4 bytes
    00 FF 03 03 {b"Tap".hex()}
    83 60 99 26 50                                    channel 10, key 38 Acoustic Snare, velocity 80
    83 60 89 26 40
    00 FF 2F 00
    4D54726B 00000016                                 9 + 4 + 4 + 5 bytes
    00 FF 03 05 {b"Click".hex()}
    00 99 4C 64                                       key 76 Hi Wood Block
    1E 89 4C 40
    87 22 FF 2F 00
    """
    bare = "".join(line.split("  ")[0] for line in (row.strip() for row in expected.splitlines()))
    made = written("title: Tap\ntempo: 120\nmeter: 1/4\nstep: quarter\n" + lanes(snare="x"))
    assert made.hex(" ") == bytes.fromhex(bare).hex(" ")


@pytest.mark.parametrize("row", LENGTHS, ids=[row["number"] for row in LENGTHS])
def test_times_are_variable_length_quantities(row: dict[str, str]) -> None:
    number, content = int(row["number"], 16), bytes.fromhex(row["bytes"])
    assert quantity(content) == (number, len(content))  # the tests' own reader
    out = BytesIO()
    mido.MidiFile(type=1, tracks=[track("", [], number)]).save(file=out)
    (_, (_, silence)) = chunks(out.getvalue())
    assert silence == b"\0" + EVENTS["track name begins"] + b"\0" + content + EVENTS["end of track"]


@pytest.mark.parametrize("meter", ["4/4", "6/8"])
def test_time_signatures_are_the_published_bytes(meter: str) -> None:
    content = written(f"meter: {meter}\nstep: eighth\n" + lanes(snare="x-x-x-x-" if meter == "4/4" else "x-x-x-"))
    assert content.count(EVENTS[f"time signature {meter}"]) == 1
    assert content.count(EVENTS["time signature 4/4"][:2]) == 1


def test_120_quarters_a_minute_are_the_published_bytes() -> None:
    assert written(lanes(snare="x-x-x-x-x-x-x-x-")).count(EVENTS["tempo of 120 quarters a minute"]) == 1


def test_every_track_is_named_and_ends_once_where_the_music_does() -> None:
    header, *tracks = chunks(written("bars: 2\n" + lanes(snare="x-x-x-x-x-x-x-x-", bass_drum="x---x---x---x---")))
    assert header == (b"MThd", bytes.fromhex("0001 0003 01E0"))
    ends = []
    for letters, content in tracks:
        found = list(happenings(content))
        assert letters == b"MTrk"
        assert content[1:].startswith(EVENTS["track name begins"])
        assert content.endswith(EVENTS["end of track"])
        assert [one.kind for one in found].count(0x2F) == 1
        ends.append(found[-1].tick)
    assert ends == [3 * 4 * 480] * 3  # a bar of count-in and two bars


def test_the_drums_are_on_channel_10_and_no_other_channel_is_used() -> None:
    """Source: General MIDI Level 1: percussion on channel 10, the byte value 9."""
    played = chunks(written(lanes(snare="x-d-x-f-z-=-x-r-")))[2:]
    assert played
    for _, content in played:
        assert {one.status for one in happenings(content) if one.status != 0xFF} == {0x99, 0x89}


def test_no_title_can_break_a_file() -> None:
    title = "Grüne Stufen — 梯 " + "x" * 90
    content = written(f'title: "{title}"\ntempo: 90\n' + lanes(snare="x---x---x---x---"))
    names = [one for _, track in chunks(content)[1:] for one in happenings(track) if one.kind == 0x03]
    assert names == [Happening(0, 0xFF, 0x03, name.encode()) for name in (title, title, "Click")]
