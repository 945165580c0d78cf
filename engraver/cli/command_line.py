"""Runs a command and turns what went wrong into words and an exit code.

Exit codes: 0 all is well, 1 the author's files have faults, 2 the command was called wrongly, 3 engraving or binding
failed, 4 a program or font is missing, 5 the proof found a difference, 70 a mistake of the program, 130 it was stopped.
"""

from __future__ import annotations

import gc
import sys

import click

from engraver import __version__
from engraver.cli import STOPPED, making, telling
from engraver.errors import DefinitionError, EngraverError, EngravingError, MissingTool, NotationError, ProofError

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
        click.echo("stopped; a book that was made before is still there", err=True)
        click.echo("hint: run it again: pages that were engraved are kept", err=True)
        sys.exit(STOPPED)
    except click.ClickException as error:
        error.show()
        sys.exit(error.exit_code)
    except OSError as error:
        click.echo(f"{error.filename or 'a file'}: {error.strerror or error}", err=True)
        click.echo("hint: see that it can be written to, and that the disk has room", err=True)
        sys.exit(3)
    except Exception as error:  # never a traceback for an author; the fault is ours
        click.echo(f"Engraver made a mistake of its own: {type(error).__name__}: {error}", err=True)
        click.echo("hint: your files are as they were; please report this with the command you ran", err=True)
        sys.exit(70)


class InOrder(click.Group):
    """Lists its commands as an author comes to need them."""

    def list_commands(self, context: click.Context) -> list[str]:
        return list(self.commands)


@click.group(cls=InOrder, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, message="engraver %(version)s")
def commands() -> None:
    """Turn one small text file per drum groove into the pages of a method book.

    Start with "engraver new my-book", look into the files that it makes, then "engraver build my-book".
    """


for command in (
    telling.new,
    telling.check,
    making.build_command,
    making.verify,
    making.release_command,
    making.specimen_command,
    telling.preset_command,
    telling.words_command,
    telling.facts,
    telling.schema,
):
    commands.add_command(command)
