"""Real engraving of tiny sources: what comes back, what is made again, and when."""

from __future__ import annotations

import os
import resource
import shutil
from pathlib import Path
from time import monotonic, sleep

import font_source_sans_pro
import pytest
from pypdf import PdfReader

from engraver.engraving import Engine, Job, Workshop, engrave
from engraver.errors import EngravingError

VERSION = '\\version "2.24.0"\n'
DUMP = '#(call-with-output-file "heads.ink" (lambda (port) (display "two" port)))\n'
SOUND = "\\score { { c'4 } \\layout { } \\midi { } }\n"
LEFT_OPEN = '#(define port (open-output-file "open.ink")) #(display "kept" port)\n'


def tune(notes: str, name: str = "tune") -> Job:
    return Job(name, f"{VERSION}{{ {notes} }}\n")


def test_results_come_in_the_order_of_the_jobs(shop):
    jobs = [tune("c'4 " * beats, f"beats {beats}") for beats in (1, 40, 2)]
    with shop() as workshop:
        results = workshop.engrave(jobs)
    assert [result.job for result in results] == jobs
    assert all(len(PdfReader(result.pdf).pages) == 1 for result in results)


def test_a_job_begins_while_the_next_is_still_in_the_making(shop):
    heard = []

    def in_the_making(workshop):
        yield tune("c'4", "first")
        deadline = monotonic() + 60
        while not heard and monotonic() < deadline:
            yield tune("c'4", "again")  # the same text: nothing to do but to look around
            sleep(0.05)
        yield tune("d'4", f"after {heard[0].job.name}")

    with shop() as workshop:
        results = workshop.engrave(in_the_making(workshop), heard.append)
    assert (results[0].job.name, results[-1].job.name) == ("first", "after first")
    assert all(result.pdf for result in results)
    assert [result.fresh for result in results] == [True, *[False] * (len(results) - 2), True]


def test_every_file_that_the_run_wrote_is_kept(shop):
    with shop() as workshop:
        [result] = workshop.engrave([Job("all", VERSION + DUMP + SOUND)])
    assert [path.name for path in result.files] == ["heads.ink", "source.midi", "source.pdf"]
    assert [path.read_text() for path in result.with_suffix(".ink")] == ["two"]
    assert result.with_suffix(".midi")[0].read_bytes().startswith(b"MThd")  # the header chunk of the MIDI file standard


def test_a_second_run_engraves_nothing_and_gives_the_same(shop):
    with shop() as workshop:
        [first] = workshop.engrave([tune("c'4 | d'")])
    with shop() as workshop:
        [second] = workshop.engrave([tune("c'4 | d'")])
        assert not workshop._crew._all  # not even a LilyPond was started
    assert (first.fresh, second.fresh) == (True, False)
    assert first.complaints and second.complaints == first.complaints
    assert (second.pdf, second.seconds) == (first.pdf, first.seconds)


def test_jobs_of_equal_text_are_engraved_once(shop):
    heard = []
    with shop() as workshop:
        results = workshop.engrave([tune("c'4", "one"), tune("c'4", "other")], heard.append)
        assert workshop._crew._numbers.__next__() == 2  # one job
    assert [(result.job.name, result.fresh) for result in results] == [("one", True), ("other", False)]
    assert results[0].pdf == results[1].pdf
    assert heard == results


def test_warm_and_plain_give_equal_bytes(shop):
    notes = ("c'4 d' e'8 f'", "\\tuplet 3/2 { c'8 d' e' } c'4 |", "<c' e'>1 \\mark A")
    jobs = [*(tune(some) for some in notes), Job("files", VERSION + DUMP + LEFT_OPEN + SOUND)]
    results = []
    for warm in (True, False):
        with shop(store=f"warm {warm}", warm=warm) as workshop:
            results.append(workshop.engrave(jobs))
            assert workshop.is_warm is warm
    for forked, plain in zip(*results, strict=True):
        assert {path.name: path.read_bytes() for path in forked.files} == {
            path.name: path.read_bytes() for path in plain.files
        }
        assert forked.complaints == plain.complaints


def test_pages_do_not_tell_the_day(shop):
    pages = []
    for store in ("first", "second"):
        with shop(store=store) as workshop:
            pages.append(workshop.engrave([tune("c'4")])[0].pdf)
    assert pages[0].read_bytes() == pages[1].read_bytes()
    assert PdfReader(pages[0]).metadata.creation_date.isoformat() == "2000-01-01T00:00:00+00:00"


