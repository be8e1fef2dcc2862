"""What tasks take and what is bought for them: orders together, what falls away, titles."""

from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import pytest

from test_planning_worth import candidate as dated_way
from test_work_campaigns import plain
from test_work_season import drafted
from turfplan.message import Number, Quantity, as_written
from turfplan.phrases import level as of_level
from turfplan.phrases import order as of_order
from turfplan.phrases import tasks as phrases
from turfplan.planning import bought_for_tasks as module
from turfplan.planning.bought_for_tasks import (
    _amounts,
    _fertilizer,
    _idle,
    _lines_of,
    _of_title,
    _old_heap,
    _title_of_bags,
    _without_fill,
    bulk_orders,
    spreading,
    with_amounts,
)
from turfplan.planning.candidates import Candidate
from turfplan.planning.load_reasons import loose
from turfplan.planning.purchases import Bought
from turfplan.planning.stock import Stock
from turfplan.records.past import TaskHistory
from turfplan.records.plan_task import Amount
from turfplan.work.drafts import Draft, Load, SeasonDraft
from turfplan.work.season import FillVolumes

WHY = as_written("why")


def line(
    number: int, value: float, order: int | None = None, item: Any = "mix", **more: Any
) -> Bought:
    """A load of so many m3 that is ordered by a task, or by none."""
    asked = None if order is None else f"order_material.{order}"
    made = (value,), WHY, WHY, asked, f"delivery.{number}"
    return Bought(item, as_written(item), value, "m3", (), *made, **more)


def task(operation: Any, key: str = "", **more: Any) -> Draft:
    """A task."""
    return Draft(operation + key, operation, "level", WHY, 1, **more)


def candidate(*drafts: Draft, passes: int = 2, **more: Any) -> Any:
    """A candidate of some tasks, whose passes take a volume each."""
    volumes = SimpleNamespace(passes=dict.fromkeys(range(1, passes + 1), 1.0), touch_up_m3=1.0)
    days = {d.start_node: n for n, d in enumerate(drafts)}
    basis = {
        "season": SeasonDraft(drafts, ()),
        "volumes": volumes,
        "dated": SimpleNamespace(schedule=SimpleNamespace(days=days)),
        "mix": None,
        "feeding": None,
    }
    return SimpleNamespace(**{**basis, **more})


def test_an_order_asks_for_all_of_its_deliveries_together() -> None:
    """Each delivery has its own load; what nobody orders, and another thing, adds nothing."""
    lines = _lines_of([line(1, 2.0, 1), line(2, 3.0, 1), line(3, 1.5, 3), line(4, 0.5)])
    assert {name: each.value for name, each in lines.items()} == {
        "delivery.1": 2.0,
        "order_material.1": 5.0,
        "delivery.2": 3.0,
        "delivery.3": 1.5,
        "order_material.3": 1.5,
        "delivery.4": 0.5,
    }
    assert lines["order_material.1"].reason == of_order.mix_together()
    assert lines["delivery.1"].reason == lines["order_material.3"].reason == WHY
    other = _lines_of([line(1, 2.0, 1), line(2, 3.0, 1, "topsoil")])
    assert other["order_material.1"].value == 2.0
    again = [line(1, 2.0, 1), line(2, 3.0, 1)]
    here, ordered = frozenset({"delivery.1"}), frozenset({"delivery.1", "order_material.1"})
    sums = [_lines_of(again, known)["order_material.1"].value for known in (here, ordered)]
    assert sums == [3.0, 5.0], "what is here is not ordered again"


def test_nothing_is_ordered_of_what_is_here_already() -> None:
    """Nor received; what is settled stays in the plan."""
    lines = {"a": line(1, 0.0), "b": line(2, 0.1), "c": line(3, 0.0), "d": line(4, -1.0)}
    assert _idle(lines, Stock(settled=frozenset({"c"}))) == {"a", "d"}


DRAFTS = (
    task("dry_material", ".1", load=1),
    task("dry_material", ".2", load=2),
    task("dry_material", ".9", load=9),
    task("delivery", ".2", load=2),
    task("incorporate", ".1", position=1),
    task("incorporate", ".2", position=2),
    task("topdress", ".2", position=2),
    task("settle_check"),
    task("touch_up"),
)
LINES = {"delivery.1": line(1, 2.0), "delivery.2": line(2, 0.0)}


