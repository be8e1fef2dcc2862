"""Turns the rules of `order.toml` into lags between the tasks of one campaign."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from turfplan.book.entries import OrderRule
from turfplan.book.words import book_message
from turfplan.phrases import prepare as phrases
from turfplan.records.book_names import COLLECTIVES, DIGGING, Flag, NamedFact, Selector
from turfplan.records.constraints import DayStep, Lag, Reason, Step, Strength
from turfplan.work.drafts import Draft
from turfplan.work.lag_steps import growth_step, workday_step
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.phases.marks import outlasts
from turfplan.work.places import leaves_lifted_out

SOWING = ("seed", "overseed", "dormant_seed")


def order_lags(
    setting: ResolvedLawn,
    drafts: Sequence[Draft],
    flags: frozenset[Flag],
    computed: Mapping[str, float],
) -> tuple[Lag, ...]:
    """Every lag between two tasks that a rule of the book asks for.

    `flags` are the words that hold of this season; `computed` are the numbers that rules name as
    `setting.…` and that follow from the lawn, in days or units of growth.
    """
    lags: list[Lag] = []
    named = _Named(drafts)
    for rule in setting.book.order:
        if not flags.issuperset(rule.when):
            continue
        befores = named.by(rule.before)
        afters = named.by(rule.after) if befores else ()
        if pairs := [(b, a) for b in befores for a in afters if b is not a and _paired(rule, b, a)]:
            lags.extend(_lags(setting, rule, pairs, computed))
    return tuple(lags)


class _Named:
    """The tasks of a season by what a rule calls them; each name is looked up once."""

    def __init__(self, drafts: Sequence[Draft]) -> None:
        self._of: dict[str, list[Draft]] = {}
        self._found: dict[str, Sequence[Draft]] = {}
        for draft in drafts:
            self._of.setdefault(draft.operation, []).append(draft)
        for word, operations in COLLECTIVES.items():
            self._of[word] = [draft for draft in drafts if draft.operation in operations]
        served = {name for draft in drafts for name in draft.serves}
        self._of[DIGGING] = [draft for draft in drafts if draft.id in served]

    def by(self, selector: str) -> Sequence[Draft]:
        """The tasks a selector names.

        An operation, `sowing`, `digging`, a task id, or the first or last of each session.
        """
        if selector not in self._found:
            self._found[selector] = self._matching(selector)
        return self._found[selector]

    def _matching(self, selector: str) -> Sequence[Draft]:
        operation, pick = Selector.of(selector)
        tasks = self._of.get(operation, ())
        # A look that each session has of its own is named by what they share: inspect.leaf_tips is
        # also inspect.leaf_tips.2.
        exact = [d for d in tasks if d.id == selector or (pick and d.id.startswith(f"{selector}."))]
        if exact:
            return exact
        if pick in ("first", "last"):
            return _outermost(tasks, first=pick == "first")
        if pick.startswith("not_"):
            left_out = f"{operation}.{pick.removeprefix('not_')}"
            return [d for d in tasks if not f"{d.id}.".startswith(f"{left_out}.")]
        return tasks if pick in ("", "previous", "next") else ()


def _outermost(drafts: Sequence[Draft], *, first: bool) -> Sequence[Draft]:
    """The first or the last task of each session."""
    choose = min if first else max
    return [
        choose((d for d in drafts if d.session == session), key=lambda d: d.position)
        for session in sorted({d.session for d in drafts})
    ]


def _paired(rule: OrderRule, before: Draft, after: Draft) -> bool:
    """Whether a rule binds two tasks.

    A request for marks and what it serves; neighbours by number where it says so, else tasks of one
    session.
    """
    if rule.after == DIGGING:
        return after.id in before.serves
    if rule.either and not _wished_first(before, after):
        return False
    if rule.same_ground and leaves_lifted_out(after.where):
        return False
    if before.strips and before.strips == after.strips:
        # They go side by side, strip by strip.
        return False
    if before.load is not None and after.load is not None:
        return before.load == after.load
    if before.loads and after.load is not None:
        # An order, and what it asks for.
        return after.load in before.loads
    if before.load is not None and after.operation == "topdress":
        # A load for some strips of a pass is bound by itself.
        return before.load in after.loads
    if rule.before.endswith(".previous"):
        same_kind = before.operation == after.operation
        same_session = (
            before.session == after.session or before.operation in COLLECTIVES["spreading"]
        )
        return (
            before.position == after.position - 1
            and same_session
            and (same_kind or before.session == after.session)
        )
    if rule.after.endswith(".next"):
        return before.position == after.position
    if "." in rule.before and (rule.before, rule.after) == (before.id, after.id):
        # Two tasks that a rule names by their keys are bound whatever session they belong to.
        return True
    return before.session == after.session or (
        0 in (before.session, after.session) and -1 not in (before.session, after.session)
    )


def _wished_first(before: Draft, after: Draft) -> bool:
    """Whether one of two tasks that may come in either order is wished before the other."""
    if before.ideal is None or after.ideal is None:
        return False
    return (before.ideal, before.id) < (after.ideal, after.id)


def _lags(
    setting: ResolvedLawn,
    rule: OrderRule,
    pairs: Sequence[tuple[Draft, Draft]],
    computed: Mapping[str, float],
) -> list[Lag]:
    """One rule between each of the pairs of tasks that it binds."""

    def step(name: NamedFact | None) -> Step | None:
        if name is None:
            return None
        number = computed[name] if name in computed else setting.book.si(name)
        if rule.unit == "growth":
            return growth_step(
                setting.climate,
                setting.turf.species.season,
                setting.first_day,
                setting.last_day,
                number,
            )
        if rule.unit == "workdays":
            days = setting.calendar.business
            return workday_step(days, setting.first_day - 60, setting.last_day, round(number))
        return DayStep(round(number))

    named = [n for n in (rule.minimum, rule.maximum) if n is not None and n not in computed]
    why = book_message(setting.book, f"order.{rule.id}.reason")
    reason, strength = Reason(rule.id, why, tuple(named)), Strength[rule.strength.upper()]
    # A rule that names only a limit, or no number at all, still says which comes first.
    least, longest = step(rule.minimum) or DayStep(0), step(rule.maximum)
    lags = []
    for before, after in pairs:
        name, nodes = f"{rule.id}:{before.id}>{after.id}", (before.end_node, after.start_node)
        if after.by_strip and (before.by_strip or before.strips):
            # The first strip has its days from its own first day on, the last from its last.
            first, final = (before.start_node, after.start_node), (before.end_node, after.end_node)
            lags.append(Lag(name, *first, strength, reason, least, longest, alongside=True))
            lags.append(Lag(f"{name}:last", *final, strength, reason, least, longest))
            continue
        last = before.start_node, after.end_node
        # Closed bags keep longer than any heap.
        most = None if before.bags else longest
        renewed = rule.whole and rule.after == DIGGING and outlasts(setting, after)
        told = replace(reason, text=phrases.marks_begin()) if renewed else reason
        whole = rule.whole and not renewed
        if whole and most is not None and last != nodes:
            lags.append(Lag(name, *nodes, strength, reason, least))
            lags.append(Lag(f"{name}:whole", *last, strength, reason, maximum=most))
        elif rule.minimum is None and most is not None:
            # A limit may have to give way, and does so first; which of the two comes first stays.
            lags.append(Lag(name, *nodes, strength, told, maximum=most))
            lags.append(Lag(f"{name}:order", *nodes, strength, reason, least))
        else:
            lags.append(Lag(name, *nodes, strength, reason, least, most))
    return lags
