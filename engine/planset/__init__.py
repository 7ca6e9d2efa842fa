"""The plan set: drawings and lists on PDF sheets, with the lists as CSV beside them."""

from engine.planset.book import PlanSetError
from engine.planset.papers import PAPERS, PaperError
from engine.planset.plan_set import write

__all__ = ["PAPERS", "PaperError", "PlanSetError", "write"]
