"""The order of work: turns the rules of `order.toml` into lags between the tasks of one campaign."""

from collections.abc import Mapping, Sequence

from turfplan.agronomy import OrderRule
from turfplan.constraints import Days, Lag, Reason, Step, Strength
from turfplan.rules.draft import Draft
from turfplan.rules.setting import Setting
from turfplan.rules.steps import growth_step, workday_step

SOWING = ("seed", "overseed", "dormant_seed")


def order_lags(
    setting: Setting, drafts: Sequence[Draft], flags: frozenset[str], computed: Mapping[str, float]
) -> tuple[Lag, ...]:
    """Every lag between two tasks that a rule of the book asks for.

    `flags` are the words that hold of this season; `computed` are the numbers that rules name as `setting.…` and that
    follow from the lawn, in days or units of growth.
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
        self._of["sowing"] = [draft for draft in drafts if draft.operation in SOWING]

    def by(self, selector: str) -> Sequence[Draft]:
        """The tasks a selector names: an operation, `sowing`, a task id, or the first or last of each session."""
        if selector not in self._found:
            self._found[selector] = self._matching(selector)
        return self._found[selector]

    def _matching(self, selector: str) -> Sequence[Draft]:
        operation, _, pick = selector.partition(".")
        found = self._of.get(operation, ())
        # A look that each session has of its own is named by what they share: inspect.leaf_tips is also inspect.leaf_tips.2.
        exact = [d for d in found if d.id == selector or (pick and d.id.startswith(f"{selector}."))]
        if exact:
            return exact
        if pick in ("first", "last"):
            choose = min if pick == "first" else max
            sessions = sorted({d.session for d in found})
            return [choose((d for d in found if d.session == s), key=lambda d: d.position) for s in sessions]
        if pick.startswith("not_"):
            return [d for d in found if d.id != f"{operation}.{pick.removeprefix('not_')}"]
        return found if pick in ("", "previous", "next") else ()


def _paired(rule: OrderRule, before: Draft, after: Draft) -> bool:
    """Whether a rule binds two tasks: neighbours by number where it says so, else tasks of one session."""
    if rule.before.endswith(".previous"):
        same_kind = before.operation == after.operation
        same_session = before.session == after.session or before.operation == "topdress"
        return before.position == after.position - 1 and same_session and (same_kind or before.session == after.session)
    if rule.after.endswith(".next"):
        return before.position == after.position
    return before.session == after.session or (
        0 in (before.session, after.session) and -1 not in (before.session, after.session)
    )


def _lags(
    setting: Setting, rule: OrderRule, pairs: Sequence[tuple[Draft, Draft]], computed: Mapping[str, float]
) -> list[Lag]:
    """One rule between each of the pairs of tasks that it binds."""

    def step(name: str | None) -> Step | None:
        if name is None:
            return None
        number = computed[name] if name in computed else setting.book.si(name)
        if rule.unit == "growth":
            return growth_step(setting.climate, setting.species.season, setting.first_day, setting.last_day, number)
        if rule.unit == "workdays":
            days = setting.business_days
            return workday_step(days, setting.first_day - 60, setting.last_day, round(number))
        return Days(round(number))

    named = [n for n in (rule.minimum, rule.maximum) if n is not None and n not in computed]
    reason, strength = Reason(rule.id, rule.reason, tuple(named)), Strength[rule.strength.upper()]
    # A rule that names only a limit, or no number at all, still says which comes first.
    least, most = step(rule.minimum) or Days(0), step(rule.maximum)
    return [
        Lag(f"{rule.id}:{before.id}>{after.id}", before.end_node, after.start_node, strength, reason, least, most)
        for before, after in pairs
    ]
