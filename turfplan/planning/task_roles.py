"""The roles of the tasks of a plan that was made before."""

from turfplan.book.entries import Book
from turfplan.records.plan import Plan
from turfplan.records.plan_task import Task


def with_roles(plan: Plan, book: Book) -> Plan:
    """The plan before with the roles that the book in force gives its operations, beside those that
    its tasks have of their own.

    An older program wrote none. Whether a look digs, the lawn decides, not its operation.
    """
    return plan.model_copy(update={"tasks": tuple(_with_roles(t, book) for t in plan.tasks)})


def _with_roles(task: Task, book: Book) -> Task:
    operation = book.operations.get(task.operation)
    lacking = () if operation is None else tuple(r for r in operation.roles if r not in task.roles)
    return task.model_copy(update={"roles": (*task.roles, *lacking)}) if lacking else task
