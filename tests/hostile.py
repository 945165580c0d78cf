"""Texts that would do harm where a program pastes instead of quoting, and books that carry them in every field.

A word on each says what it is after. `MARK` is a file that some of them would make if they ran.
"""

from __future__ import annotations

import json
import os
import re
import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

MARK = Path(tempfile.gettempdir()) / f"ran-{os.getpid()}"

ACCEPTED = {
    "a double quote": 'He said "one" and "two',
    "a quote at each end": '"quoted"',
    "only a quote": '"',
    "a backslash": r"back\slash",
    "a backslash at the end": "the end \\",
    "a backslash before a quote": r'a \" b \\" c',
    "a command": r"\markup \bold loud \column { one two }",
    "an include": r'\include "/etc/passwd"',
    "an include that closes its string": '" \\include "secrets.ily',
    "Scheme": f'#(system "touch {MARK}")',
    "Scheme in a closed string": f'" #(system "touch {MARK}") "',
    "Scheme after an escaped quote": f'\\" #(system "touch {MARK}")',
    "Scheme that opens a file": f'#(open-output-file "{MARK}")',
    "Scheme with a dollar": f'$(system "touch {MARK}")',
    "Scheme in a list": f'") (system "touch {MARK}") ("',
    "unquoted Scheme": f',(system "touch {MARK}") ,@(list 1)',
    "a read-time evaluation": f'#.(system "touch {MARK}")',
    "a variable": "#page-width $page-width ##t #'x",
    "a block comment": "%{ all of it %} and after",
    "an open block comment": "%{ never closed",
    "a line comment": "half % of it",
    "a Scheme block comment": "#! all !# of ; it #| and |# more",
    "a Scheme datum comment": "#; (one) two",
    "braces": "} { } {{ }} }} <<",
    "angle brackets": "<< c4 >> < e g >",
    "parentheses": "))) ((( )( #)",
    "a ratio": "3:2 4/4 |: :| 1.",
    "a template's place": "« page.width » «% include 'x' %» «# no #»",
    "another template's place": "{{ 7 * 7 }} {% raw %} {# no #}",
    "a format place": "{0} {n} {} %s %(name)s ${HOME}",
    "a tilde": "~root ~ a~b",
    "a shell": f"; touch {MARK} & `touch {MARK}` $(touch {MARK}) | cat",
    "HTML": "<b>bold</b> &amp; &#65; <script>",
    "Markdown": "*one* **two** _three_ [four](five) `six` # seven",
    "numbers": "007 1e9 0x41 -0 +1 NaN",
    "YAML": "- a: [b, {c: d}] # e !f &g *h",
    "yes and no": "yes",
    "nothing much": "null",
    "a number alone": "12",
    "PDF": "(a) Tj ET endstream endobj %%EOF /Name <41>",
    "a page label": "roman iv 1-1",
    "accents": "Füße, crème brûlée, naïve, Ångström, Łódź",
    "combining marks": "Cafe\u0301 a\u030a n\u0303 o\u0328\u0301",
    "many combining marks": "z\u0301\u0302\u0303\u0304\u0305",
    "ligatures": "office fluff waffle ffi",
    "right to left": "שלום עולם",
    "right to left between": "before שלום after 12",
    "Cyrillic and Greek": "Барабан Τύμπανο",
    "dashes and quotes": "– — ‘a’ “b” … • § © ®",
    "a no-break space": "a\u00a0b\u202fc\u2009d",
    "a soft hyphen": "hy\u00adphen",
    "joiners": "a\u200db\u200cc",
    "tabs and lines": "one\ttwo\nthree",
    "a long word": "n" * 120,
    "an environment": "$ENGRAVER_LILYPOND %PATH% ~/.profile",
    "a path": "../../../etc/passwd C:\\Windows\\nul",
    "an address": "engraver:anchor/chapter%3Aone engraver:link/x",
}

REFUSED = {
    "a NUL": "a\x00b",
    "an escape": "a\x1b[31mred",
    "a bell": "a\x07b",
    "a delete": "a\x7fb",
    "a C1 control": "a\x85b\x9bc",
    "a form feed": "a\x0cb",
    "half a pair": "a\ud800b",
    "the other half": "a\udfffb",
    "an override": "abc\u202edcba",
    "an embedding": "a\u202bb\u202c",
    "an isolate": "a\u2067b\u2069",
    "a mark of direction": "a\u200fb",
    "a private character": "a\ue000b",
    "no character at all": "a\U000e0fffb",
    "a word of ten thousand letters": "n" * 10_000,
    "a word of 121 letters": "n" * 121,
    "words without end": "word " * 5_000,
    "nothing": "",
    "white space": " \t\n ",
}

