"""How fast books are made, against what can be had by hand: `make bench`, or `python tests/bench/engraving.py --help`.

Books of generated grooves go through the reader that an author's files go through. Then in one run, with one engine,
back end and set of options: the texts of their chapters are engraved (a) by one LilyPond process a chapter, one after
another, (b) by as many such processes at once as there are cores, (c) by one process with -djob-count, (d) by ours.
The floor is the processor time inside the jobs of (d) divided by the cores: what no scheduling can go below.
"""

from __future__ import annotations

import argparse
import os
import shutil
import statistics
import sys
import tempfile
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from engraver import definition
from engraver.engraving import Engine, Job, Workshop
from engraver.engraving.run import command
from engraver.manuscript.planning import Chapter, plan_book, plan_chapter
from engraver.style import include_folders
from tests.bench.bare_scores import bare_source
from tests.bench.generated_books import write_book
from tests.bench.measured_run import Measured, build, run

CORES = len(os.sched_getaffinity(0)) if sys.platform == "linux" else os.cpu_count() or 1
INCLUDE = include_folders("workbook")
STROKES = 5  # are changed, one after another
BY_HAND = 100  # grooves: bigger books are made by ours alone, or the run would take an hour


@dataclass(frozen=True, slots=True)
class Bench:
    """Where a run works, and with which engine."""

    engine: Engine
    place: Path

    def folder(self, name: str) -> Path:
        made = self.place / name
        shutil.rmtree(made, ignore_errors=True)
        made.mkdir()
        return made


# ------------------------------------------------------------------ the texts of chapters, engraved in four ways
def write_texts(made: Sequence[Chapter], folder: Path) -> None:
    for chapter in made:
        (folder / f"{chapter.plan.name}.ly").write_text(chapter.source.text, "utf-8")


def by_hand(bench: Bench, made: Sequence[Chapter], *more: str, at_once: int = 0) -> Measured:
    """LilyPond on a folder of texts: by a shell that starts ``at_once`` processes of one text, or by a single call."""
    folder = bench.folder("by-hand")
    write_texts(made, folder)
    call = [*command(bench.engine, INCLUDE), *more]
    if at_once:
        (folder / "names").write_text("\n".join(sorted(path.name for path in folder.glob("*.ly"))))
        measured = run(["xargs", "-a", "names", "-n", "1", "-P", str(at_once), *call], folder)
    else:
        measured = run([*call, *sorted(path.name for path in folder.glob("*.ly"))], folder)
    missing = len(made) - len(list(folder.glob("*.pdf")))
    assert not missing, f"{missing} chapters have no PDF"
    return measured


def ours(bench: Bench, made: Sequence[Chapter]) -> tuple[Measured, float]:
    """How our engraving does it, and the processor seconds inside its jobs."""
    folder = bench.folder("ours")
    write_texts(made, folder)
    script = Path(__file__).with_name("engrave_folder.py")
    measured = run([sys.executable, script, bench.engine.path, folder, *INCLUDE], folder)
    return measured, float(measured.said.splitlines()[-1])


def compare(bench: Bench, made: Sequence[Chapter]) -> None:
    heading(f"{len(made)} chapters, texts to PDFs", "wall s", "CPU s", "MiB", "wall / ours", "CPU / ours")
    measured, inside = ours(bench, made)

    def show(name: str, way: Measured) -> None:
        ratios = way.wall / measured.wall, way.processor / measured.processor
        row(name, way.wall, way.processor, way.memory / 2**20, *ratios)

    show("d  ours", measured)
    row("   floor: CPU in jobs / cores", inside / CORES, inside)
    row("   ours / floor", measured.wall / (inside / CORES))
    if len(made) <= BY_HAND:
        show("c  one call, -djob-count", by_hand(bench, made, f"-djob-count={CORES}"))
        show("b  plain, a process a core", by_hand(bench, made, at_once=CORES))
        show("a  plain, one after another", by_hand(bench, made, at_once=1))


# ------------------------------------------------------------------ whole builds, as an author makes them
def builds(bench: Bench, book: Path, grooves: int) -> Measured:
    os.environ["ENGRAVER_LILYPOND"] = str(bench.engine.path)
    out = bench.folder("out")
    heading(
        f"{grooves} grooves, the whole command `engraver build`", "wall s", "CPU s", "MiB", "chapters", "other pages"
    )
    first = show_build("everything new", build(book, out))
    show_build("nothing changed", build(book, out))
    show_strokes(bench, book, out)
    for name, change in CHANGES.items():
        change(book)
        show_build(name, build(book, out))
    return first


