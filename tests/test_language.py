"""Another language, other units or another country: told once, and no day, identity or past entry
changes.
"""

from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest

from planning import TODAY, merged, plan_brief, plan_of
from pseudo_language import LANGUAGE, MARKED, install
from turfplan.app.reader_language import LANGUAGE as VARIABLE
from turfplan.app.reader_language import language_of
from turfplan.errors import TurfplanError
from turfplan.export.tables.plan_json import plan_to_json
from turfplan.files.reading.plan import plan_from_json
from turfplan.messages import catalog
from turfplan.records.brief import parse_brief
from turfplan.records.plan import Plan

LATER = TODAY + timedelta(days=1)
IN_SEASON = TODAY + timedelta(days=120)


@pytest.fixture
def pseudo(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The pseudo-language is installed."""
    install(tmp_path)
    monkeypatch.setenv(catalog.MORE, str(tmp_path))


def kept(plan: Plan) -> dict[str, Any]:
    """What a change of reader must leave alone, by task."""
    return {t.id: (t.uid, t.start, t.end, t.sequence, t.status, t.created) for t in plan.tasks}


def again(first: Plan, now: Any, *changes: dict[str, Any], **options: Any) -> Plan:
    """The plan made again after it was written and read."""
    return plan_of(*changes, now=now, previous=plan_from_json(plan_to_json(first)), **options)


def test_another_language_is_one_change(pseudo: None) -> None:
    """Every open entry is told anew; days, identities, sequence numbers stay; the change is told
    once.
    """
    first = plan_of()
    other = again(first, LATER, language=LANGUAGE)
    assert kept(other) == kept(first) and other.language == LANGUAGE
    assert [change.task for change in other.changes] == [
        ""
    ] and other.revision == first.revision + 1
    shown = [t.published for t in other.tasks if t.published is not None and t.closed is None]
    assert all(any(letter in MARKED for letter in entry.summary) for entry in shown)


def test_the_same_language_again_changes_nothing(pseudo: None) -> None:
    """A day later nothing is told, and no byte of what is published differs."""
    first = plan_of(language=LANGUAGE)
    other = again(first, LATER, language=LANGUAGE)
    assert other.revision == first.revision and other.changes == first.changes
    assert [t.published for t in other.tasks] == [t.published for t in first.tasks]


def test_past_entries_keep_their_language(pseudo: None) -> None:
    """What was over when the language changed stands as it was told."""
    first = plan_of()
    middle = again(first, IN_SEASON)
    over = {
        t.id: t.published for t in middle.tasks if t.end < IN_SEASON.date() and t.series is None
    }
    other = again(middle, IN_SEASON + timedelta(hours=1), language=LANGUAGE)
    now = {name: other.task(name).published for name in over}  # type: ignore[union-attr]
    assert over and now == over
    assert kept(other) == kept(middle)


def test_other_units_are_one_change() -> None:
    """From US to metric: one change is told, and no day or identity differs."""
    first = plan_of()
    data = merged() | {"units": "metric"}
    metric = plan_brief(
        parse_brief(data),
        now=LATER,
        previous=plan_from_json(plan_to_json(first)),
        brief_sha256="other",
    )
    assert kept(metric) == kept(first)
    assert [change.task for change in metric.changes] == [""]


def test_whose_language_is_spoken(pseudo: None, monkeypatch: pytest.MonkeyPatch) -> None:
    """The brief's, else the one asked for, else the user's, else English."""
    plain = parse_brief(merged())
    spoken = parse_brief(merged() | {"language": LANGUAGE})
    monkeypatch.delenv(VARIABLE, raising=False)
    assert language_of(plain) == "en" and language_of(spoken, "en") == LANGUAGE
    assert language_of(plain, LANGUAGE) == LANGUAGE
    monkeypatch.setenv(VARIABLE, LANGUAGE)
    assert language_of(plain) == LANGUAGE and language_of(plain, "en") == "en"


def test_an_unknown_or_unfinished_language_is_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A language without a catalog, or with one that lacks a key, is wrong input that names what
    there is.
    """
    (tmp_path / "xx.mo").write_bytes((Path(catalog.__file__).parent / "en.mo").read_bytes())
    monkeypatch.setenv(catalog.MORE, str(tmp_path))
    for language in ("xx", "yy"):
        with pytest.raises(TurfplanError) as caught:
            language_of(parse_brief(merged() | {"language": language}))
        assert caught.value.problems[0].where == "language"
        assert "en" in str(caught.value.problems[0].allowed)
