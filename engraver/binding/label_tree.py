"""The tree of page labels: the folios of a book in, what tells a PDF the same out.

Source: ISO 32000-1:2008, 12.4.2 and Table 159 (styles ``D`` and ``r``, ``St`` the first number, keys page indexes).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from engraver.binding.page_labels import Folio, Numbering


def label_tree(folios: Sequence[Folio]) -> dict[str, Any]:
    """The /PageLabels of a document whose pages carry these folios."""
    return {"/Nums": [part for index, folio in _runs(folios) for part in (index, _range(folio))]}


def _runs(folios: Iterable[Folio]) -> Iterator[tuple[int, Folio]]:
    """Where a run of folios that follow one another begins, and with which."""
    expected = None
    for index, folio in enumerate(folios):
        if folio != expected:
            yield index, folio
        expected = Folio(folio.numbering, folio.number + 1)


def _range(first: Folio) -> dict[str, Any]:
    if first.numbering is Numbering.UNNUMBERED:
        return {}  # no style: a label is its prefix alone, and there is none
    label = {"/S": first.numbering.value}
    return label if first.number == 1 else {**label, "/St": first.number}
