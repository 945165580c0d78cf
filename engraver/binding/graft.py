"""Grafting: cuttings of engraved files put into a book, each only once.

In: the cuttings of a file. Out: the numbers that its objects have in the book's document. Objects of equal bytes, in
whatever file they stand, become one: so chapters share the fonts and forms that they have in common.
"""

from __future__ import annotations

from pathlib import Path

from engraver.binding.cuttings import Cutting, Cuttings
from engraver.binding.document import Document, Stream
from engraver.binding.syntax import Reference, Verbatim


class Graft:
    """The objects of one engraved file in the book."""

    def __init__(self, document: Document, pdf: Path, cuttings: Cuttings) -> None:
        self.document, self._pdf, self._cuttings = document, pdf, cuttings.objects
        self._known: dict[int, Reference] = {}

    def reference(self, place: int) -> Reference:
        """An object by its place among the cuttings."""
        if place not in self._known:
            self._known[place] = self.planted(self._cuttings[place])
        return self._known[place]

    def planted(self, cutting: Cutting) -> Reference:
        """An object of its own, or the equal one that is there."""
        return self.document.once(cutting.digest, lambda: self._object(cutting))

    def filled(self, cutting: Cutting) -> Verbatim:
        """Its text with the numbers of what it needs."""
        return Verbatim(cutting.text % tuple(self.reference(place).number for place in cutting.needs))

    def stream(self, cutting: Cutting, text: Verbatim) -> Stream:
        """Its stream, with other entries."""
        assert cutting.stream, "what draws is a stream"
        return Stream(text, (self._pdf, *cutting.stream))

    def _object(self, cutting: Cutting) -> Verbatim | Stream:
        text = self.filled(cutting)
        return text if cutting.stream is None else self.stream(cutting, text)
