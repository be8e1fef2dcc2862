"""What many lawns buy, as a table for a spreadsheet and as one object."""

import csv
import io
from collections.abc import Iterable

from turfplan.business.client_columns import safe_cell
from turfplan.business.material import MaterialLoad, MovedDelivery
from turfplan.units import us_twin

HEADS = (
    *("row", "supplier", "item", "material", "load", "amount", "unit", "amount US", "unit US"),
    *("to", "lawn", "share", "share US", "left", "left US"),
    *("order by", "deliver on", "late", "estimate", "told"),
)
_DECIMALS = 4


def material_csv(loads: Iterable[MaterialLoad], moved: Iterable[MovedDelivery]) -> bytes:
    """One row for each share of a load, then one for each delivery that has moved."""
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(HEADS)
    for number, load in enumerate(loads, 1):
        value_us, unit_us = us_twin(load.value, load.unit)
        for share in load.shares:
            writer.writerow(
                map(
                    safe_cell,
                    (
                        *("load", load.supplier or "", load.item, load.name, str(number)),
                        *(_text(load.value), load.unit, _text(value_us), unit_us),
                        *("yard" if load.to_yard else "lawn" if load.is_load else "shop",),
                        *(share.lawn, _text(share.value), _us(share.value, load.unit)),
                        *(_text(load.left), _us(load.left, load.unit)),
                        *(load.order_by.isoformat(), load.deliver_on.isoformat()),
                        *(_yes(load.late), _yes(share.estimate), ""),
                    ),
                )
            )
    for one in moved:
        now = one.now.isoformat() if one.now is not None else ""
        cells = dict.fromkeys(HEADS, "") | {
            "row": "moved",
            "supplier": one.supplier or "",
            "material": one.name,
            "lawn": one.lawn,
            "deliver on": now,
            "told": one.told.isoformat(),
        }
        writer.writerow([safe_cell(cells[head]) for head in HEADS])
    return out.getvalue().encode("utf-8-sig")


def material_object(
    loads: Iterable[MaterialLoad], moved: Iterable[MovedDelivery]
) -> dict[str, object]:
    """The same as one object, in SI."""
    return {
        "schema": 1,
        "loads": [
            {
                "supplier": load.supplier,
                "item": load.item,
                "material": load.name,
                "amount": round(load.value, _DECIMALS),
                "unit": load.unit,
                "to": "yard" if load.to_yard else "lawn" if load.is_load else "shop",
                "left": round(load.left, _DECIMALS),
                "order_by": load.order_by.isoformat(),
                "deliver_on": load.deliver_on.isoformat(),
                "late": load.late,
                "estimate": load.estimate,
                "shares": [
                    {
                        "lawn": share.lawn,
                        "task": share.task,
                        "amount": round(share.value, _DECIMALS),
                        "estimate": share.estimate,
                    }
                    for share in load.shares
                ],
            }
            for load in loads
        ],
        "moved": [
            {
                "supplier": one.supplier,
                "lawn": one.lawn,
                "task": one.task,
                "material": one.name,
                "told": one.told.isoformat(),
                "now": one.now.isoformat() if one.now is not None else None,
            }
            for one in moved
        ],
    }


def _us(value: float, unit: str) -> str:
    return _text(us_twin(value, unit)[0])


def _text(value: float) -> str:
    return f"{round(value, _DECIMALS):g}"


def _yes(value: bool) -> str:
    return "yes" if value else ""
