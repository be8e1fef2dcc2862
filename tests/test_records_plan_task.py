"""Tasks, their amounts, and texts that are read back from files."""

from datetime import UTC, date, datetime, time
from types import SimpleNamespace

import pytest
from pydantic import TypeAdapter, ValidationError

from sample_plan import sample_plan
from turfplan.errors import FormError
from turfplan.message import as_written
from turfplan.records.items import NamedAmount
from turfplan.records.plan import (
    ClimateFacts,
    FillMap,
    LawnFacts,
    Plan,
    RankedNote,
    StakeLine,
    in_turn,
)
from turfplan.records.plan_task import (
    Amount,
    Series,
    WateringStage,
    WhatHappened,
    _read,
)

PLAN = sample_plan()


def test_an_amount_has_its_twin_and_six_decimals() -> None:
    """A third of a litre in gallons."""
    found = Amount.of("water", 1 / 3, "L", "why", ("a.b",))  # type: ignore[arg-type]
    assert (found.value, found.unit, found.value_us, found.unit_us) == (
        0.333333,
        "L",
        0.088057,
        "gal",
    )
    assert (str(found.reason), found.facts) == ("why", ("a.b",))
    assert Amount.of("water", 1 / 3, "L", as_written("why")).facts == ()


def series(**keys: object) -> Series:
    """A week of watering of twenty minutes."""
    days = {"from": date(2027, 5, 1), "to": date(2027, 5, 7)}
    return Series.model_validate({**days, "start_time": time(6, 0), "minutes": 20, **keys})


def test_a_run_lasts_as_long_as_water_runs_or_as_is_told() -> None:
    """Even nought; and says nothing in files where it is not told."""
    assert series().lasts_minutes == 20
    assert series(elapsed_minutes=45).lasts_minutes == 45
    assert series(elapsed_minutes=0).lasts_minutes == 0
    assert "elapsed_minutes" not in series().model_dump()
    assert series(elapsed_minutes=45).model_dump()["elapsed_minutes"] == 45


def test_what_is_not_told_of_a_stage_or_a_deed_has_its_default() -> None:
    """One place, one cycle, no pause; the whole task; tasks of a day, without hours or versions."""
    stage = WateringStage(id="root", name=as_written("root"))
    assert (stage.settings, stage.cycles, stage.soak_minutes, stage.rate_mm_h) == (1, 1, 0, None)
    assert WhatHappened(start=date(2027, 5, 1), end=date(2027, 5, 1)).share == 1.0
    fields = type(PLAN.tasks[0]).model_fields
    defaults = [fields[name].default for name in ("duration_days", "person_hours", "sequence")]
    assert defaults == [1, 0.0, 0]
    assert [Plan.model_fields[n].default for n in ("revision", "journal_entries")] == [0, 0]
    errors = [ClimateFacts.model_fields[n].default for n in ("soil_error_c", "soil_error_days")]
    assert errors == [0.0, 0]
    plain = (LawnFacts, "depth_mm"), (FillMap, "least_mm"), (StakeLine, "fill_mm")
    assert [record.model_fields[name].default for record, name in plain] == [0.0, 0.0, 0.0]
    assert Plan.model_fields["schema_version"].default == PLAN.schema_version == 1


def test_a_task_plays_any_of_its_roles() -> None:
    """Of those that are asked for; none where none is asked for."""
    task = PLAN.tasks[0].model_copy(update={"roles": ("sowing", "headline")})
    assert task.plays("sowing") and task.plays("feeding", "headline")
    assert not task.plays("feeding") and not task.plays()


def info(said: dict[str, object] | None) -> SimpleNamespace:
    """What a validator is told of a file; None where there is none."""
    return SimpleNamespace(context=None if said is None else {"said": said})


def test_a_text_of_a_file_is_what_it_was_told_as() -> None:
    """With its key where that is kept and known; a text alone where not; nothing else is a text."""
    message = as_written("dry")
    assert _read(message, info(None)) is message  # type: ignore[arg-type]
    assert _read("dry", info(None)) == message  # type: ignore[arg-type]
    assert _read("dry", info({})).text == "dry"  # type: ignore[arg-type]
    kept = {"dry": {"key": "weather.no_land", "values": {}}}
    found = _read("dry", info(kept))  # type: ignore[arg-type]
    assert (found.key, found.text) == ("weather.no_land", "dry")
    newer = _read("dry", info({"dry": {"key": 1, "values": 7}}))  # type: ignore[arg-type]
    assert newer.text == "dry"
    with pytest.raises(FormError):
        _read(7, info(None))  # type: ignore[arg-type]


def test_moments_and_clock_times_are_written_briefly() -> None:
    """With a Z for the zone of the sun's own time; hours and minutes."""
    at = datetime(2027, 5, 1, 8, 30, tzinfo=UTC)
    task = PLAN.tasks[0].model_copy(update={"created": at})
    assert task.model_dump(mode="json")["created"] == "2027-05-01T08:30:00Z"
    assert series().model_dump(mode="json")["start_time"] == "06:00"


def test_an_item_that_is_not_known_is_kept_by_its_name() -> None:
    """Of a newer program; what is no text is none."""
    reader = TypeAdapter(NamedAmount)
    assert reader.validate_python("moon dust") == "moon dust"
    with pytest.raises(ValidationError):
        reader.validate_python(7)


def test_notes_are_told_by_what_stops_work_then_by_what_comes_first() -> None:
    """Else as they stand."""
    stop, first, plain = (
        RankedNote.model_construct(rank=rank, told_first=early, text=as_written(name))
        for rank, early, name in (("stop", False, "s"), ("know", True, "f"), ("know", False, "p"))
    )
    other = RankedNote.model_construct(rank="know", told_first=False, text=as_written("q"))
    assert in_turn([plain, other, first, stop]) == [stop, first, plain, other]


def test_a_plan_finds_its_tasks_by_their_ids() -> None:
    """None where there is none."""
    last = PLAN.tasks[-1]
    assert PLAN.task(last.id) is last and PLAN.task("none") is None
