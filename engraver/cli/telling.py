"""The commands that engrave nothing: check, facts, words, preset, new, schema."""

from __future__ import annotations

import json
from pathlib import Path

import click

from engraver.cli.options import folder_argument
from engraver.errors import DefinitionError, counted
from engraver.style import languages, preset_text, presets, words_text


@click.command(short_help="List every fault; nothing is engraved.")
@folder_argument
def check(folder: Path) -> None:
    """Look for faults in the files of FOLDER and list all of them; nothing is engraved."""
    from engraver import definition
    from engraver.manuscript.planning import plan_book

    problems = definition.check(folder)
    if problems:
        raise DefinitionError(problems)
    book = definition.read(folder)
    for chapter in plan_book(book):
        for warning in chapter.plan.warnings:
            click.echo(f"warning: {warning}", err=True)
    click.echo(f"{folder}: no faults in {counted(len(book.chapters), 'groove')}")


@click.command("words", short_help="Print the printed words, to change some of them.")
@click.option("--language", type=click.Choice(languages()), default="en", show_default=True, help="Whose words.")
def words_command(language: str) -> None:
    """Print every row of the printed words as it stands, to put some of them in your own words in style.yaml."""
    click.echo(words_text(language), nl=False)


@click.command("preset", short_help="Print a style file to begin with.")
@click.argument("name", required=False, metavar="[NAME]", type=click.Choice(presets()))
def preset_command(name: str | None) -> None:
    """Print the preset NAME, a style.yaml to begin with or to copy; without NAME, what they are called.

    A name of two words is put in quotes: engraver preset "large print".
    """
    click.echo(preset_text(name) if name else "\n".join(presets()), nl=not name)


@click.command(short_help="Print what a groove is made of.")
@click.argument("groove", type=click.Path(path_type=Path))
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object for a program, with stable keys.")
def facts(groove: Path, as_json: bool) -> None:
    """Print what GROOVE, the file of one groove, is made of: cells, cross-rhythms, order, measures, rates.

    If the file lies in the folder grooves of a book, the instruments are those of the book's style.yaml.
    """
    from engraver.manuscript.groove_facts import facts as facts_of

    found = facts_of(groove)
    click.echo(json.dumps(found.plain, indent=2, sort_keys=True, ensure_ascii=False) if as_json else found.sheet)


@click.command(short_help="Make a folder with a small book in it.")
@click.argument("folder", type=click.Path(path_type=Path))
def new(folder: Path) -> None:
    """Make FOLDER with a small book in it that can be built at once."""
    from engraver.starter import copy_starter

    copy_starter(folder)
    click.echo(f"{folder} is ready: engraver build {folder}")


@click.command(short_help="Print the JSON Schema of a file, for an editor.")
@click.argument("name", metavar="NAME", type=click.Choice(["book", "style", "groove"]))
def schema(name: str) -> None:
    """Print a JSON Schema, for an editor that completes and checks. NAME is book, style or groove."""
    from engraver import definition

    match name:
        case "book" | "style" | "groove":
            click.echo(json.dumps(definition.json_schema(name), indent=2, ensure_ascii=False))
