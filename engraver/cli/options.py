"""What commands share: the folder they are given, the options of engraving, a progress bar, counts in words."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

if TYPE_CHECKING:
    from engraver.making.press import Progress

MOST_JOBS = 64


class Jobs(click.ParamType[int]):
    name = "number"

    def convert(self, value: object, param: click.Parameter | None, ctx: click.Context | None) -> int:
        text = str(value)
        if not (text.isascii() and text.isdigit() and 1 <= int(text) <= MOST_JOBS):
            self.fail(f"{text!r} is not a number of jobs: write 1 to {MOST_JOBS}", param, ctx)
        return int(text)


def folder_argument(command: Callable[..., Any]) -> Callable[..., Any]:
    return click.argument("folder", default=".", type=click.Path(path_type=Path))(command)


def engine_options(command: Callable[..., Any]) -> Callable[..., Any]:
    for option in (
        click.option(
            "--out",
            metavar="OUT",
            type=click.Path(path_type=Path, file_okay=False),
            default=Path("build"),
            show_default=True,
            help="Where the book goes, and the engraved pages that are kept for the next time.",
        ),
        click.option(
            "--lilypond",
            metavar="PATH",
            help="A LilyPond 2.24 or 2.25 to use instead of the one that came with Engraver "
            "(or name it in ENGRAVER_LILYPOND).",
        ),
        click.option(
            "--jobs", type=Jobs(), metavar="N", help="How many chapters to engrave at once; as many as there are cores."
        ),
    ):
        command = option(command)
    return command


@contextmanager
def watched() -> Iterator[Progress]:
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
