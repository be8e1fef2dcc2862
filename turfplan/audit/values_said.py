"""Every task says what its reader needs: what it is, why, why on this day, and where each amount
comes from."""

from collections.abc import Iterator

from turfplan.audit.case import Case
from turfplan.audit.faults import Fault, fault
from turfplan.records.plan_task import Task

# Worked out from another amount of the same task, or printed on the owner's own bag: they need no
# fact beside the reason.
DERIVED = frozenset(
    {
        "weight per area",
        "product_rate",
        "product",
        "phosphate",
        "potash",
        "slow_nitrogen",
        "seed held back",
        "sown area",
    }
)


def titles(case: Case) -> Iterator[Fault]:
    """Every task has a title."""
    for task in case.open:
        if not str(task.title).strip():
            yield fault("title_missing", task)


def no_word_missing(case: Case) -> Iterator[Fault]:
    """No braces stand where a word should."""
    for task in case.open:
        said = "".join(
            map(
                str,
                (
                    task.title,
                    task.why,
                    *task.how,
                    task.go or "",
                    task.fallback or "",
                    *task.cautions,
                ),
            )
        )
        if "{" in said or "}" in said:
            yield fault("word_missing", task)


def reasons(case: Case) -> Iterator[Fault]:
    """Every task says why it is done."""
    for task in case.open:
        if not str(task.why).strip():
            yield fault("why_missing", task)


def days_explained(case: Case) -> Iterator[Fault]:
    """Every day has a reason not to be earlier, and one not to be later."""
    for task in case.open:
        if not any(task.not_earlier) or not any(task.not_later):
            yield fault("day_unexplained", task, day=task.start)


def amounts_explained(case: Case) -> Iterator[Fault]:
    """Every amount says why it is so much."""
    for task in case.open:
        for amount in task.amounts:
            if not str(amount.reason).strip():
                yield fault("amount_unexplained", task, item=amount.item)


def amounts_have_facts(case: Case) -> Iterator[Fault]:
    """Every amount names the facts it stands on, but for seed by a rate and loads of a mix that the
    brief itself asks for."""
    leveling, own = case.brief.leveling, set(DERIVED)
    if case.brief.seeding.rate_g_m2 is not None:
        own |= {"seed rate", "seed"}
    asked = leveling.material != "auto" or leveling.parts is not None
    for task in case.open:
        loaded = asked and task.plays("ordering", "delivery")
        for amount in task.amounts:
            if not amount.facts and amount.item not in own and not loaded:
                yield fault("amount_without_fact", task, item=amount.item)


def facts_known(case: Case) -> Iterator[Fault]:
    """Every fact that a task, an amount or a line names stands in the book."""
    known = case.book.facts
    # Most tasks name the same few: each tuple of names is looked up once.
    named = {amount.facts for task in case.open for amount in task.amounts}
    named |= {record.facts for records in (case.open, case.plan.order) for record in records}
    unknown = {name for names in named for name in names if name not in known}
    for task in case.open if unknown else ():
        for name in sorted(unknown & {*task.facts, *_of_amounts(task)}):
            yield fault("fact_unknown", task, fact=name)
    for name in sorted({name for line in case.plan.order for name in line.facts} & unknown):
        yield fault("fact_unknown", fact=name)


def _of_amounts(task: Task) -> set[str]:
    return {name for amount in task.amounts for name in amount.facts}


INVARIANTS = (
    titles,
    no_word_missing,
    reasons,
    days_explained,
    amounts_explained,
    amounts_have_facts,
    facts_known,
)
