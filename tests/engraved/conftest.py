"""One workshop a page design for all engraved tests, and the grooves of a module engraved together."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import ExitStack

import pytest

from engraver.engraving import Engine, Workshop
from engraver.style import designs, include_folders
from tests.engraved.sheets import Case, Sheet, engrave


@pytest.fixture(scope="session")
def shops(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Mapping[str, Workshop]]:
    with ExitStack() as stack:
        yield {
            design: stack.enter_context(
                Workshop(Engine.find(), include_folders(design), tmp_path_factory.mktemp(design))
            )
            for design in designs()
        }


@pytest.fixture(scope="session")
def shop(shops: Mapping[str, Workshop]) -> Workshop:
    return shops["workbook"]


@pytest.fixture(scope="session")
def engraved(shops: Mapping[str, Workshop]) -> Callable[[Sequence[Case]], Mapping[str, Sheet]]:
    """Cases of any design; names are told apart over all of them."""

    def each(cases: Sequence[Case]) -> Mapping[str, Sheet]:
        assert len({case.name for case in cases}) == len(cases)
        sheets: dict[str, Sheet] = {}
        for design, shop in shops.items():
            own = [case for case in cases if case.style.design == design]
            sheets |= engrave(shop, own)
        return sheets

    return each
