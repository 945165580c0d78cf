"""LilyPond text from plans and scores, through the templates of a page design. No decisions about music."""

from engraver.lilypond.back import answers, log, plan
from engraver.lilypond.chapter import ChapterSource, chapter
from engraver.lilypond.closing import WholeChapter, closing
from engraver.lilypond.contents import contents
from engraver.lilypond.front import cautions, own, part, rights
from engraver.lilypond.furniture import Filled, PageFurniture, furniture
from engraver.lilypond.index import index
from engraver.lilypond.laid_out import laid_out, lay_out
from engraver.lilypond.matter import Matter
from engraver.lilypond.reading import reading
from engraver.lilypond.source import Source
from engraver.lilypond.specimen import Figure, illustration, specimen
from engraver.lilypond.staff import Origin, origin
from engraver.lilypond.title import title
from engraver.lilypond.told import told

__all__ = [
    "ChapterSource",
    "Figure",
    "Filled",
    "Matter",
    "Origin",
    "PageFurniture",
    "Source",
    "WholeChapter",
    "answers",
    "cautions",
    "chapter",
    "closing",
    "contents",
    "furniture",
    "illustration",
    "index",
    "laid_out",
    "lay_out",
    "log",
    "origin",
    "own",
    "part",
    "plan",
    "reading",
    "rights",
    "specimen",
    "title",
    "told",
]
