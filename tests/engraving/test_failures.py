"""Jobs that fail say why and harm no other; processes that die or are interrupted leave nothing behind."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import threading
import time
from dataclasses import replace
from pathlib import Path
from typing import NamedTuple

import pytest

from engraver.engraving import Job, Limits, Severity, Workshop
from engraver.errors import EngravingError

VERSION = '\\version "2.24.0"\n'
FINE = Job("fine", VERSION + "{ c'4 }\n")
ENDLESS = "#(let loop () (loop))\n"
GREEDY = "#(let loop ((all '())) (loop (cons (make-string 100000 #\\a) all)))\n"
WASTEFUL = "#(do ((n 0 (+ n 1))) ((= n 40000)) (make-vector 2000 n))\n{ c'4 }\n"  # 640 MB in all, never 16 kB at once

FAILURES = {
    "a wrong note": ("{ c'4 foo }\n", "LilyPond ended with exit code 1"),
    "a Scheme error": ("#(car 3)\n{ c'4 }\n", "LilyPond ended with exit code 1"),
    "nothing to print": ("", "LilyPond wrote no PDF"),
    "an early exit": ("#(primitive-exit 0)\n", "LilyPond wrote no PDF"),
    "a crash": ("#(kill (getpid) SIGSEGV)\n", "LilyPond was killed by signal 11 (Segmentation fault)"),
}


def processes_in(folder: Path) -> list[int]:
    """Those that work in the folder, by the process table."""
    found = []
    for process in Path("/proc").glob("[0-9]*"):
        try:
            inside = (process / "cwd").readlink().is_relative_to(folder)
        except OSError:
            continue
        found += [int(process.name)] if inside else []
    return found


def children() -> list[str]:
    """Our children, zombies too."""
    return sorted(
        pid for thread in Path("/proc/self/task").iterdir() for pid in (thread / "children").read_text().split()
    )


def wait_until(condition, seconds=20.0):
    end = time.monotonic() + seconds
    while not condition():
        assert time.monotonic() < end, "waited in vain"
        time.sleep(0.02)


@pytest.mark.parametrize("warm", [True, False], ids=["warm", "plain"])
def test_a_job_that_fails_says_why_and_the_others_are_made(shop, warm):
    jobs = [Job(name, VERSION + text if text else "") for name, (text, _) in FAILURES.items()]
    with shop(warm=warm) as workshop:
        *results, fine = workshop.engrave([*jobs, FINE])
    assert {result.job.name: result.failure for result in results} == {
        name: failure for name, (_, failure) in FAILURES.items()
    }
    assert not any(result.pdf or result.files for result in results)
    assert fine.pdf and not fine.failure


@pytest.mark.parametrize("warm", [True, False], ids=["warm", "plain"])
def test_a_disk_that_is_full_is_told_of_and_not_the_job(shop, warm):
    """Cairo ends as if all were well where the PDF finds no room. A file that is always full stands for the disk."""
    full = Job("full", VERSION + '#(symlink "/dev/full" "source.pdf")\n{ c\'4 }\n')
    with (
        shop(warm=warm) as workshop,
        pytest.raises(EngravingError, match="cannot engrave full: No space left on device"),
    ):
        workshop.engrave([full])


@pytest.mark.parametrize("warm", [True, False], ids=["warm", "plain"])
def test_text_that_no_file_can_hold_fails_like_any_other(shop, warm):
    with shop(warm=warm) as workshop:
        [result] = workshop.engrave([Job("half a pair", VERSION + "{ c'4 \ud800 }\n")])
    said = result.failure + "".join(complaint.message for complaint in result.complaints)
    assert result.failure.startswith("LilyPond ended with exit code 1") and "decoding-error" in said


def test_errors_name_their_line(shop):
    with shop() as workshop:
        [result] = workshop.engrave([Job("wrong", VERSION + "{ c'4 foo }\n")])
    said = [(c.severity, c.line, c.column, c.message) for c in result.complaints]
    assert said == [(Severity.ERROR, 2, 7, "not a note name: foo")]


def test_a_failure_is_tried_again_next_time(shop):
    job = Job("wrong", VERSION + "{ foo }\n")
    with shop() as workshop:
        assert [workshop.engrave([job])[0].fresh for _ in range(2)] == [True, True]


@pytest.mark.parametrize("warm", [True, False], ids=["warm", "plain"])
@pytest.mark.parametrize("text", [ENDLESS, "#(sleep 60)\n"], ids=["busy", "asleep"])
def test_a_job_that_does_not_end_is_stopped(shop, warm, text):
    with shop(warm=warm, limits=Limits(seconds=1)) as workshop:
        stuck, fine = workshop.engrave([Job("stuck", VERSION + text), FINE])
    assert stuck.failure == "took longer than 1 s and was stopped"
    assert fine.pdf


@pytest.mark.parametrize("warm", [True, False], ids=["warm", "plain"])
def test_a_job_that_wants_all_memory_is_stopped(shop, warm):
    with shop(warm=warm, limits=Limits(seconds=10, mebibytes=500)) as workshop:
        greedy, fine = workshop.engrave([Job("greedy", VERSION + GREEDY), FINE])
    assert greedy.failure == "needed more than 500 MiB of memory and was stopped"
    assert fine.pdf


def test_a_job_that_only_wastes_memory_is_made_more_slowly(shop):
    with shop(limits=Limits(mebibytes=500)) as workshop:
        [result] = workshop.engrave([Job("wasteful", VERSION + WASTEFUL)])
        assert workshop.is_warm
        assert result.pdf, result.failure
        assert workshop._crew._numbers.__next__() == 4  # a try without collecting, the trial, a try with


def test_a_worker_that_is_killed_is_replaced_and_its_job_made(shop, tmp_path):
    job = Job("slow", VERSION + '#(close (open-output-file "begun"))\n#(sleep 1)\n{ c\'4 }\n')
    killed: list[int] = []

    def kill_worker() -> None:
        wait_until(lambda: list(tmp_path.glob("store/work-*/*/begun")))
        killed.append(workshop._crew._all[0].leader)
        os.kill(killed[0], signal.SIGKILL)

    killer = threading.Thread(target=kill_worker)
    with shop(workers=1) as workshop:
        killer.start()
        [result] = workshop.engrave([job])
        killer.join()
        assert workshop._crew._all[0].leader != killed[0]
    assert result.pdf and result.fresh


def test_workers_go_on_without_the_process_that_forked_them(shop):
    with shop(workers=2) as workshop:
        workshop.engrave([FINE])
        before = [worker.leader for worker in workshop._crew._all]
        os.kill(workshop._crew._all[0].parent, signal.SIGKILL)
        results = workshop.engrave([Job(f"{n}", VERSION + f"\\markup {{ {n} }}\n") for n in range(4)])
        assert [worker.leader for worker in workshop._crew._all if worker.leader in before]
    assert all(result.pdf for result in results)


def test_processes_that_were_started_for_nothing_end(shop, tmp_path):
    ours = children()
    with shop() as workshop:
        workshop.warm_up()
        workshop.warm_up()
        assert len(children()) == len(ours) + 1
        wait_until(lambda: processes_in(tmp_path))
    assert (processes_in(tmp_path), children()) == ([], ours)


def test_processes_that_cannot_be_started_are_an_error_of_ours(engine, tmp_path):
    files = sorted(Path("/proc/self/fd").iterdir())
    with Workshop(replace(engine, path=tmp_path / "gone"), [], tmp_path / "store") as workshop:
        with pytest.raises(EngravingError, match=r"cannot start LilyPond: No such file or directory \(.*gone\)"):
            workshop.warm_up()
        with pytest.raises(EngravingError, match=r"cannot engrave fine: No such file or directory \(.*gone\)"):
            workshop.engrave([FINE])
    assert sorted(Path("/proc/self/fd").iterdir()) == files


def test_a_process_that_dies_each_time_is_given_up(shop):
    job = Job("killer", VERSION + "#(kill (getppid) SIGKILL)\n#(sleep 5)\n")
    with shop(workers=1) as workshop:
        killer, fine = workshop.engrave([job, FINE])
    assert killer.failure == "the LilyPond process died twice"
    assert fine.pdf


def test_plain_processes_take_over_where_workers_do_not_start(engine, tmp_path):
    unwilling = tmp_path / "lilypond"
    unwilling.write_text(f'#!/bin/sh\nfor word; do [ "$word" != -e ] || exit 1; done\nexec "{engine.path}" "$@"\n')
    unwilling.chmod(0o755)
    with Workshop(replace(engine, path=unwilling), [], tmp_path / "store") as workshop:
        [result] = workshop.engrave([FINE])
        assert not workshop.is_warm
    assert result.pdf


class Held(NamedTuple):
    """What a process holds: open files, and the memory it has asked for."""

    files: int
    kibibytes: int


def held(process: int | str = "self") -> Held:
    status = Path(f"/proc/{process}/status").read_text()
    memory = next(line.split()[1] for line in status.splitlines() if line.startswith("VmSize:"))
    return Held(len(list(Path(f"/proc/{process}/fd").iterdir())), int(memory))


def test_500_jobs_in_a_row_leave_nothing_behind(shop, tmp_path):
    """No process, no file, no memory: not here, not in the process that forks, not in the folder."""
    before, ours = held(), children()
    with shop(workers=1) as workshop:
        workshop.engrave([FINE])
        [worker] = [runner.leader for runner in workshop._crew._all]
        here, there = held(), held(worker)
        results = workshop.engrave([Job(f"{n}", VERSION + f"\\markup {{ {n} }}\n") for n in range(500)])
        assert sum(result.fresh and result.pdf is not None for result in results) == 500
        assert [runner.leader for runner in workshop._crew._all] == [worker]  # it has done them all
        assert (held().files, held(worker).files) == (here.files, there.files)
        assert held(worker).kibibytes - there.kibibytes < 2048  # what 500 jobs would leak if each left 4 kB
        assert len(list(workshop._store.workplace.iterdir())) == 0
    assert (held().files, children()) == (before.files, ours)
    assert sorted(path.name for path in (tmp_path / "store").iterdir()) == ["costs.json", "entries", "lock"]


def test_an_error_in_the_listener_stops_all(shop, tmp_path):
    def listener(result):
        raise BrokenPipeError

    slow = [FINE, *(Job(f"{n}", f"#(sleep {n})") for n in (30, 31))]  # in this order: the longest first
    before = time.monotonic()
    with shop() as workshop:
        with pytest.raises(BrokenPipeError):
            workshop.engrave(slow, listener)
        assert processes_in(tmp_path) == []
        assert workshop.engrave([FINE])[0].pdf  # and it works again
    assert time.monotonic() - before < 15


INTERRUPTED = """
import sys, pathlib
from engraver.engraving import Engine, Job, Workshop
with Workshop(Engine.find(), [], pathlib.Path(sys.argv[1]), warm=sys.argv[2] == "warm") as workshop:
    workshop.engrave([Job(f"{n}", f"#(sleep {n})") for n in (50, 51, 52)])
"""


@pytest.mark.parametrize("how", ["warm", "plain"])
def test_ctrl_c_ends_all_and_leaves_no_folders(tmp_path, how):
    store = tmp_path / "store"
    run = subprocess.Popen([sys.executable, "-c", INTERRUPTED, store, how], stderr=subprocess.PIPE, text=True)
    wait_until(lambda: len(list(store.glob("work-*/*/source.log"))) >= 2)
    time.sleep(0.2)
    run.send_signal(signal.SIGINT)
    _, said = run.communicate(timeout=10)
    assert said.rstrip().endswith("KeyboardInterrupt")
    assert processes_in(store) == []
    assert list(store.glob("work-*")) == []
