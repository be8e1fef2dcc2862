"""Turfplan plans a whole lawn renovation over one season, with a reason for every date and a source
for every amount.

What may be imported stands in `__all__`; its page is `turfplan.notebook`.
"""

from importlib import import_module

__version__ = "0.1.0"
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
# Where each name lives: imported when it is first asked for, so that `import turfplan` costs
# nothing. Types are told to readers of the package by `__init__.pyi`.
_HOMES = {
    "plan_lawn": "notebook",
    "replan_lawn": "notebook",
    "open_windows": "notebook",
    "book_facts": "notebook",
    "Plan": "records.plan",
    "Task": "records.plan_task",
    "PlanConflict": "records.plan",
    "JournalEntry": "records.journal",
    "Problem": "errors",
    "TurfplanError": "errors",
    "FactRow": "app.book_facts",
    "WindowsHere": "app.open_windows",
}


def __getattr__(name: str) -> object:
    """The public thing of that name, imported now."""
    if name not in _HOMES:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    found: object = getattr(import_module(f"{__name__}.{_HOMES[name]}"), name)
    globals()[name] = found
    return found


def __dir__() -> list[str]:
    """The public names, imported or not."""
    return sorted({*globals(), *__all__})
