"""Grooves for tests from pattern lines: the marks an author writes, without the YAML around them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from engraver.rhythm import (
    Bar,
    Cycle,
    Groove,
    Instrument,
    Layer,
    Meter,
    Ornament,
    Role,
    Silence,
    Span,
    Stroke,
    Tempo,
    Touch,
)

SIXTEENTH = Fraction(1, 16)
ORNAMENTS = {"f": Ornament.FLAM, "d": Ornament.DRAG, "r": Ornament.RUFF, "z": Ornament.BUZZ, "=": Ornament.DOUBLE}


def strokes(name: str, line: str, step: Fraction = SIXTEENTH, start: int = 0) -> tuple[Stroke, ...]:
    marks = line.replace(" ", "").replace("|", "")
    return tuple(_stroke(name, m, (start + i) * step, step) for i, m in enumerate(marks) if m != "-")


def _stroke(name: str, mark: str, onset: Fraction, step: Fraction) -> Stroke:
    touch = Touch.GHOST if mark == "g" else Touch.ACCENT if mark.isupper() else Touch.PLAIN
    return Stroke(onset, Instrument(name), touch, ORNAMENTS.get(mark.lower()), step)


def layer(
    name: str,
    lines: Mapping[str, str],
    *,
    role: Role | None = None,
    step: Fraction = SIXTEENTH,
    start: int = 0,
    silences: Sequence[tuple[int, int, str]] = (),
) -> Layer:
    """A layer whose lines are written out from step ``start``; silences are (first step, end step, instruments)."""
    return Layer(
        name,
        tuple(stroke for lane, line in lines.items() for stroke in strokes(lane, line, step, start)),
        role,
        tuple(
            Silence(Span(a * step, b * step), frozenset(Instrument(each) for each in names.split(", ")))
            for a, b, names in silences
        ),
    )


def cycle_layer(
    name: str, lines: Mapping[str, str], steps: int, *, restart: int | None = None, step: Fraction = SIXTEENTH
) -> Layer:
    """A layer of written cycles, cut off after ``steps`` and at every restart."""
    written = {
        lane: "".join(line[(i % (restart or steps)) % len(line)] for i in range(steps)) for lane, line in lines.items()
    }
    cycles = tuple(
        Cycle(Instrument(lane), len(line) * step, restart=restart * step if restart else None)
        for lane, line in lines.items()
    )
    return Layer(name, layer(name, written, step=step).strokes, cycles=cycles)


def groove(
    layers: Sequence[Layer],
    *,
    bars: int = 1,
    meter: str = "4/4",
    step: Fraction = SIXTEENTH,
    phrase: Fraction | None = None,
    tempo: int = 100,
) -> Groove:
    measure = Meter.parse(meter)
    return Groove(
        title="Test",
        bars=tuple(Bar.of(index * measure.length, measure) for index in range(bars)),
        layers=tuple(layers),
        step=step,
        tempo=Tempo(measure.beat or Fraction(1, 4), tempo),
        phrase=phrase or bars * measure.length,
    )
