from turfplan.app.book_facts import FactRow
from turfplan.app.open_windows import WindowsHere
from turfplan.errors import Problem, TurfplanError
from turfplan.notebook import book_facts, open_windows, plan_lawn, replan_lawn
from turfplan.records.journal import JournalEntry
from turfplan.records.plan import Plan, PlanConflict
from turfplan.records.plan_task import Task

__version__: str
__all__ = [
    "FactRow",
    "JournalEntry",
    "Plan",
    "PlanConflict",
    "Problem",
    "Task",
    "TurfplanError",
    "WindowsHere",
    "__version__",
    "book_facts",
    "open_windows",
    "plan_lawn",
    "replan_lawn",
]
