# make book   the demo book, in build/
# make test   lint, types, tests
# make pictures   the pages and settings that the documents show
# make overlaps  the demo book in every design and preset and on both papers: what lies on something else
# make bench  how fast books are made, against LilyPond by hand: BOOKS=10,100,300 says how many grooves they have
# make setup  the environment in .venv alone
PYTHON ?= python3
BOOKS  ?= 10,100,300
VENV   := .venv
BIN    := $(VENV)/bin
STAMP  := $(VENV)/.up-to-date

.PHONY: book test setup lint unit pictures overlaps bench clean
book: setup
	$(BIN)/engraver build book --sources

test: lint unit

lint: setup
	$(BIN)/ruff check .
	$(BIN)/mypy

unit: setup
	$(BIN)/pytest -n auto

setup: $(STAMP)

$(STAMP): pyproject.toml constraints.txt
	$(PYTHON) -m venv $(VENV)
	$(BIN)/python -m pip install --quiet --disable-pip-version-check -c constraints.txt -e '.[dev]'
	$(BIN)/python -m compileall -q engraver
	@touch $@

pictures: setup
	$(BIN)/python docs/pictures.py book build/pictures docs/pages
	$(BIN)/python docs/style_pictures.py docs/style
	$(BIN)/python docs/style_page.py docs/style.md

overlaps: setup
	$(BIN)/python -m tests.engraved.overlaps_of_the_book

bench: setup
	$(BIN)/python tests/bench/engraving.py --books $(BOOKS)

clean:
	rm -rf build
