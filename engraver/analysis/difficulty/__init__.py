"""How hard an exercise is beside others: limbs in, a sum of named parts and a grade out."""

from engraver.analysis.difficulty.entropy import next_limbs_entropy
from engraver.analysis.difficulty.grade import GRADES, grade
from engraver.analysis.difficulty.total import Difficulty, difficulty

__all__ = ["GRADES", "Difficulty", "difficulty", "grade", "next_limbs_entropy"]
