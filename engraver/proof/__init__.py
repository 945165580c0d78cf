"""Nothing lost, in sound and in ink: every engraved chapter is read back and compared with its groove.

text = proof.source(chapter)                                   # ChapterSource -> the text of an engraving job
differences = proof.compare(plan, style, chapter, engraved)    # what came of that job -> what is lost, if anything
collisions = proof.collisions(plan, chapter, engraved)         # the same job -> what lies on something else
"""

from engraver.proof.difference import Difference, Place
from engraver.proof.source import read_back, source
from engraver.proof.verify import collisions, compare

__all__ = ["Difference", "Place", "collisions", "compare", "read_back", "source"]
