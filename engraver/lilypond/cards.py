"""What the cards of the cell key say: how a cell differs from its relative, stroke by stroke."""

from __future__ import annotations

from engraver.analysis import Edit
from engraver.chapters import CellCard
from engraver.style import Words


def difference(card: CellCard, say: Words) -> str:
    if not card.like:
        return say("the first cell") if card.cell.letter == "A" else say("its own")
    return say("plain difference", base=card.like)


def cell_words(card: CellCard, say: Words) -> str:
    return "; ".join(_edit(edit, say) for edit in card.edits)


def _edit(edit: Edit, say: Words) -> str:
    name = say.name(edit.instrument)
    if edit.mark == "-":
        return say("edit loses", instrument=name, step=edit.step + 1)
    mark = say(f"mark {edit.mark}") if f"mark {edit.mark}" in say.entries else edit.mark
    if edit.was == "-":
        return say("edit gains", instrument=f"{name}, {mark}" if edit.mark != "x" else name, step=edit.step + 1)
    return say("edit becomes", instrument=name, step=edit.step + 1, mark=mark)
