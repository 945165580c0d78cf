"""The tree of page labels: the folios of a book in, what tells a PDF the same out.

Source: ISO 32000-1:2008, 12.4.2 and Table 159 (styles ``D`` and ``r``, ``St`` the first number, keys page indexes).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from pypdf.generic import ArrayObject, DictionaryObject, NameObject, NumberObject

from engraver.binding.page_labels import Folio, Numbering


def label_tree(folios: Sequence[Folio]) -> DictionaryObject:
    """The /PageLabels of a document whose pages carry these folios."""
    numbers = ArrayObject(part for index, folio in _runs(folios) for part in (NumberObject(index), _range(folio)))
    return DictionaryObject({NameObject("/Nums"): numbers})


def _runs(folios: Iterable[Folio]) -> Iterator[tuple[int, Folio]]:
    """Where a run of folios that follow one another begins, and with which."""
    expected = None
    for index, folio in enumerate(folios):
        if folio != expected:
            yield index, folio
        expected = Folio(folio.numbering, folio.number + 1)


def _range(first: Folio) -> DictionaryObject:
    if first.numbering is Numbering.UNNUMBERED:
        return DictionaryObject()  # no style: a label is its prefix alone, and there is none
    label = DictionaryObject({NameObject("/S"): NameObject(first.numbering.value)})
    if first.number != 1:
        label[NameObject("/St")] = NumberObject(first.number)
    return label
