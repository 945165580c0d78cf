"""A warm engine reads the file ahead.ily of an include folder once, and again when what it may read has changed."""

from __future__ import annotations

from pathlib import Path

import pytest

from engraver.engraving import Job

AHEAD = """\
#(define read-ahead #t)
#(define width #f)
#(define (twice) (* 2 width))
beat = { %s }
#(ly:system-font-load "emmentaler-20")
"""
KIT = """\
#(if (not (defined? 'read-ahead)) (ly:parser-include-string "\\\\include \\"ahead.ily\\""))
#(define width 7)
"""
PAGE = """\
\\version "2.24.0"
#(if (defined? 'read-ahead) (call-with-output-file "ahead.note" (lambda (port) (display "yes" port))))
\\include "kit.ily"
\\markup #(number->string (twice))
{ \\beat \\beat }
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    include = tmp_path / "include"
    include.mkdir()
    (include / "ahead.ily").write_text(AHEAD % "c'4")
    (include / "kit.ily").write_text(KIT)
    return include


def test_what_was_read_ahead_knows_the_settings_of_the_source(shop, folder):
    with shop(store="warm", include=(folder,)) as workshop:
        [warm] = workshop.engrave([Job("page", PAGE)])
        assert workshop.is_warm and warm.with_suffix(".note")
    with shop(store="plain", include=(folder,), warm=False) as workshop:
        [plain] = workshop.engrave([Job("page", PAGE)])
        assert not plain.with_suffix(".note")
    assert warm.pdf.read_bytes() == plain.pdf.read_bytes()


def test_a_change_of_it_is_read_at_once(shop, folder, tmp_path):
    with shop(include=(folder,)) as workshop:
        [before] = workshop.engrave([Job("page", PAGE)])
        ground = workshop.ground
        (folder / "ahead.ily").write_text(AHEAD % "d'4")
        [after] = workshop.engrave([Job("page", PAGE)])
        again = workshop.engrave([Job("page", PAGE)])[0]
        assert workshop.ground != ground
    with shop(store="other", include=(folder,)) as workshop:
        [expected] = workshop.engrave([Job("page", PAGE)])
    assert (before.fresh, after.fresh, again.fresh) == (True, True, False)
    assert after.pdf.read_bytes() == expected.pdf.read_bytes() != before.pdf.read_bytes()


def test_no_thread_is_lost_by_a_fork(shop, folder):
    """A process that forks must have one thread: a fork copies no other. Source: POSIX.1-2017, fork()."""
    with shop(include=(folder,), workers=1) as workshop:
        workshop.engrave([Job("page", PAGE)])
        [worker] = workshop._crew._all
        for process in (worker.leader, worker.parent):
            assert len(list(Path(f"/proc/{process}/task").iterdir())) == 1


def test_plain_processes_take_over_where_it_cannot_be_read(shop, folder):
    (folder / "ahead.ily").write_text("#(car 3)\n")
    job = Job("alone", '\\version "2.24.0"\n{ c\'4 }\n')
    with shop(include=(folder,)) as workshop:
        [result] = workshop.engrave([job])
        assert result.pdf and not workshop.is_warm
