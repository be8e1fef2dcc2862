"""What is read at the gate asks nothing twice, and a sign says nothing but its message."""

import re

import pytest

from planning import example
from printed import checklist_html, english, order_html, unset
from tiers import sampled
from turfplan.export.sheets.keep_off_sign import sign_html
from turfplan.records.plan import Plan

CARD = re.compile(r'<section class="page sheet gate.*?</section>', re.S)
ITEM = re.compile(r"<li[^>]*>(.*?)</li>", re.S)


def cards_of(plan: Plan) -> list[list[str]]:
    """What is ticked on each card of a plan's order."""
    html = re.sub(r'(?s)<span class="box.*?</span>', "", order_html(plan))
    return [
        [re.sub(r"<[^>]+>", "", item).strip() for item in ITEM.findall(card)]
        for card in CARD.findall(html)
    ]


@pytest.mark.parametrize(
    "name", sampled(["cool-overseed", "pacific-northwest", "bermuda-sand"], "cool-overseed")
)
def test_a_card_asks_for_no_handful_twice(name: str) -> None:
    """The checks of what comes stand in for the step that tells to look; the other steps stay."""
    cards = [card for card in cards_of(example(name)) if card]
    assert cards
    for card in cards:
        looks = [item for item in card if "before it is tipped" in item]
        assert not (looks and any(item.startswith("Squeeze test") for item in card)), card
    assert any("over a tarp" in item for card in cards for item in card)


def test_a_sign_has_no_foot() -> None:
    """Neither the name of a sheet nor the number of a page stands below it."""
    pytest.importorskip("weasyprint", reason="the extra pdf is not installed", exc_type=ImportError)
    from weasyprint import HTML

    plan = example("cool-overseed")
    (page,) = HTML(string=sign_html(plan, english(plan))).render().pages
    texts: list[str] = []

    def read(box: object) -> None:
        texts.extend([box.text] if hasattr(box, "text") else [])
        for child in getattr(box, "children", ()):
            read(child)

    read(page._page_box)
    assert any("New grass" in text for text in texts)
    assert not [text for text in texts if "·" in text or re.search(r"\d / \d", text)]


def test_a_free_week_that_is_printed_alone_shows_its_seven_days() -> None:
    """None of them has a job or a watering."""
    plan = example("cool-overseed")
    busy = {task.start.isocalendar()[:2] for task in plan.tasks}
    free = next(
        day
        for day in (plan.tasks[0].start.replace(year=2027, month=12, day=d) for d in (6, 13, 20))
        if day.isocalendar()[:2] not in busy
    )
    html = checklist_html(plan, free)
    (strip,) = re.findall(r'<ul class="strip">(.*?)</ul>', html, re.S)
    assert strip.count("<li") == strip.count('class="free"') == 7


TITLE = re.compile(r'<h2 class="title"[^>]*>(.*?)</h2>', re.S)


def test_bags_are_fetched_and_no_truck_comes() -> None:
    """The card of what is carried home in bags has no truck and no heap; plants stand in shade."""
    html = order_html(example("pacific-northwest"))
    bags, *tipped = (card for card in CARD.findall(html) if "Drop spot" in card)
    assert "truck" not in bags and "heap goes" not in bags
    assert all("where the truck stands" in card for card in tipped) and tipped
    (head,) = TITLE.findall(bags)
    assert head.startswith("Fetch on")
    plants = CARD.findall(order_html(example("st-augustine-plugs")))[-1]
    assert "In the shade" in plants and "tarp on top" not in plants


def test_a_grass_named_after_a_saint_keeps_its_capital() -> None:
    """The page for the supplier names what is wanted as the order does."""
    html = order_html(example("st-augustine-plugs"))
    assert "of St. Augustinegrass plugs" in html and "st. Augustine" not in html


@pytest.mark.parametrize("name", sampled(["transition-fescue", "surveyed-us"], "surveyed-us"))
def test_the_tag_of_seed_stays_whole(name: str) -> None:
    """It goes over no page, and is on none that a supplier gets."""
    pytest.importorskip("weasyprint", reason="the extra pdf is not installed", exc_type=ImportError)
    from weasyprint import HTML

    pages = []
    for page in HTML(string=order_html(example(name))).render().pages:
        texts: list[str] = []

        def read(box: object, texts: list[str] = texts) -> None:
            texts.extend([box.text] if hasattr(box, "text") else [])
            for child in getattr(box, "children", ()):
                read(child)

        read(page._page_box)
        pages.append(" ".join(texts))
    (tag,) = [text for text in pages if "Lot" in text]
    assert "Weed seed" in tag and "Your offer" not in tag


def test_a_volume_in_bags_is_told_alike_everywhere() -> None:
    """What the list, the reason and the card say of it is one number, which its bags hold."""
    html = unset(order_html(example("surveyed-metric")))
    told = [float(text) for text in re.findall(r"Fetch ([\d.]+).m³ of mix in bags", html)]
    assert told
    for volume in told:
        assert html.count(f"{volume} m³ in bags") >= 2
        rows = re.findall(rf"<strong>{volume} m³</strong>.*?</tr>", html, re.S)
        assert rows
        bags = re.findall(r"(\d+) bags? of (\d+) L", rows[0])
        assert sum(int(n) * int(liters) for n, liters in bags) == pytest.approx(1000 * volume)


def test_a_sign_calls_grass_new_only_where_some_is_sown() -> None:
    """A lawn of care alone has old grass, which somebody may keep people off all the same."""
    plan = example("cool-overseed")
    kept = tuple(t for t in plan.tasks if not t.plays("sowing", "dormant", "planting", "relaying"))
    html = sign_html(plan.model_copy(update={"tasks": kept}), english(plan))
    assert "New grass" not in html and "young" not in html and "new grass" not in html
    assert "Please keep off until" in html and "The lawn" in html
    assert "New grass" in sign_html(plan, english(plan))