def gone(*drafts: Draft, skipped: set[int], **history: Any) -> set[str]:
    """What falls away of some tasks where passes were skipped."""
    names = frozenset(f"topdress.{n}" for n in skipped)
    past = TaskHistory(skipped=names, **history)
    return set(_without_fill(plain(), candidate(*drafts), LINES, past))


def test_skipped_passes_take_with_them_what_has_nothing_to_do(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """An empty heap is not dried, a skipped pass not dragged; without any fill nothing settles,
    unless hollows were lifted; what is in the journal stays."""
    monkeypatch.setattr(
        module,
        "skipped_passes",
        lambda volumes, past: {int(name[-1]) for name in past.skipped},
    )
    assert gone(*DRAFTS, skipped={2}) == {"dry_material.2", "incorporate.2"}
    both = {"dry_material.2", "incorporate.1", "incorporate.2", "settle_check", "touch_up"}
    assert gone(*DRAFTS, skipped={1, 2}) == both
    lifted = (*DRAFTS, task("lift_and_fill"))
    assert gone(*lifted, skipped={1, 2}) == both - {"settle_check", "touch_up"}
    assert gone(*DRAFTS, skipped=set()) == set()
    assert _without_fill(plain(), candidate(*DRAFTS), LINES, None) == frozenset()
    past = TaskHistory(skipped=frozenset({"topdress.2", "incorporate.2"}))
    monkeypatch.setattr(module, "skipped_passes", lambda volumes, past: {2})
    recorded = past.recorded
    left = _without_fill(plain(), candidate(*DRAFTS), LINES, past)
    assert left == {"dry_material.2", "incorporate.2"} - recorded


def test_titles_name_what_is_ordered_or_what_the_task_takes() -> None:
    """By the short name where there is one; nothing for a line of nothing."""
    draft = task("delivery", ".1")
    amount = Quantity(2.0, "volume", "up")
    named = line(1, 2.0, short_name=as_written("short"))
    assert _of_title(plain(), draft, (), line(1, 2.0)) == {
        "amount": amount,
        "material": as_written("mix"),
    }
    assert _of_title(plain(), draft, (), named)["material"] == as_written("short")
    seed = Amount.of("seed", 9.0, "kg", WHY)
    rate = Amount.of("seed_rate", 20.0, "g/m2", WHY)  # type: ignore[arg-type]
    assert _of_title(plain(), draft, (rate, seed), line(1, 0.0)) == {
        "amount": Quantity(9.0, "mass", "up")
    }
    assert _of_title(plain(), draft, (rate,), None) == {}
    assert _title_of_bags(line(1, 2.0)) == of_level.bags_title(
        amount=loose(2.0), material=as_written("mix")
    )
    assert _title_of_bags(named) == of_level.bags_title(
        amount=loose(2.0), material=as_written("short")
    )


@pytest.mark.parametrize(
    ("item", "value"),
    [
        ("sod", Quantity(7.0, "area", "up")),
        ("plugs", Number(7.0, "grouped")),
        ("sprigs", Quantity(7.0, "sprig_volume", "up")),
        ("straw", phrases.bales(n=7, number=Number(7.0, "grouped"))),
        ("mat", Quantity(7.0, "area", "up")),
        ("lime", Quantity(7.0, "mass", "up")),
        ("nitrogen", phrases.nitrogen(rate=Quantity(7.0, "rate"))),
    ],
)
def test_each_amount_has_its_way_into_a_title(item: Any, value: Any) -> None:
    """What can run short is rounded up."""
    amount = Amount.of(item, 7.0, "kg", WHY)
    assert _of_title(plain(), task("cover"), (amount,), None) == {"amount": value}


def test_a_load_is_told_by_its_volume_with_its_facts() -> None:
    """Nothing of a load that is not bought."""
    made = candidate(task("delivery", ".1"))
    bought = line(1, 2.5, facts=("topdress.sand_limit",))
    (found,) = _amounts(plain(), made, task("delivery", ".1"), bought)
    assert (found.item, found.value, found.unit) == ("volume", 2.5, "m3")
    assert found.facts == ("topdress.sand_limit",)
    assert _amounts(plain(), made, task("delivery", ".1"), None) == ()
    assert _amounts(plain(), made, task("mow"), None) == ()


def test_feedings_and_starters_are_fed_in_order_of_their_days(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Bought where no bag is at hand that may be used, the starter by itself; settled ones are
    not."""
    drafts = (task("feed_nitrogen", ".b"), task("lime"), task("starter_feed"), task("mow"))
    made = candidate(*drafts)
    made.dated.schedule.days["feed_nitrogen.b"] = 50
    seen: list[list[str]] = []
    monkeypatch.setattr(
        module, "fertilizer_order", lambda setting, feeds: seen.append([d.id for d in feeds]) or []
    )
    monkeypatch.setattr(
        module, "starter_order", lambda setting, feeds: seen.append([d.id for d in feeds]) or []
    )
    by_id = {d.id: d for d in drafts}
    analysis: Any = object()
    feeding = plain().brief.feeding.model_copy(update={"analysis": analysis})
    at_hand = replace(plain(), brief=plain().brief.model_copy(update={"feeding": feeding}))
    monkeypatch.setattr(module, "bag_used", lambda setting, feeding: None)
    _fertilizer(at_hand, made, by_id, Stock())
    _fertilizer(at_hand, made, by_id, Stock(settled=frozenset({"starter_feed"})))
    assert seen == [["starter_feed"], ["feed_nitrogen.b"], [], ["feed_nitrogen.b"]]
    assert _fertilizer(plain(), made, by_id, Stock()) == [] and seen[4:] == seen[:2]
    monkeypatch.setattr(module, "bag_used", lambda setting, feeding: analysis)
    assert _fertilizer(at_hand, made, by_id, Stock()) == [] and len(seen) == 6


def bought(
    monkeypatch: pytest.MonkeyPatch, orders: list[Bought], stock: Stock, *drafts: Draft
) -> tuple[dict[str, Draft], list[Bought]]:
    """The drafts and what is bought, with these orders and this stock."""
    monkeypatch.setattr(module, "bulk_orders", lambda *given: (orders, stock))
    monkeypatch.setattr(module, "_amounts", lambda *given: ())
    monkeypatch.setattr(module, "small_orders", lambda setting, drafts: [])
    return with_amounts(plain(), candidate(*drafts))


LOAD = (task("order_material", ".1"), task("delivery", ".1"))


def test_what_nobody_asked_for_is_warned_of_at_its_delivery(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """And not bought again; nothing of it at the order itself."""
    unasked = Stock(unasked=frozenset({"order_material.1"}))
    drafts, lines = bought(monkeypatch, [line(1, 2.0, 1)], unasked, *LOAD)
    assert drafts["delivery.1"].cautions == (of_order.not_ordered(),)
    assert drafts["order_material.1"].cautions == () and lines == []
    drafts, lines = bought(monkeypatch, [line(1, 2.0, 1)], Stock(), *LOAD)
    assert drafts["delivery.1"].cautions == () and [each.value for each in lines] == [2.0]
    amount = {"amount": Quantity(2.0, "volume", "up"), "material": as_written("mix")}
    assert drafts["delivery.1"].words == amount


def test_orders_of_nothing_and_settled_ones_are_no_lines(monkeypatch: pytest.MonkeyPatch) -> None:
    """Their tasks are left out, or stay where they are settled."""
    drafts, lines = bought(monkeypatch, [line(1, 0.0, 1)], Stock(), *LOAD)
    assert drafts == {} and lines == []
    settled = Stock(settled=frozenset({"delivery.1", "order_material.1"}))
    drafts, lines = bought(monkeypatch, [line(1, 2.0, 1)], settled, *LOAD)
    assert set(drafts) == {"delivery.1", "order_material.1"} and lines == []
    bags = replace(LOAD[1], bags=True)
    drafts, _ = bought(monkeypatch, [line(1, 2.0)], Stock(), bags)
    assert drafts["delivery.1"].title == _title_of_bags(line(1, 2.0))


def test_what_is_short_is_bought_for_the_first_pass_to_come(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """By its day; nothing where all of them are done."""
    monkeypatch.setattr(
        module, "short_line", lambda setting, mix, short, first: line(7, short, item=first)
    )
    passes = tuple(task("topdress", f".{n}", position=n) for n in (2, 1, 3))
    short = Stock(short_m3=0.5)
    _, lines = bought(monkeypatch, [], short, *passes)
    assert [(each.item, each.value) for each in lines] == [("topdress.2", 0.5)]
    _, lines = bought(monkeypatch, [], replace(short, settled=frozenset({"topdress.2"})), *passes)
    assert [each.item for each in lines] == ["topdress.1"]
    done = replace(short, settled=frozenset(d.id for d in passes))
    assert bought(monkeypatch, [], done, *passes)[1] == []
    assert bought(monkeypatch, [], Stock(), *passes)[1] == []
    assert [d.id for d in spreading(plain(), candidate(*passes, task("mow")).season)] == [
        "topdress.2",
        "topdress.1",
        "topdress.3",
    ]


def test_without_a_journal_the_orders_are_those_of_all_loads() -> None:
    """And the stock is empty."""
    setting, campaign, drafts = drafted()
    assert campaign.passes and drafts
    made = candidate(*drafts.values())
    made.season = replace(made.season, loads=())
    assert bulk_orders(setting, made.season, made.mix, made.volumes, None) == ([], Stock())


def test_where_all_passes_are_skipped_nothing_is_ordered_to_touch_them_up(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Unless a load is under way; what the stock asks for more or less is ordered anew."""
    asked: list[tuple[float, Any]] = []

    def orders(setting: Any, loads: Any, mix: Any, volumes: Any, stock: Any = None) -> list[Any]:
        asked.append((volumes.touch_up_m3, stock))
        return [line(1, 2.0)]

    load = Load(1, 1, (1, 2), 2.0)
    sold: list[Any] = []
    stock = Stock()
    monkeypatch.setattr(module, "material_orders", orders)
    monkeypatch.setattr(module, "wanted_loads", lambda *given: (load,))
    monkeypatch.setattr(
        module, "stock_of", lambda needed, of_load, *given: sold.append(of_load) or stock
    )
    volumes = FillVolumes({1: 1.0, 2: 1.0}, 0.0, 0.75)
    made = candidate(task("topdress", ".1"), volumes=volumes)

    def touched_up(skipped: set[int], *, under_way: bool) -> float:
        monkeypatch.setattr(module, "skipped_passes", lambda volumes, history: skipped)
        monkeypatch.setattr(module, "is_under_way", lambda load, history: under_way)
        asked.clear()
        bulk_orders(plain(), made.season, made.mix, made.volumes, TaskHistory())
        return asked[0][0]

    assert touched_up({1, 2}, under_way=False) == 0.0
    assert touched_up({1, 2}, under_way=True) == 0.75
    assert touched_up({1}, under_way=False) == 0.75
    assert sold[0] == {1: 2.0} and len(asked) == 1
    stock = Stock(more={1: 0.5})
    assert touched_up({1}, under_way=False) == 0.75
    assert [given for _, given in asked] == [None, stock]


def test_a_pass_says_that_its_heap_lies_too_long_where_nobody_looks_at_it_again() -> None:
    """By the day on which it came; not before it has run out."""
    way = dated_way()
    spread = next(d for d in way.season.drafts if d.id == "topdress.1")
    looks = [d for d in way.season.drafts if d.operation == "dry_material"]
    drafts = tuple(d for d in way.season.drafts if d not in looks)
    unseen = replace(way, season=replace(way.season, drafts=drafts))
    most = way.setting.days("order.storage_days")
    assert looks and way.dated.day(looks[0].id) <= way.dated.day(spread.id)

    def said(case: Candidate, days: int) -> bool:
        past = TaskHistory(done={"delivery.1": case.dated.day(spread.id) - days})
        return _old_heap(case.setting, case, spread, past) is not None

    assert [said(unseen, most), said(unseen, most + 1), said(way, most + 1)] == [False, True, False]
