"""What an order costs, at the prices that the brief gives: in its money, or as plain numbers."""

from turfplan.message import Number
from turfplan.messages import Words
from turfplan.phrases import order_sheet as phrases
from turfplan.records.plan import Plan


def order_cost(plan: Plan, words: Words) -> str:
    """What the order comes to at the prices that were given; nothing where none was."""
    costs = [line.cost for line in plan.order if line.cost is not None]
    return money_told(sum(costs), plan.currency, words) if costs else ""


def total_told(plan: Plan, words: Words) -> str:
    """What the order comes to, in which money: prices may be given without its name."""
    told = order_cost(plan, words)
    plain = bool(told) and not plan.currency
    return words.text(phrases.money_as_given(amount=told)) if plain else told


def money_told(amount: float, currency: str, words: Words) -> str:
    """An amount of money, with the name of the money where the price told one."""
    whole = float(amount).is_integer()
    number = words.value(Number(amount, "grouped" if whole else "hundredth"))
    return words.text(phrases.money(amount=number, currency=currency)) if currency else number
