"""How long in a day the ears bear a sound level, by a published formula; for the page of cautions."""

from __future__ import annotations

from engraver.style import Words

LEVELS = (85, 88, 91, 94, 97, 100)  # dB(A)


def allowed_minutes(level: int) -> float:
    """Minutes in a day at a sound level in dB(A).

    Source: NIOSH, Criteria for a recommended standard: occupational noise exposure (publication 98-126), 1998: 85 dB(A)
    for 480 minutes, an exchange rate of 3 dB; T = 480 / 2 ** ((L - 85) / 3).
    """
    return float(480 / 2 ** ((level - 85) / 3))


def doses(say: Words) -> tuple[tuple[int, float, str], ...]:
    """Level, minutes, and the minutes in words."""
    return tuple((level, allowed_minutes(level), _duration(allowed_minutes(level), say)) for level in LEVELS)


def _duration(minutes: float, say: Words) -> str:
    return say("hours", n=round(minutes / 60)) if minutes >= 60 else say("minutes", n=round(minutes))
