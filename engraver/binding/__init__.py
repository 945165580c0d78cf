"""PDF pages into a book: engraved sheaves are numbered, joined, linked and labelled. Knows no music.

sheaf = open_sheaf(pdf)                                  # engraved PDF      -> its pages and marked spots
pagination = paginate([Section(sheaf), ...])             # sections          -> every page with its folio
bind(pagination, out, imprint, trim, furniture)          # pages, furniture  -> the book
"""

from engraver.binding.bind import bind, load_binder
from engraver.binding.boxes import Around, TrimSize
from engraver.binding.cuttings import Cuttings, cuttings
from engraver.binding.extract import extract, joined
from engraver.binding.imprint import Imprint
from engraver.binding.inks import Tone, black, grey
from engraver.binding.page_labels import Folio, Numbering
from engraver.binding.pagination import Bookmark, BookPage, Landing, Pagination, Section, paginate
from engraver.binding.sheaf import Descriptions, Sheaf, open_sheaf
from engraver.binding.spots import ANCHOR, LINK, Spot, mark

__all__ = [
    "ANCHOR",
    "LINK",
    "Around",
    "BookPage",
    "Bookmark",
    "Cuttings",
    "Descriptions",
    "Folio",
    "Imprint",
    "Landing",
    "Numbering",
    "Pagination",
    "Section",
    "Sheaf",
    "Spot",
    "Tone",
    "TrimSize",
    "bind",
    "black",
    "cuttings",
    "extract",
    "grey",
    "joined",
    "load_binder",
    "mark",
    "open_sheaf",
    "paginate",
]
