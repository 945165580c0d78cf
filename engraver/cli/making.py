"""The commands that engrave: build, release, verify, specimen."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from engraver.cli.options import engine_options, folder_argument, watched
from engraver.errors import DefinitionError, counted
from engraver.making.where import Where

if TYPE_CHECKING:
    from engraver.export import Click


@click.command("build", short_help="Make the book: one PDF.")
@folder_argument
@engine_options
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
    with watched() as progress:
        wanted = (clicked or _click("none")) if midi else None
        report = build(where, progress, wanted, every_tempo=every_tempo, sources=sources)
    for warning in report.warnings:
        click.echo(f"warning: {warning}", err=True)
    if explain:
        from engraver.making import page_report
        from engraver.manuscript import reasons

        for line in reasons.told(report.causes):
            click.echo(line)
        for what, spent in report.times.items():
            click.echo(f"{spent.clock:7.2f} s  {what}, {spent.work:.2f} s of them at work")
        own, lilypond_used = report.processor
        click.echo(f"{own + lilypond_used:7.2f} s  of processors, {lilypond_used:.2f} s of them LilyPond's")
        for line in page_report.told(report.fills):
            click.echo(line)
    if midi:
        click.echo(f"{where.midi}: {report.midi} MIDI files")
    size = f"{counted(report.pages, 'page')}, {counted(report.chapters, 'chapter')}"
    click.echo(f"{report.book}: {size}")
    if editions:
        _make_editions(where)


def _make_editions(where: Where) -> None:
    from engraver import definition
    from engraver.making.print_run import print_run

    with watched() as progress:
        run = print_run(where, definition.read(where.folder), where.editions, progress)
    for warning in run.warnings:
        click.echo(f"warning: {warning}", err=True)
    for one in run.made:
        click.echo(f"{one.file}: {counted(one.pages, 'page')}")


@click.command("release", short_help="Make what is sold: every edition, MIDI, an archive.")
@folder_argument
@engine_options
@click.option(
    "--buyers",
    metavar="FILE",
    type=click.Path(path_type=Path, dir_okay=False),
    help="A CSV file with the columns name and order: each row gets a copy of every screen edition.",
)
def release_command(folder: Path, out: Path, lilypond: str | None, jobs: int | None, buyers: Path | None) -> None:
    """Make what is sold of FOLDER: its editions, MIDI, texts, licence and checksums, in OUT/release and as an archive.

    A book is refused if a file has a fault, a score is not what its groove says, ink lies on other ink, LilyPond
    warns, or the rights line, the licence or the origin of a groove is missing. With --buyers, rows that cannot be
    read are told by their lines; all others get their copy, and the exit code is 1.
    """
    from engraver.release import release

    with watched() as progress:
        released = release(Where(folder, out, lilypond, jobs), buyers, progress)
    for one in released.made:
        click.echo(f"{one.file}: {counted(one.pages, 'page')}")
    click.echo(str(released.archive))
    if released.copies:
        click.echo(f"{released.copies}: copies for {counted(len(released.buyers.buyers), 'buyer')}")
    if released.buyers.problems:
        raise DefinitionError(released.buyers.problems)


@click.command(short_help="Prove that no stroke is lost and no ink lies on other ink.")
@folder_argument
@engine_options
def verify(folder: Path, out: Path, lilypond: str | None, jobs: int | None) -> None:
    """Prove that no stroke is lost: every score of FOLDER is played and read back, and compared with its groove.

    Two things are compared stroke by stroke: what LilyPond performs, and the ink that it draws. Ink that lies on other
    ink is told too.
    """
    from engraver.making.proving import verify as prove

    where = Where(folder, out, lilypond, jobs)
    with watched() as progress:
        proved = prove(where, progress)
    click.echo(f"{folder}: {proved.strokes} strokes in {proved.scores} scores, none lost in sound or in ink")


@click.command("specimen", short_help="Print every sign and setting of a style.")
@folder_argument
@engine_options
def specimen_command(folder: Path, out: Path, lilypond: str | None, jobs: int | None) -> None:
    """Print every sign and setting of FOLDER's style on a few pages: OUT/FOLDER-specimen.pdf."""
    from engraver.specimen import specimen

    with watched() as progress:
        made = specimen(Where(folder, out, lilypond, jobs), progress)
    for warning in made.warnings:
        click.echo(f"warning: {warning}", err=True)
    click.echo(str(made.out))


def _click(name: str) -> Click:
    """Raises BadParameter for a name that no click has."""
    from engraver.export import Click

    kinds = {kind.value: kind for kind in Click}
    if name not in kinds:
        raise click.BadParameter(f"{name!r} is not one of {', '.join(kinds)}")
    return kinds[name]
