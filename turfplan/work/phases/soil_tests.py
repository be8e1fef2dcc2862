"""The soil sample, or what the laboratory is still asked about a test that is there."""

from turfplan.book.words import book_messages
from turfplan.message import Message
from turfplan.phrases import prepare as phrases
from turfplan.work.drafts import Draft
from turfplan.work.feeding.lime_need import test_of_the_buried
from turfplan.work.feeding.soil_findings import soil_findings
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.operations import PREPARE, Timing, Wording, make

TOPSOIL = "topsoil"  # the key of a test of what is brought in
QUESTIONS = "questions"  # the key of a call to the laboratory: its answer takes no weeks


def soil_tests(setting: ResolvedLawn) -> list[Draft]:
    """A sample where there is no test or an old one, else the questions that a test leaves open.

    It comes as early as it can: lime, phosphorus and potassium wait for the answer.
    """
    if test_of_the_buried(setting):
        return [_of_topsoil(setting)]
    questions = soil_findings(setting).questions
    test = setting.brief.soil_test.on
    sampled = bool(setting.brief.soil_test.model_dump(exclude_none=True, exclude={"on"})) or test
    age = 0 if test is None else (setting.today - test).days
    fresh = sampled and age <= setting.book.si("feeding.soil_test_age")
    needs_sample = test is None or not fresh
    if not needs_sample and not questions:
        return []
    early = Timing(PREPARE, ideal=setting.first_day)
    if needs_sample:
        return [make(setting, "soil_test", timing=early, wording=_sample(setting, questions))]
    return [make(setting, "soil_test", QUESTIONS, timing=early, wording=_questions(questions))]


def _of_topsoil(setting: ResolvedLawn) -> Draft:
    """The test of topsoil that buries the lawn's own soil, before it is ordered."""
    wording = Wording(
        phrases.topsoil_test(),
        title=phrases.topsoil_test_title(),
        how=(
            phrases.topsoil_test_ask(),
            phrases.topsoil_test_sample(),
            phrases.topsoil_test_write(),
        ),
        go=phrases.topsoil_test_go(),
        fallback=phrases.topsoil_test_fallback(),
    )
    return make(
        setting,
        "soil_test",
        TOPSOIL,
        timing=Timing(PREPARE, ideal=setting.first_day),
        wording=wording,
        facts=("lime.turf_depth",),
    )


def _sample(setting: ResolvedLawn, questions: tuple[Message, ...]) -> Wording:
    """The sample with what it has to answer beside the usual."""
    asked = _for_ground(setting)
    if not (asked or questions):
        return Wording(phrases.soil_test())
    how = book_messages(setting.book, "operations.soil_test.how")
    return Wording(phrases.soil_test(), how=(*how, *asked, *questions))


def _questions(questions: tuple[Message, ...]) -> Wording:
    return Wording(
        phrases.soil_questions(),
        title=phrases.soil_questions_title(),
        how=questions,
        go=phrases.soil_questions_go(),
        fallback=phrases.soil_questions_fallback(),
    )


def _for_ground(setting: ResolvedLawn) -> tuple[Message, ...]:
    """What a sample of this ground is tested for beside the usual."""
    soil = setting.plot.soil
    asked = [phrases.ask_organic()] if soil == "peat" else []
    asked += [phrases.ask_free_lime()] if soil in ("chalk", "rubble") else []
    return tuple(asked)
