"""The command line: arguments in, exit code out. Each command loads what it runs, and no other.

Exit codes: 0 all is well, 1 the author's files have faults, 2 the command was called wrongly, 3 engraving or binding
failed, 4 a program or font is missing, 5 the proof found a difference, 70 a mistake of the program.
"""

from __future__ import annotations

import gc
import json
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from engraver import __version__
from engraver.errors import DefinitionError, EngraverError, EngravingError, MissingTool, NotationError, ProofError
from engraver.style import languages, preset_text, presets, words_text
from engraver.where import Where

if TYPE_CHECKING:
    from engraver.export import Click
    from engraver.press import Progress

EXIT_CODES: tuple[tuple[type[EngraverError], int], ...] = (
    (DefinitionError, 1),
    (NotationError, 1),
    (EngravingError, 3),
    (MissingTool, 4),
    (ProofError, 5),
)


def main() -> None:
    """Run a command; every mistake of a user is told in words."""
    # values without circles are most of what a build makes: looking for circles took a tenth of its Python time
    gc.set_threshold(200_000, 20, 20)
    try:
        commands(standalone_mode=False)
    except EngraverError as error:
        click.echo(str(error), err=True)
        sys.exit(next((code for kind, code in EXIT_CODES if isinstance(error, kind)), 3))
    except click.exceptions.Exit as ended:
        sys.exit(ended.exit_code)
    except click.Abort:
        click.echo("stopped; the last book that was made is still there", err=True)
        sys.exit(130)
    except click.ClickException as error:
        error.show()
        sys.exit(error.exit_code)
    except OSError as error:
        click.echo(f"{error.filename or 'a file'}: {error.strerror or error}", err=True)
        sys.exit(3)
    except Exception as error:  # never a traceback for an author; the fault is ours
        click.echo(f"Engraver made a mistake of its own: {type(error).__name__}: {error}", err=True)
        click.echo("hint: your files are as they were; please report this with the command you ran", err=True)
        sys.exit(70)


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, message="engraver %(version)s")
def commands() -> None:
    """Turn one small text file per drum groove into the pages of a method book.

    Start with "engraver new my-book", look into the files that it makes, then "engraver build my-book".
    """


def _folder(command: Callable[..., Any]) -> Callable[..., Any]:
    return click.argument("folder", default=".", type=click.Path(path_type=Path))(command)


def _engine(command: Callable[..., Any]) -> Callable[..., Any]:
    for option in (
        click.option(
            "--out",
            type=click.Path(path_type=Path, file_okay=False),
            default=Path("build"),
            show_default=True,
            help="Where the book goes, and the engraved pages that are kept for the next time.",
        ),
        click.option(
            "--lilypond",
            metavar="PATH",
            help="A LilyPond to use instead of the one that came with Engraver (or name it in ENGRAVER_LILYPOND).",
        ),
        click.option(
            "--jobs", type=click.IntRange(1, 64), help="How many pages to engrave at once; one for each core."
        ),
    ):
        command = option(command)
    return command


@commands.command("build")
@_folder
@_engine
@click.option("--explain", is_flag=True, help="Say what was made now and why, what took how long, how full pages are.")
@click.option("--editions", is_flag=True, help="Make every edition that book.yaml names too, in OUT/editions.")
@click.option("--midi", is_flag=True, help="Write a MIDI file for every groove and exercise too, in OUT/midi.")
@click.option(
    "--click",
    "clicked",
    metavar="beat|cell",
    callback=lambda context, option, name: _click(name) if name else None,
    help="With --midi: what a click marks after the count-in; none if this is left out.",
)
@click.option("--sources", is_flag=True, help="Write the LilyPond text of every chapter too, laid out, in OUT/source.")
@click.option("--every-tempo", is_flag=True, help="With --midi: a file for each tempo of an exercise.")
def build_command(
    folder: Path,
    out: Path,
    lilypond: str | None,
    jobs: int | None,
    explain: bool,
    editions: bool,
    midi: bool,
    clicked: Click | None,
    sources: bool,
    every_tempo: bool,
) -> None:
    """Make the book of FOLDER (the current folder if none is named) as one PDF.

    FOLDER holds book.yaml, style.yaml if you want one, and a file for each groove in grooves/. What is wrong with them
    is told with file, line and column; a book that was made before then stays as it was.
    """
    if (clicked or every_tempo) and not midi:
        option = "--click" if clicked else "--every-tempo"
        raise click.UsageError(f"{option} is for MIDI files: say --midi too")
    from engraver.build import build

    where = Where(folder, out, lilypond, jobs)
    with _watched() as progress:
        wanted = (clicked or _click("none")) if midi else None
        report = build(where, progress, wanted, every_tempo=every_tempo, sources=sources)
    for warning in report.warnings:
        click.echo(f"warning: {warning}", err=True)
    if explain:
        from engraver import page_report, reasons

        for line in reasons.told(report.causes):
            click.echo(line)
        for what, seconds in report.times.items():
            click.echo(f"{seconds:7.2f} s  {what}")
        for line in page_report.told(report.fills):
            click.echo(line)
    if midi:
        click.echo(f"{where.midi}: {report.midi} MIDI files")
    size = f"{_counted(report.pages, 'page')}, {_counted(report.chapters, 'chapter')}"
    click.echo(f"{report.book}: {size}")
    if editions:
        _make_editions(where)


def _make_editions(where: Where) -> None:
    from engraver import definition
    from engraver.print_run import print_run

    with _watched() as progress:
        run = print_run(where, definition.read(where.folder), where.editions, progress)
    for warning in run.warnings:
        click.echo(f"warning: {warning}", err=True)
    for one in run.made:
        click.echo(f"{one.file}: {_counted(one.pages, 'page')}")