def show_strokes(bench: Bench, book: Path, out: Path) -> None:
    """A stroke in one chapter after another, each with a build; beside it that chapter's pages alone. Medians."""
    changed, own = [], []
    for name in sorted(path.stem for path in (book / "grooves").glob("*.yaml"))[:STROKES]:
        one_stroke(book / "grooves" / f"{name}.yaml")
        changed.append(build(book, out))
        own.append(alone(bench, book, name))
    middle = sorted(changed, key=lambda measured: measured.wall)[STROKES // 2]
    show_build(f"one stroke changed, median of {STROKES}", middle)
    row("   its chapter's own engraving, from a cold start", statistics.median(own))
    rest = [measured.wall - seconds for measured, seconds in zip(changed, own, strict=True)]
    row("   the rest of the build", statistics.median(rest))


def alone(bench: Bench, book: Path, name: str) -> float:
    """Seconds for the pages of one chapter and nothing else, from its text, with a LilyPond that starts for it."""
    read = definition.read(book)
    chapter = next(chapter for chapter in read.chapters if chapter.name == name)
    source = plan_chapter(chapter, read.style, read.style.say).source
    begun = time.perf_counter()
    with Workshop(bench.engine, INCLUDE, bench.folder("alone")) as shop:
        results = shop.engrave([Job(name, str(part)) for part in source.parts])
    seconds = time.perf_counter() - begun
    assert all(result.fresh and result.pdf for result in results)
    return seconds


def show_build(name: str, measured: Measured) -> Measured:
    engraved = [line.split()[0] for line in measured.said.splitlines() if "engraved: " in line]
    around = sum(name.startswith("book/") for name in engraved)
    counts = float(len(engraved) - around), float(around)
    row(name, measured.wall, measured.processor, measured.memory / 2**20, *counts)
    return measured


def _change(path: Path, old: str, new: str) -> None:
    text = path.read_text("utf-8")
    assert old in text, f"{old!r} is not in {path.name}"
    path.write_text(text.replace(old, new, 1), "utf-8")


def one_stroke(path: Path) -> None:
    marks = path.read_text("utf-8").split("bass drum:", 1)[1].split("cycle: ", 1)[1].split("\n", 1)[0]
    _change(path, f"cycle: {marks}", f"cycle: {marks.replace('-', 'x', 1)}")


CHANGES: dict[str, Callable[[Path], None]] = {
    "one style row changed (the ride)": lambda book: _change(
        book / "style.yaml", "counting", "kit:\n  ride: {head: diamond, position: 3}\ncounting"
    ),
    "the order changed": lambda book: _change(
        book / "book.yaml", "- groove-002\n- groove-003", "- groove-003\n- groove-002"
    ),
}


# ------------------------------------------------------------------ one exercise, and one score
def single(bench: Bench, made: Sequence[Chapter]) -> None:
    """Exercises alone, each a text of its own, from one warm process that has started."""
    jobs = list(one_exercise_each(made))[:51]
    waits = []
    with Workshop(bench.engine, INCLUDE, bench.folder("single"), workers=1) as shop:
        shop.engrave([jobs[0]])
        for job in jobs[1:]:
            begun = time.perf_counter()
            [result] = shop.engrave([job])
            waits.append(time.perf_counter() - begun)
            assert result.fresh and result.pdf, result.failure
    heading(f"one exercise from a warm process, {len(waits)} times", "median s", "worst s")
    row("", statistics.median(waits), max(waits))


def one_exercise_each(made: Sequence[Chapter]) -> Iterator[Job]:
    for chapter in made:
        head, *scores = str(chapter.source.text).split("% score ")
        prologue = head.split("% ---", 1)[0]
        for number, score in enumerate(part for part in scores if "\\exercise" in part):
            yield Job(f"{chapter.plan.name} {number}", f"{prologue}% score {score}".split("\\pageBreak", 1)[0])


def against_bare(bench: Bench, made: Sequence[Chapter]) -> None:
    """Processor time for a score in our chapters, all else on their pages included, and in bare LilyPond.

    Both sides find LilyPond's own fonts read already.
    """
    fonts = bench.folder("fonts")
    (fonts / "ahead.ily").write_text((INCLUDE[1] / "ahead.ily").read_text("utf-8").splitlines()[-1])
    scores = sum(len(chapter.source.staves) for chapter in made)
    sides = {}
    for name, include, texts in (
        ("our chapters", INCLUDE, [chapter.source.text for chapter in made]),
        ("the same staves, bare", [fonts], [bare_source(chapter.source) for chapter in made]),
    ):
        with Workshop(bench.engine, include, bench.folder("bare")) as shop:
            results = shop.engrave([Job(f"{n}", str(text)) for n, text in enumerate(texts)])
        assert not [result.failure for result in results if result.failure]
        sides[name] = sum(result.seconds for result in results) / scores
    heading(f"processor time a score, {scores} scores", "CPU s", "/ bare")
    for name, seconds in sides.items():
        row(name, seconds, seconds / sides["the same staves, bare"])


# ------------------------------------------------------------------ the table
def heading(title: str, *columns: str) -> None:
    print(f"\n{title:<44}" + "".join(f"{column:>13}" for column in columns))


def row(name: str, *values: float) -> None:
    print(
        f"{name:<44}" + "".join(f"{value:>13.0f}" if value >= 100 else f"{value:>13.3f}" for value in values),
        flush=True,
    )


@contextmanager
def workplace() -> Iterator[Path]:
    with tempfile.TemporaryDirectory(prefix="bench-") as name:
        yield Path(name)


def bench_all(engine: Engine, sizes: Sequence[int]) -> None:
    load = ", ".join(f"{part:.1f}" for part in os.getloadavg())
    print(f"LilyPond {engine.version}, {CORES} cores; load before it begins (1, 5, 15 minutes): {load}")
    rates = {}
    with workplace() as place:
        bench = Bench(engine, place)
        for size in sizes:
            book = write_book(bench.folder(f"book-{size}"), size)
            made = plan_book(definition.read(book))
            compare(bench, made)
            rates[size] = builds(bench, book, size).wall / size
            if size == sizes[0]:
                single(bench, made)
                against_bare(bench, made)
    heading("seconds a groove, everything new", *(f"{size}" for size in rates))
    row("", *rates.values())
    row("against the first", *(rate / rates[sizes[0]] for rate in rates.values()))


def main() -> None:
    arguments = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    arguments.add_argument("--books", default="10,100,300", help="how many grooves the books have")
    arguments.add_argument("--lilypond", help="another LilyPond than the one that came with the program")
    given = arguments.parse_args()
    bench_all(Engine.find(given.lilypond), [int(size) for size in given.books.split(",")])


if __name__ == "__main__":
    main()
