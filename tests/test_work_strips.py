"""The jobs that a strip has to itself."""

from dataclasses import replace

from planning import brief_of
from test_work_campaigns import setting_of
from test_work_season import drafted
from turfplan.message import as_written
from turfplan.records.book_names import OperationName
from turfplan.work.campaigns import Session
from turfplan.work.drafts import Draft
from turfplan.work.operations import CARE, Timing, Wording, make
from turfplan.work.strips import _jobs, in_strips

SETTING, CAMPAIGN, _ = drafted({"leveling": {"depth": "1 in"}})


def seeded_session() -> Session:
    """The session whose last pass is sown on, with two passes."""
    session = next(s for s in CAMPAIGN.sessions if s.sows)
    layer = session.passes[-1]
    return replace(session, passes=(replace(layer, number=1), replace(layer, number=2)))


def task(operation: OperationName, position: int, session: int, key: str | None = None) -> Draft:
    """A task of a session."""
    timing = Timing(CARE, session=session, position=position)
    wording = Wording(as_written("to test"))
    return make(SETTING, operation, key or str(position), timing=timing, wording=wording)


def test_each_pass_has_its_own_jobs() -> None:
    """The last low cut and the cores go with the first pass, seed and what belongs to it with the
    last; a mow goes before its own pass, looks and orders with none.
    """
    session = seeded_session()
    number = session.number
    drafts = [
        task("mow_low", 1, number),
        task("mow_low", 2, number),
        task("core_aerate", 1, number),
        task("topdress", 1, number),
        task("incorporate", 1, number),
        task("mow", 2, number),
        task("topdress", 2, number),
        task("incorporate", 2, number),
        task("overseed", 1, number),
        task("starter_feed", 1, number),
        task("roll", 1, number),
        task("cover", 1, number),
        task("inspect", 1, number, "germination"),
        task("order_material", 1, number),
        task("topdress", 1, number + 1, "9"),
    ]
    first, last = ([d.id for d in _jobs(session, layer, drafts)] for layer in session.passes)
    assert first == ["topdress.1", "incorporate.1", "mow_low.2", "core_aerate.1"]
    assert last[:3] == ["mow.2", "topdress.2", "incorporate.2"]
    assert last[3:] == ["overseed.1", "starter_feed.1", "roll.1", "cover.1"]
    unseeded = replace(session, sows=False)
    assert [d.id for d in _jobs(unseeded, unseeded.passes[-1], drafts)] == last[:3]


def test_only_a_pass_of_several_days_goes_on_in_strips() -> None:
    """From so many days on its jobs share its days, itself among them."""
    session = seeded_session()
    campaign = replace(CAMPAIGN, sessions=(session,))
    long = replace(task("topdress", 1, session.number), duration_days=4)
    short = replace(task("topdress", 2, session.number), duration_days=1)
    cores = task("core_aerate", 1, session.number)
    setting = setting_of(brief_of({"leveling": {"depth": "1 in"}}))
    found = {d.id: d for d in in_strips(setting, campaign, [long, short, cores])}
    assert set(found["topdress.1"].strips) == {"topdress.1", "core_aerate.1"}
    assert found["core_aerate.1"].duration_days == 4
    assert found["topdress.2"].strips == ()