@commands.command("release")
@_folder
@_engine
@click.option(
    "--buyers",
    type=click.Path(path_type=Path, dir_okay=False),
    help="A CSV file with the columns name and order: a copy of the book is made for each row.",
)
def release_command(folder: Path, out: Path, lilypond: str | None, jobs: int | None, buyers: Path | None) -> None:
    """Make what is sold of FOLDER: its editions, MIDI, texts, licence and checksums, in OUT/release and as an archive.

    A book is refused if a file has a fault, a score is not what its groove says, LilyPond warns, or the rights line,
    the licence or the origin of a groove is missing. With --buyers, rows that cannot be read are told by their lines;
    all others get their copy, and the exit code is 1.
    """
    from engraver.releasing import release

    with _watched() as progress:
        released = release(Where(folder, out, lilypond, jobs), buyers, progress)
    for one in released.made:
        click.echo(f"{one.file}: {_counted(one.pages, 'page')}")
    click.echo(str(released.archive))
    if released.copies:
        click.echo(f"{released.copies}: copies for {_counted(len(released.buyers.buyers), 'buyer')}")
    if released.buyers.problems:
        raise DefinitionError(released.buyers.problems)


@commands.command()
@_folder
def check(folder: Path) -> None:
    """Look for faults in the files of FOLDER and list all of them; nothing is engraved."""
    from engraver import definition
    from engraver.planning import plan_book

    problems = definition.check(folder)
    if problems:
        raise DefinitionError(problems)
    book = definition.read(folder)
    for chapter in plan_book(book):
        for warning in chapter.plan.warnings:
            click.echo(f"warning: {warning}", err=True)
    click.echo(f"{folder}: no faults in {_counted(len(book.chapters), 'groove')}")


@commands.command()
@_folder
@_engine
def verify(folder: Path, out: Path, lilypond: str | None, jobs: int | None) -> None:
    """Prove that no stroke is lost: every score of FOLDER is played and read back, and compared with its groove.

    Two things are compared stroke by stroke: what LilyPond performs, and the ink that it draws.
    """
    from engraver.proving import verify as prove

    where = Where(folder, out, lilypond, jobs)
    with _watched() as progress:
        proved = prove(where, progress)
    click.echo(f"{folder}: {proved.strokes} strokes in {proved.scores} scores, none lost in sound or in ink")


@commands.command("specimen")
@_folder
@_engine
def specimen_command(folder: Path, out: Path, lilypond: str | None, jobs: int | None) -> None:
    """Print every sign and setting of FOLDER's style on a few pages: OUT/FOLDER-specimen.pdf."""
    from engraver.specimen import specimen

    with _watched() as progress:
        made = specimen(Where(folder, out, lilypond, jobs), progress)
    for warning in made.warnings:
        click.echo(f"warning: {warning}", err=True)
    click.echo(str(made.out))


@commands.command("words")
@click.option("--language", type=click.Choice(languages()), default="en", show_default=True, help="Whose words.")
def words_command(language: str) -> None:
    """Print every row of the printed words as it stands, to put some of them in your own words in style.yaml."""
    click.echo(words_text(language), nl=False)


@commands.command("preset")
@click.argument("name", required=False, type=click.Choice(presets()))
def preset_command(name: str | None) -> None:
    """Print the preset NAME, a style.yaml to begin with or to copy; without NAME, what they are called."""
    click.echo(preset_text(name) if name else "\n".join(presets()), nl=not name)


@commands.command()
@click.argument("groove", type=click.Path(path_type=Path))
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object for a program, with stable keys.")
def facts(groove: Path, as_json: bool) -> None:
    """Print what GROOVE, the file of one groove, is made of: cells, cross-rhythms, order, measures, rates.

    If the file lies in the folder grooves of a book, the instruments are those of the book's style.yaml.
    """
    from engraver.groove_facts import facts as facts_of

    found = facts_of(groove)
    click.echo(json.dumps(found.plain, indent=2, sort_keys=True, ensure_ascii=False) if as_json else found.sheet)


@commands.command()
@click.argument("folder", type=click.Path(path_type=Path))
def new(folder: Path) -> None:
    """Make FOLDER with a small book in it that can be built at once."""
    from engraver.starter import copy_starter

    copy_starter(folder)
    click.echo(f"{folder} is ready: engraver build {folder}")


@commands.command()
@click.argument("name", type=click.Choice(["book", "style", "groove"]))
def schema(name: str) -> None:
    """Print the JSON Schema of book.yaml, style.yaml or a groove file, for an editor that completes and checks."""
    from engraver import definition

    match name:
        case "book" | "style" | "groove":
            click.echo(json.dumps(definition.json_schema(name), indent=2, ensure_ascii=False))


def _click(name: str) -> Click:
    """Raises BadParameter for a name that no click has."""
    from engraver.export import Click

    kinds = {kind.value: kind for kind in Click}
    if name not in kinds:
        raise click.BadParameter(f"{name!r} is not one of {', '.join(kinds)}")
    return kinds[name]


def _counted(number: int, noun: str) -> str:
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"


@contextmanager
def _watched() -> Iterator[Progress]:
    """A progress bar on a terminal, silence elsewhere."""
    if not sys.stderr.isatty():
        yield lambda what, done, total: None
        return
    from rich import progress as bars
    from rich.console import Console

    columns = (
        bars.TextColumn("{task.description}"),
        bars.BarColumn(),
        bars.MofNCompleteColumn(),
        bars.TimeElapsedColumn(),
    )
    with bars.Progress(*columns, console=Console(stderr=True), transient=True) as bar:
        task = bar.add_task("reading", total=None)
        yield lambda what, done, total: bar.update(task, description=what, completed=done, total=total)
