"""A style sheet: every sign and every setting of a book's style on a few pages, for its author to look at."""

from engraver.specimen.make import Specimen, specimen

__all__ = ["Specimen", "specimen"]
