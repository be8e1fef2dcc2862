"""What a form says has happened: whatever is sent is answered, and nothing untrue is written."""

from datetime import date

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

pytest.importorskip("starlette", reason="the extra web is not installed")
from starlette.datastructures import FormData
from starlette.testclient import TestClient

from planning import example as plan_of_example
from served import ServedHome
from turfplan.app.lawn_day import lawn_day
from turfplan.serve.app import create_app
from turfplan.serve.forms import Answers, answers_of, day_of_tick, kept_fields

PLAN = plan_of_example("cool-overseed")
SOIL_TEST, DELIVERY = date(2027, 3, 6), date(2027, 4, 3)


def answers(*fields: tuple[str, str], today: date = SOIL_TEST) -> Answers:
    """What a form with these fields says on a day of the example."""
    return answers_of(FormData(fields), PLAN, lawn_day(PLAN, (), today), (), "Ana")


def test_as_planned_is_today_or_the_last_day_of_what_is_over() -> None:
    """A load is delivered, other work done; each in the name of who sends it, under its key."""
    given = [("do", "done"), ("job", "soil_test"), ("job", "delivery.1"), ("key:soil_test", "k")]
    found = answers(*given, today=DELIVERY).ticks
    assert [(tick.kind, tick.task, tick.on) for tick in found] == [
        ("done", "soil_test", SOIL_TEST),
        ("delivered", "delivery.1", DELIVERY),
    ]
    assert {(tick.by, tick.way) for tick in found} == {("Ana", "page")}
    assert [tick.key for tick in found] == ["k", "page:delivery.1:0"]


@pytest.mark.parametrize(
    ("reason", "kind"),
    [
        ("rain", "rained_off"),
        ("no_time", "not_done"),
        ("no_hands", "not_done"),
        ("refused", "refused"),
    ],
)
def test_not_today_says_why(reason: str, kind: str) -> None:
    """Each reason is an entry of that day."""
    (tick,) = answers(("do", "put_off"), ("job", "soil_test"), ("reason", reason)).ticks
    assert (tick.kind, tick.on) == (kind, SOIL_TEST)


@pytest.mark.parametrize(
    ("fields", "wrong"),
    [
        ({"do": "done"}, "job"),
        ({"do": "done", "job": "water.germination.w1.midday"}, "job"),
        ({"do": "rain", "watering": "soil_test"}, "watering"),
        ({"do": "put_off", "job": "soil_test", "reason": "?"}, "reason"),
        ({"do": "other", "job": "soil_test", "how": "?"}, "how"),
        ({"do": "other", "job": "soil_test", "how": "move", "to": "soon"}, "to"),
        ({"do": "other", "job": "soil_test", "how": "done", "on": ""}, "on"),
        (
            {"do": "other", "job": "soil_test", "how": "done", "on": "2027-03-06", "share": "2"},
            "amount",
        ),
        ({"do": "overdue"}, "job"),
        ({"do": "?"}, "do"),
    ],
)
def test_what_cannot_be_read_is_told_by_its_field(fields: dict[str, str], wrong: str) -> None:
    """And nothing is to be written."""
    found = answers(*fields.items())
    assert list(found.errors) == [wrong] and found.ticks == []


def test_what_was_filled_in_is_kept_but_for_the_consent() -> None:
    """The same fields in the same order, without the answer to the question."""
    given = (("do", "done"), ("job", "a"), ("job", "b"), ("keep", "yes"))
    assert kept_fields(FormData(given)) == given[:-1]


@pytest.mark.parametrize(
    ("kept_on", "day"),
    [
        ("2027-03-04", date(2027, 3, 4)),
        ("2027-03-07", SOIL_TEST),
        ("9999-12-31", SOIL_TEST),
        ("soon", SOIL_TEST),
        ("", SOIL_TEST),
    ],
)
def test_a_tick_that_waited_counts_on_its_day(kept_on: str, day: date) -> None:
    """The day on which it was ticked; a device whose clock is ahead ticks today."""

    form = FormData({"do": "put_off", "job": "soil_test", "reason": "no_time", "kept_on": kept_on})
    shown = day_of_tick(form, PLAN, lawn_day(PLAN, (), SOIL_TEST), ())
    (tick,) = answers_of(form, PLAN, shown, (), "Ana").ticks
    assert tick.on == day


@pytest.fixture(scope="module")
def client(tmp_path_factory: pytest.TempPathFactory) -> tuple[TestClient, str, str]:
    """A server with a lawn, the address of who ticks, and the owner's."""
    home = ServedHome(tmp_path_factory.mktemp("forms"), SOIL_TEST)
    page = f"/lawn/{home.token('edit', 'Ana')}"
    made = create_app(home.settings(replan=None))
    asking = TestClient(made, follow_redirects=False)
    asking.post(home.once(), data={"label": "x"})
    return asking, page, f"/mine/{home.lawn().id}"


WORDS = st.one_of(
    st.sampled_from(
        [
            "soil_test",
            "2027-03-06",
            "9999-12-31",
            "0001-01-01",
            "-1",
            "1e999",
            "nan",
            "0.5",
            "yes",
            "feed",
            "edit",
            "done",
            "move",
            "skip",
            "rain",
        ]
    ),
    st.sampled_from(["9" * 4400, "3 yd3", "1e400 m3", ""]),
    st.text(max_size=30),
)
FIELDS = st.sampled_from(
    [
        "job",
        "on",
        "to",
        "share",
        "amount",
        "how",
        "reason",
        "watering",
        "number",
        "kind",
        "label",
        "ends",
        "sure",
        "keep",
        "key:soil_test",
        "answer:soil_test",
        "on:soil_test",
        "kept_on",
        "day",
    ]
)
ASKED = st.sampled_from(
    [
        "done",
        "put_off",
        "other",
        "overdue",
        "rain",
        "undo",
        "replan",
        "give",
        "withdraw",
        "withdraw_browser",
        "revoke?",
    ]
)


@example(asked="undo", fields={"number": "9" * 4400}, query="", page="did")
@example(asked="withdraw", fields={"number": "9" * 19}, query="", page="calendar")
@example(
    asked="other",
    fields={"job": "soil_test", "how": "done", "on": "9999-12-31", "keep": "yes"},
    query="",
    page="",
)
@given(
    asked=ASKED,
    fields=st.dictionaries(FIELDS, WORDS, max_size=6),
    query=WORDS,
    page=st.sampled_from(["", "did", "x"]),
)
@settings(max_examples=120, deadline=None)
def test_no_form_and_no_address_breaks_the_server(
    client: tuple[TestClient, str, str], asked: str, fields: dict[str, str], query: str, page: str
) -> None:
    """Every form with any fields, on any page, and any query: an answer, never a failure."""
    asking, ticking, owner = client
    form = {"do": asked} | {name: text.replace("\ud800", "") for name, text in fields.items()}
    for address in (ticking, owner):
        path = f"{address}/{page}" if page else address
        got = asking.post(path, data=form)
        assert got.status_code in (200, 303, 403, 404, 413, 422), (got.status_code, form)
        seen = asking.get(address, params={"told": query, "known": query})
        assert seen.status_code in (200, 403)
    assert asking.get(f"/mine/{'9' * 4400}").status_code in (403, 404)
