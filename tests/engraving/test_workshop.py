from __future__ import annotations

from engraver.engraving import Job


def tune(notes: str, name: str = "tune") -> Job:
    return Job(name, f'\\version "2.24.0"\n{{ {notes} }}\n')


def test_results_come_in_the_order_of_the_jobs(shop):
    jobs = [tune("c'4 " * beats, f"beats {beats}") for beats in (1, 40, 2)]
    with shop() as workshop:
        results = workshop.engrave(jobs)
    assert [result.job for result in results] == jobs
    assert all(result.pdf and result.pdf.read_bytes().startswith(b"%PDF-") for result in results)


def test_a_second_run_engraves_nothing_and_gives_the_same(shop):
    with shop() as workshop:
        [first] = workshop.engrave([tune("c'4 | d'")])
    with shop() as workshop:
        [second] = workshop.engrave([tune("c'4 | d'")])
    assert (first.fresh, second.fresh) == (True, False)
    assert first.complaints and second.complaints == first.complaints
    assert second.pdf == first.pdf and second.seconds == first.seconds


def test_warm_and_plain_give_equal_bytes(shop, tmp_path):
    jobs = [tune(notes) for notes in ("c'4 d' e'8 f'", "\\tuplet 3/2 { c'8 d' e' }", "<c' e'>1 \\mark A")]
    pages = []
    for warm in (True, False):
        with shop(warm=warm, store_limit=0) as workshop:
            workshop._keys._ground += str(warm)  # so that the second does not find what the first has made
            pages.append([result.pdf.read_bytes() for result in workshop.engrave(jobs)])
            assert workshop._crew.is_warm is warm
    assert pages[0] == pages[1]