def test_include_folders_are_found_and_count(shop, tmp_path):
    folder = tmp_path / "größe  'à \" # include"
    folder.mkdir()
    job = Job("kit", f'{VERSION}\\include "kit.ily"\n{{ \\beat }}\n')
    made = []
    with shop(store='stör "e # 1', include=(folder,)) as workshop:
        for beat in ("c'4", "c'4", "d'4"):
            (folder / "kit.ily").write_text(f"beat = {{ {beat} }}\n")
            (folder / "page.css").write_text(beat)  # not read by LilyPond
            made += workshop.engrave([job])
    assert [(result.failure, result.fresh) for result in made] == [("", True), ("", False), ("", True)]
    assert made[0].pdf.read_bytes() != made[2].pdf.read_bytes()


def test_pages_do_not_tell_where_their_includes_lie(shop, tmp_path):
    """Fonts too: the page sets a word in one that it finds through the include folder."""
    font = Path(font_source_sans_pro.__file__).parent / "files" / "SourceSansPro-Regular.ttf"
    job = Job("kit", f'{VERSION}\\include "kit.ily"\n\\markup \\override #\'(font-name . "Source Sans Pro") "word"\n')
    pages = []
    for place in ("here", "some where else"):
        (tmp_path / place).mkdir()
        shutil.copy(font, tmp_path / place / "word.ttf")
        (tmp_path / place / "kit.ily").write_text('#(ly:font-config-add-font (ly:find-file "word.ttf"))\n')
        with shop(store=f"store {place}", include=(tmp_path / place,)) as workshop:
            pages.append(workshop.engrave([job])[0].pdf)
    assert pages[0].read_bytes() == pages[1].read_bytes()
    assert b"SourceSansPro" in pages[0].read_bytes()


def test_complaints_about_an_included_file_name_it_from_its_folder(shop, tmp_path):
    (tmp_path / "include").mkdir()
    (tmp_path / "include" / "kit.ily").write_text("beat = { c'4 | }\n")
    with shop(include=(tmp_path / "include",)) as workshop:
        [result] = workshop.engrave([Job("kit", f'{VERSION}\\include "kit.ily"\n{{ \\beat }}\n')])
    assert [(said.file, said.line, said.column) for said in result.complaints] == [("kit.ily", 1, 14)]


def test_the_function_opens_a_workshop_for_once(engine, tmp_path):
    store = tmp_path / "store"
    results = [engrave([tune("c'4")], engine=engine, include=[], store=store, workers=1) for _ in range(2)]
    assert [result.fresh for [result] in results] == [True, False]


def test_no_jobs_give_no_results(shop):
    with shop() as workshop:
        assert workshop.engrave([]) == []


def test_a_store_that_cannot_be_opened_is_an_error_of_ours(shop, tmp_path):
    (tmp_path / "store").write_text("a file")
    with pytest.raises(EngravingError, match=r"cannot open the store of engraved pages: .*store"), shop():
        pass


def test_a_full_disk_is_an_error_of_ours(shop):
    """A limit on the size of files stands for the full disk: the system refuses the write in the same place."""
    before = resource.getrlimit(resource.RLIMIT_FSIZE)
    with shop() as workshop:
        resource.setrlimit(resource.RLIMIT_FSIZE, (100_000, before[1]))
        try:
            with pytest.raises(EngravingError, match="cannot engrave long: File too large"):
                workshop.engrave([Job("long", "%" * 200_000)])
        finally:
            resource.setrlimit(resource.RLIMIT_FSIZE, before)


@pytest.mark.skipif("ENGRAVER_LILYPOND_OTHER" not in os.environ, reason="names a LilyPond of the other series")
def test_the_other_series_engraves_too(tmp_path):
    other = Engine.find(os.environ["ENGRAVER_LILYPOND_OTHER"])
    assert other.version.startswith("2.25.")
    pages = []
    for warm in (True, False):
        with Workshop(other, [], tmp_path / str(warm), warm=warm) as workshop:
            [result] = workshop.engrave([tune("c'4 | d'")])
            assert [(said.line, said.column) for said in result.complaints] == [(2, 7)]
            assert workshop.is_warm is warm
            pages.append(result.pdf.read_bytes())
    assert pages[0] == pages[1]
