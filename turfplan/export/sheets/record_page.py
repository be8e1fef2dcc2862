"""Writes the page of what was spread and sprayed on the lawns of a business, by its days."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from turfplan.export.sheets.look import Look, Paper, plain_name
from turfplan.export.templates import render, stylesheet
from turfplan.message import Number
from turfplan.messages import Words
from turfplan.units import System, pretty_unit

# Rates are told for so much ground.
PER_FT2, PER_M2 = 1000, 100
# So finely amounts are told.
_DECIMALS = 2


@dataclass(frozen=True, slots=True)
class SpreadRow:
    """A row of the record in words; texts are empty where nobody said them."""

    day: str
    client: str
    address: str
    work: str
    product: str
    amount: str
    rate: str
    area: str
    who: str
    licence: str
    wind: str
    note: str


def record_html(
    business: str,
    table: Sequence[Mapping[str, str]],
    unnamed: int,
    made: date,
    words: Words,
    paper: Paper,
) -> str:
    """The page as one that stands alone: the rows of a table by its heads, in the units of the
    words."""
    return render(
        "print/record.html.jinja",
        words,
        look=Look(paper, False, stylesheet()),
        business=plain_name(business, words),
        rows=tuple(_row(row, words) for row in table),
        unnamed=unnamed,
        made=words.day(made, weekday=False),
    )


def _row(row: Mapping[str, str], words: Words) -> SpreadRow:
    us = words.system is System.US
    amount, unit = (row["amount US"], row["unit US"]) if us else (row["amount"], row["unit"])
    area, area_unit = (row["area ft2"], "ft2") if us else (row["area m2"], "m2")
    rate = ""
    if amount and area:
        ground = PER_FT2 if us else PER_M2
        per_ground = float(amount) / float(area) * ground
        named = f"{ground:,} {pretty_unit(area_unit)}"
        rate = f"{_number(per_ground, words)} {pretty_unit(unit)}/{named}"

    def plain(text: str) -> str:
        return plain_name(text, words) if text else ""

    when = words.day(date.fromisoformat(row["day"]), weekday=False) if row["day"] else ""
    return SpreadRow(
        day=" ".join(filter(None, (when, row["time"]))),
        client=plain(row["client"]),
        address=plain(row["address"]),
        work=plain(row["work"]),
        product=", ".join(map(plain, filter(None, (row["product"], row["active ingredient"])))),
        amount=f"{_number(float(amount), words)} {pretty_unit(unit)}" if amount else "",
        rate=rate,
        area=f"{_number(float(area), words)} {pretty_unit(area_unit)}" if area else "",
        who=plain(row["who"]),
        licence=plain(row["licence"]),
        wind=plain(row["wind"]),
        note=plain(row["note"]),
    )


def _number(value: float, words: Words) -> str:
    return words.value(Number(round(value, _DECIMALS), "plain"))
