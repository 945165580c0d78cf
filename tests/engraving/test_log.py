"""Logs that LilyPond wrote, 2.24.3 unless said, and what they come to.

The form of messages and what each kind means: LilyPond 2.24, Application Usage, 1.3 Error messages. The first case is
the example given there.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from engraver.engraving.log import parse

CASES = {
    "the manual's example": (
        "source.ly:2:19: error: not a duration: 5\n  { c'4 e'\n           5 g' }\n",
        ["2:19: error: not a duration: 5"],
    ),
    "two on end": (
        "source.ly:2:10: warning: barcheck failed at: 1/2\n{ c'4 d' \n         | e' f' }\n"
        "source.ly:9:17: warning: barcheck failed at: 1/4\n{ \\time 3/4 c'1 \n                | c'1 }\n",
        ["2:10: warning: barcheck failed at: 1/2", "9:17: warning: barcheck failed at: 1/4"],
    ),
    "an echo at the first column": (
        "source.ly:4:1: error: unknown escaped string: `\\foo'\n\n\\foo\n",
        ["4:1: error: unknown escaped string: `\\foo'"],
    ),
    "text after the echo": (
        'source.ly:5:2: error: Guile signaled an error for the expression beginning here\n#\n (error "boo\nboo\nhoo\n',
        ["5:2: error: Guile signaled an error for the expression beginning here boo hoo"],
    ),
    "text before the echo": (
        "source.ly:10:10: error: cannot find file: `no.ily'\n(search path: `/somewhere/ly:/somewhere/ps')\n"
        '\\include \n         "no.ily"\n',
        ["10:10: error: cannot find file: `no.ily'"],
    ),
    "a line and no column": (
        "source.ly:1: warning: no \\version statement found, please add\n\n"
        '\\version "2.24.3"\n\nfor future compatibility\n',
        ['1: warning: no \\version statement found, please add \\version "2.24.3" for future compatibility'],
    ),
    "no place": ("warning: unknown clef type `foo'\n", ["warning: unknown clef type `foo'"]),
    "a fault of LilyPond's own": (
        "programming error: mis-predicted force\ncontinuing, cross fingers\n",
        ["warning: mis-predicted force"],
    ),
    "the last word": ("fatal error: an error 3\n", ["error: an error 3"]),
    "a summary of what was said": (
        'error: program too old: 2.24.3 (file requires: 9.24.0)\nfatal error: failed files: "source.ly"\n',
        ["error: program too old: 2.24.3 (file requires: 9.24.0)"],
    ),
    "another file": (
        "/kit/drums/heads.ily:3:1: error: bad grob property path\n\nFoo.bar\n",
        ["drums/heads.ily:3:1: error: bad grob property path"],
    ),
    "the collector's worries": (
        "warning: skipping assignment\nGC Warning: Failed to expand heap by 256 KiB\n",
        ["warning: skipping assignment"],
    ),
    "2.25.12, other words": (
        "source.ly:3:10: warning: bar check failed at: 1/2\n{ c'4 d' \n         | e' f' }\n",
        ["3:10: warning: bar check failed at: 1/2"],
    ),
    "progress": ("Processing `source.ly'\nParsing...\n", []),
    "nothing": ("", []),
}


@pytest.mark.parametrize(("log", "complaints"), CASES.values(), ids=CASES)
def test_a_log_comes_to(log, complaints):
    assert [str(complaint) for complaint in parse(log, source="source.ly", roots=[Path("/kit")])] == complaints


def test_only_the_jobs_own_lines_have_no_file():
    own, other = parse("source.ly:1:1: error: a\n/else/source.ly:2:2: error: b\n", source="source.ly")
    assert (own.file, own.line, own.column) == ("", 1, 1)
    assert (other.file, other.line, other.column) == ("/else/source.ly", 2, 2)
