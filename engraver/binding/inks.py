"""Inks: the colours of a book as the greys, or the black and greys, that one printing ink can show.

In: the operators of a page. Out: the same with every colour in DeviceGray. A colour becomes the grey of the same
relative luminance, so that the contrast between any two tones, as WCAG 2.2 defines it, stays what the design made it.
Sources: WCAG 2.2, relative luminance and contrast ratio; IEC 61966-2-1 (the sRGB curve); ISO 32000-1, 8.6.8.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import cache

Tone = Callable[[float], float]  # a grey, 0 black and 1 white, to the grey that is printed

# a string is taken whole, since it could read like a colour; the engraver escapes parentheses inside
_STRING_OR_COLOUR = re.compile(rb"\((?:[^()\\]|\\.)*\)|(?<![\w.])([\d.]+)\s+([\d.]+)\s+([\d.]+)\s+(rg|RG)(?!\w)", re.S)
_DARK = 0.5  # between the darkest fill that a dark letter stands on and the lightest that a white one does


def grey(tone: float) -> float:
    """One ink in all its tones."""
    return tone


def black(tone: float) -> float:
    """Dark tones solid, so that text and notes are printed without a screen; light ones as they are."""
    return 0.0 if tone < _DARK else tone


def turned_to(drawn: bytes, tone: Tone) -> bytes:
    """The operators of a content stream, each colour of them turned."""

    def turn(found: re.Match[bytes]) -> bytes:
        if found[4] is None:
            return found[0]
        printed = round(tone(lightness(*(float(found[n]) for n in (1, 2, 3)))), 4)
        return b"%g %b" % (printed, b"g" if found[4] == b"rg" else b"G")

    return _STRING_OR_COLOUR.sub(turn, drawn)


@cache
def lightness(red: float, green: float, blue: float) -> float:
    """The sRGB grey of the same relative luminance; all from 0 to 1."""
    return _curved(0.2126 * _linear(red) + 0.7152 * _linear(green) + 0.0722 * _linear(blue))


def _linear(value: float) -> float:
    return value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4


def _curved(light: float) -> float:
    return light * 12.92 if light <= 0.0031308 else 1.055 * light ** (1 / 2.4) - 0.055
