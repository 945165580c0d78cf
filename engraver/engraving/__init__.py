"""LilyPond texts to PDFs, on all cores, or to those made earlier from the same text. Knows no music."""

from engraver.engraving.engine import Engine
from engraver.engraving.job import Complaint, Engraved, Job, Severity
from engraver.engraving.order import Progress
from engraver.engraving.run import Limits
from engraver.engraving.workshop import Workshop, engrave

__all__ = ["Complaint", "Engine", "Engraved", "Job", "Limits", "Progress", "Severity", "Workshop", "engrave"]
