"""Crowded staves: everything that can stand on or over a note, as close as a groove may bring it."""

from __future__ import annotations

from fractions import Fraction

from engraver.chapters import Ribbon
from engraver.lilypond.rows import Row
from tests.engraved.sheets import Case, groove

THREES = (*(Ribbon("AB"[n % 2], Fraction(3, 16)) for n in range(10)), Ribbon("A", Fraction(2, 16), cut=True))
PARTS = """sections:
  - {name: First part, bars: 1-2}
  - {name: B, bars: 3-4}
  - {name: A long name of a last part, bars: 5-6}
repeats:
  - {bars: 1-2, times: 4}
  - {bars: 3-6, times: 3, endings: [5, 6]}
"""
FIRST = "sections:\n  - {name: First part, bars: 1-2}\n"
SWAY = "tempo: {beat: dotted quarter, bpm: 60}\n"

CROWDED = (
    Case(
        "accents over beams",
        groove("hi-hat: Xxxx XxxX xXxX XxxX", "snare: ---- X--- g-g- X-gg", "bass drum: X-x- X-xx --x- Xx--"),
    ),
    Case(
        "open and accented",
        groove(
            "open hi-hat: X--- x--- X--- x---",
            "hi-hat: --x- --X- --x- --x-",
            "snare: ---- X--- ---- X---",
            "hi-hat splash: x--- x--- x--- x---",
        ),
    ),
    Case(
        "high cymbals",
        groove(
            "splash: X--- --x- X--- x---",
            "china: --X- x--- --x- --X-",
            "second crash: -X-- -x-- ---- -x--",
            "foot hi-hat: x--- x--- x--- x---",
        ),
    ),
    Case("buzz and doubles", groove("snare: z-x= =x=x z--- =-=-", "bass drum: x--- x--- x--- x---")),
    Case(
        "buzzes of every length",
        groove(
            "snare: {bar 1: 'z-z-ZzZz', bar 2: 'zzzz---z'}",
            "hi-hat: {bar 1: '--x---x-', bar 2: '--------'}",
            "bass drum: x-x-x-x-",
            step="eighth",
            bars=2,
        ),
    ),
    Case(
        "rolls under other hands",
        groove(
            "hi-hat: x-x- x-x- x-x- x-x-",
            "crash: ---- ---x ---- ---x",
            "snare: z--- ==-= Z-x- --==",
            "high tom: --z- ---- --=- ----",
        ),
    ),
    Case("doubles", groove("snare: =x-= x=-=", "ride: x--- x--x", step="eighth")),
    Case(
        "ghosts with flags",
        groove("snare: g--- --g- -g-- ---g", "floor tom: ---g ---- ---g ----", "bass drum: --x- x--x ---- x---"),
    ),
    Case(
        "dots with flags",
        groove(
            "snare: {bar 1: '-x-- -X-- -x-- ----', bar 2: '---- -x-- ---- -g--'}",
            "high tom: {bar 1: '---- ---- -x-- ----', bar 2: '-x-- ---- ---- ----'}",
            "ride: {bar 1: '---- ---- ---- -x--', bar 2: '---- ---- -x-- ----'}",
            "crash: {bar 2: '---- -X-- ---- ----'}",
            "bass drum: {bar 1: '---- ---- ---- x---', bar 2: '-x-- ---- -x-- ----'}",
            bars=2,
        ),
    ),
    Case(
        "rests under three beams",
        groove(
            "hi-hat: {step: eighth, pattern: 'xx'}",
            "bass drum: {bar 1: '---x--x-', bar 2: 'x--x----'}",
            step="thirty-second",
            meter="1/4",
            bars=2,
        ),
    ),
    Case("dots with two flags", groove("snare: -x-- -x-x", "ride: ---- x---", step="thirty-second", meter="1/4")),
    Case(
        "ghosts side by side",
        groove(
            "snare: {bar 1: '-gg- X--- -gg- X--g', bar 2: 'ggg- X--- ---- X-gg', bars 3-4: '-ggg Xggg gggg Xggg'}",
            "floor tom: {bar 2: '---- ---- gg-- ----'}",
            "hi-hat: {bars 1-2: 'x-x- x-x- x-x- x-x-'}",
            bars=4,
        ),
    ),
    Case("ghosts side by side, few on a line", groove("snare: {bars 1-4: 'ggg- --gg X-gg ---g'}", bars=4)),
    Case("ghosts in quick steps", groove("snare: gggggggg Xggggggg", meter="2/4", step="thirty-second")),
    Case(
        "ornaments",
        groove("snare: F-x- D-x- r-x- f-f-", "high tom: ---- f--- ---d ----", "bass drum: x--- x--- x--- x---"),
    ),
    Case("flags on ledger lines", groove("second crash: --x- ---x --X- ----", "bass drum: x--- x--- x--- x---")),
    Case("chokes", groove("crash: C--- c--- C-c- C--C", "bass drum: x--- x--- x-x- x--x")),
    Case(
        "triplets",
        groove(
            "ride: X-x X-x x-X -xx XxX xX- x-x X-x",
            "snare: -g- X-g --g X-- -g- Xg- --g X-g",
            "bass drum: x-- --x x-x --x x-x --x xx- --x",
            "foot hi-hat: --- x-- --- x-- --- x-- --- x--",
            step="eighth triplet",
            bars=2,
        ),
    ),
    Case(
        "odd tuplets",
        groove("snare: (XxxXx)4 (xxxxxxx)4 (xxx)2 (xxx)2 (x-xX-x)4", "bass drum: (xxx)8 (x-x-x)4 (xxx)2 x-"),
    ),
    Case(
        "low toms over feet",
        groove(
            "floor tom: X-x- x-x- X-x- x-x-",
            "low floor tom: -x-x -x-x -g-g -x-x",
            "bass drum: x-x- x-x- x-x- x-x-",
            "left bass drum: -x-x ---x -x-x -x-x",
        ),
    ),
    Case(
        "low toms over rests of the feet",
        groove(
            "low floor tom: x-x- X-xx x--- X---", "floor tom: -x-- -g-- ---- ----", "bass drum: --x- ---- --x- ----"
        ),
    ),
    Case(
        "flags of the feet over words",
        groove(
            "ride: x-x-x- x-x-x- x-x-x-",
            "foot hi-hat: ------ x----- ------",
            "bass drum: {cycle: 'x---'}",
            meter="9/8",
            more=SWAY,
        ),
        rows=(Row.of("", {Fraction(place, 8): str(place + 1) for place in range(9)}, Fraction(9, 8)),),
    ),
    Case(
        "thirty-seconds",
        groove(
            "snare: Xxxx xxxx Xxxx x-x- X-x- Xxxx X--- x---",
            "bass drum: x--- ---- x--- ---x x--- ---- x-x- ----",
            step="thirty-second",
        ),
    ),
    Case(
        "sections and repeats",
        groove(
            "splash: X-x-X-x-",
            "hi-hat: -x-x-x-x",
            "snare: --X---X-",
            "bass drum: x---x---",
            step="eighth",
            bars=6,
            more=PARTS,
        ),
    ),
    Case(
        "cells over accents",
        groove(
            "splash: X--X --X- -X-- X--X --X- -X-- X--X --X-",
            "snare: -g-- g--g --g- -g-- g--g --g- -g-- g--g",
            "bass drum: {cycle: 'x--'}",
            bars=2,
            more=FIRST,
        ),
        ribbons=THREES,
    ),
    Case(
        "cells over feet alone",
        groove("bass drum: {cycle: 'x--'}"),
        ribbons=(*(Ribbon("A", Fraction(3, 16)) for _ in range(5)), Ribbon("", Fraction(1, 16))),
        repeats=4,
    ),
    Case(
        "compound",
        groove(
            "ride: X-x-x- x-xxx- X-x-x- x-x-xx",
            "snare: ------ X----- -g--g- X-----",
            "bass drum: x----x ------ x-x--- ----x-",
            meter="12/8",
            more=SWAY,
        ),
    ),
    Case(
        "signs at one place",
        groove(
            "rim shot: X--- ---- x--- ----",
            "cross-stick: ---- x--- ---- x---",
            "ride bell: x-x- x-x- X-x- x-x-",
            "half-open hi-hat: -X-x ---- -X-x ----",
            "high tom: ---x ---- ---- x---",
        ),
    ),
    Case(
        "a pickup",
        groove(
            "ride: {pickup: 'Xx', bars 1-3: 'X-xxx-'}",
            "bass drum: {bars 1-3: 'x---x-'}",
            meter="3/4",
            step="eighth",
            bars=3,
            more="pickup: 2\n",
        ),
    ),
)
