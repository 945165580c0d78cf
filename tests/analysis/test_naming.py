"""A changed form with a prime: A′ is a changed A, and everything else that was found stays as it was."""

from __future__ import annotations

from dataclasses import replace

from engraver import analysis, definition
from engraver.analysis import PRIME, Analysis, with_primes
from engraver.rhythm import Groove

TEXT = """
title: Two Frames
tempo: 90
bars: 3
layers:
  - name: Frame
    strokes:
      bass drum: {cycle: "x-x---"}
      crash:     {cycle: "X-----"}
  - name: Ghost notes
    strokes:
      snare: {bar 1: "-g-- ---- -g-- ----", bar 3: "---- -g-- ---g -g--"}
cells: {length: 6}
"""


def found() -> Analysis:
    groove: Groove = definition.to_groove(definition.parse_groove(TEXT))
    return analysis.analyse(groove, analysis.StatedCells(6, 0))


def test_each_changed_form_is_its_base_with_one_prime_more() -> None:
    cells, primed = found().cells, with_primes(found()).cells
    assert cells and primed
    assert (cells.skeleton[0], {cell.base for cell in cells.cells}) == ("A", {"A"})
    changed = [cell.letter for cell in cells.cells if cell.base != cell.letter]
    assert len(changed) >= 2
    assert [cell.letter for cell in primed.cells if cell.base != cell.letter] == [
        "A" + PRIME * (n + 1) for n in range(len(changed))
    ]


def test_the_order_is_the_same_under_either_name() -> None:
    cells, primed = found().cells, with_primes(found()).cells
    assert cells and primed
    pairs = set(zip(cells.full, primed.full, strict=True))
    assert len({letter for letter, _ in pairs}) == len({name for _, name in pairs}) == len(pairs)
    assert primed.skeleton == cells.skeleton


def test_layers_end_on_the_letters_of_the_reading() -> None:
    primed = with_primes(found())
    assert primed.cells and primed.layer_effects
    assert primed.layer_effects[-1].after == primed.cells.full


def test_a_groove_without_changed_cells_keeps_its_letters() -> None:
    facts = found()
    plain = replace(facts, cells=facts.cells and replace(facts.cells, cells=facts.cells.cells[:1]))
    assert with_primes(plain).cells == plain.cells
