"""The read-me for the buyer: what is in a release and what each file is for, as plain text, in the book's language."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator

from engraver.definition import BookDefinition
from engraver.making.print_run import Made
from engraver.style import Words

WIDTH = 78  # characters, so that a line fits wherever a plain text is opened


def read_me(book: BookDefinition, made: Iterable[Made], midi: int, say: Words) -> str:
    """``midi``: how many MIDI files."""
    return "\n".join([*_head(book, say), *_files(made, midi, say), *_foot(book, say), ""])


def _head(book: BookDefinition, say: Words) -> Iterator[str]:
    yield book.title
    yield "=" * len(book.title)
    yield from (line for line in (book.subtitle, book.author, book.edition) if line)
    yield from ("", *_wrapped(say("read-me about", title=book.title)), "")


def _files(made: Iterable[Made], midi: int, say: Words) -> Iterator[str]:
    for one in made:
        use = say(f"read-me {one.edition.kind.value}", paper=one.edition.paper.name)
        yield from _item(one.file.name, f"{use} {say('read-me pages', n=one.pages)}")
    yield from _item("text/", say("read-me text"))
    yield from _item("midi/", say("read-me midi", n=midi))
    yield from _item("LICENCE.txt", say("read-me licence"))
    yield from _item("SHA256SUMS", say("read-me checksums"))


def _foot(book: BookDefinition, say: Words) -> Iterator[str]:
    yield from ("", *_wrapped(say("read-me printing")), "", *_wrapped(book.rights))


def _item(name: str, said: str) -> Iterable[str]:
    return (name, *textwrap.wrap(said, WIDTH, initial_indent="    ", subsequent_indent="    "))


def _wrapped(text: str) -> Iterable[str]:
    return textwrap.wrap(text, WIDTH)
