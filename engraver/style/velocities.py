"""How hard each kind of stroke is struck in a MIDI file: note-on velocities from 1 (softest) to 127."""

from __future__ import annotations

from dataclasses import dataclass

from engraver.rhythm import Touch


@dataclass(frozen=True, slots=True)
class Velocities:
    """The table. MIDI only says that a larger number is harder and that 0 is no stroke: the numbers are ours.

    ``grace`` is a grace stroke of a flam, drag or ruff, ``bounce`` a further stroke of a buzz, ``downbeat`` and
    ``beat`` are the click on the first beat of a bar and elsewhere.
    """

    ghost: int = 32
    plain: int = 80
    accent: int = 112
    grace: int = 48
    bounce: int = 40
    downbeat: int = 100
    beat: int = 72

    def of(self, touch: Touch) -> int:
        return {Touch.GHOST: self.ghost, Touch.PLAIN: self.plain, Touch.ACCENT: self.accent}[touch]


VELOCITIES = Velocities()