Fill = Callable[[str, int], str]  # a field and its longest text, to what stands in it
LONGEST = 1000  # of a text of several words; the definition allows more in some fields


def escaped(text: str) -> str:
    """The same text for CommonMark. Source: CommonMark 0.31.2, 2.4: a backslash before ASCII punctuation is literal."""
    return re.sub(r"([!-/:-@\[-`{-~])", r"\\\1", text.strip())


def as_yaml(value: Any) -> str:
    """JSON is YAML, but for a half pair, which no file can hold and only an escape can write."""
    return re.sub("[\ud800-\udfff]", lambda half: f"\\u{ord(half[0]):04x}", json.dumps(value, ensure_ascii=False))


def write_book(folder: Path, fill: Fill, names: tuple[str, str] = ("one", "two")) -> None:
    """A book of two grooves, with a text from ``fill`` in every field of an author that reaches a page.

    The first has the exercises that the program makes, which name its layers, the second the author's own.
    """
    (folder / "grooves").mkdir(parents=True)
    (folder / "book.yaml").write_text(as_yaml(_book(fill, names)), "utf-8")
    (folder / "style.yaml").write_text(as_yaml({"kit": {fill("instrument", 60): _gong(fill)}}), "utf-8")
    grooves = _groove(fill, "first") | _layers(fill), _groove(fill, "second") | _exercises(fill)
    for name, groove in zip(names, grooves, strict=True):
        (folder / "grooves" / f"{name}.yaml").write_text(as_yaml(groove), "utf-8")


def _gong(fill: Fill) -> dict[str, Any]:
    return {"position": 10, "limbs": "hands", "key": 58, "head": "circle x", "label": fill("label", 60)}


def _book(fill: Fill, names: tuple[str, str]) -> dict[str, Any]:
    lines = {
        line: fill(f"book {line}", 200) for line in ("title", "subtitle", "label", "author", "publisher", "edition")
    }
    parts = [{"title": fill(f"part {n}", 200), "chapters": [name]} for n, name in enumerate(names, start=1)]
    return {**lines, "rights": fill("book rights", 400), "date": "2026-01-31", "parts": parts}


def _groove(fill: Fill, which: str) -> dict[str, Any]:
    def prose(field: str) -> str:
        return escaped(fill(f"{which} {field}", LONGEST))

    lines = {line: fill(f"{which} {line}", 200) for line in ("title", "subtitle", "origin")}
    names = [fill(f"{which} section {n}", 80) for n in (1, 2)]
    return lines | {
        "text": "\n\n".join(prose(f"text {n}") for n in range(1, 9)),
        "tempo": 90,
        "bars": 3,
        "step": "eighth",
        "layers": [{"name": "Cycle", "role": "figure", "strokes": {"bass drum": {"cycle": "x--"}}}],
        "cells": {"length": 3},
        "sections": [{"name": name, "bars": bars} for name, bars in zip(names, ("1", "2-3"), strict=True)],
        "listen": [{"title": fill(f"{which} card {n}", 80), "text": prose(f"card text {n}")} for n in (1, 2, 3)],
        "questions": [{"question": prose(f"question {n}"), "answer": prose(f"answer {n}")} for n in (1, 2)],
    }


def _layers(fill: Fill) -> dict[str, Any]:
    """The own instrument changes one cell, so that its name stands in the cell key."""
    cycle, meter, ghost = ({"name": fill(f"layer {n}", 80)} for n in (1, 2, 3))
    cycle |= {"role": "figure", "strokes": {"bass drum": {"cycle": "x--"}}}
    meter |= {"role": "meter", "strokes": {"snare": "--X---X-"}}
    ghost |= {"role": "figure", "strokes": {fill("instrument", 60): {"bar 1": "-x------"}}}
    last = {
        "name": "Last",
        "strokes": {"crash": {"bar 1": "X-------"}},
    }  # all four are the whole groove, not "Add: ..."
    return {"layers": [cycle, meter, ghost, last]}


def _exercises(fill: Fill) -> dict[str, Any]:
    numbers = range(1, 5)
    return {
        "exercises": [
            {"title": fill(f"exercise {n}", 200), "text": escaped(fill(f"exercise text {n}", LONGEST))} for n in numbers
        ]
    }
