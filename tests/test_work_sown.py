"""What is sown by the brief's intent, and what is left out for want of sun."""

from typing import Any

import pytest

import water_cases as cases
from planning import brief_of
from resolved_lawns import setting_of
from turfplan.book.words import grass_name
from turfplan.files.reading.book import load_book
from turfplan.message import as_written, listed
from turfplan.site.outlines.shapes import LawnZone
from turfplan.work import sown as module
from turfplan.work.light import Light
from turfplan.work.parts import PlotPart
from turfplan.work.seed_mix import SownArea, rates_g_m2
from turfplan.work.sown import Ground, SeedChoice, choose_seed

MIXED: dict[str, Any] = {
    "lawn": {
        "grass": [
            {"species": "kentucky_bluegrass", "share": 0.5},
            {"species": "tall_fescue", "share": 0.3},
            {"species": "perennial_ryegrass", "share": 0.2},
        ]
    }
}


BOOK = load_book()
CLIMATE = cases.cool_climate()


def light(hours: float | None = None) -> Light:
    """So many hours of sun, in a cool place."""
    return Light(BOOK, CLIMATE, hours)


def part(
    kind: Any, share: float, *, grass: str | None = None, sun_h: float | None = None
) -> PlotPart:
    """A part of the lawn of a kind."""
    return PlotPart(as_written(kind), kind, share, None, grass, sun_h)


def zone(share: float, **more: Any) -> LawnZone:
    """A zone that was drawn."""
    given: dict[str, Any] = {"depth_mm": None, "grass": None, "sun": None, **more}
    return LawnZone(as_written("zone"), 9.0, share, **given)


def chosen(
    brief: Any = None,
    hours: float | None = None,
    zones: Any = (),
    parts: Any = (),
    *,
    unnamed: bool = False,
) -> SeedChoice:
    """What is sown on a ground."""
    ground = Ground(light(hours), zones, parts)
    return choose_seed(
        brief or cases.brief(seeding={"intent": "overseed"}), BOOK, ground, unnamed=unnamed
    )


def areas(choice: SeedChoice) -> list[tuple[float, dict[str, float]]]:
    """Share and grasses of what is sown."""
    return [(round(a.share, 6), dict(a.grasses)) for a in choice.areas]


FESCUE = {"tall_fescue": 1.0}


def test_seed_is_laid_over_what_no_part_takes_for_itself() -> None:
    """A part without seed is left out, one with a grass of its own is apart, one like the lawn is
    none.
    """
    assert areas(chosen()) == [(1, FESCUE)]
    assert areas(chosen(parts=[part("dog_run", 0.25)])) == [(0.75, FESCUE)]
    own = part("steep", 0.25, grass="kentucky_bluegrass")
    assert areas(chosen(parts=[own])) == [(0.75, FESCUE), (0.25, {"kentucky_bluegrass": 1.0})]
    assert areas(chosen(parts=[part("steep", 0.25, grass="tall_fescue")])) == [(1, FESCUE)]
    assert areas(chosen(parts=[part("steep", 0.25)])) == [(1, FESCUE)]
    # What is not grown from seed is sown with the lawn's.
    assert areas(chosen(parts=[part("steep", 0.25, grass="st_augustine")])) == [(1, FESCUE)]
    none = chosen(parts=[part("dog_run", 1.0)])
    assert none.areas == [] and none.refused is not None
    assert chosen(parts=[part("dog_run", 0.25)]).refused is None


def test_shaded_parts_are_sown_with_what_lives_there() -> None:
    """The least sun that any grass bears is that of shade; darker ones are left out and told."""
    blue = cases.brief(seeding={"intent": "overseed"}, lawn={"grass": "kentucky_bluegrass"})
    needs, least = light().needs_h("kentucky_bluegrass"), light().least_h
    assert least < needs
    lawn = {"kentucky_bluegrass": 1.0}
    other = light(needs - 0.1).sown_others("cool")[0]
    shaded = part("steep", 0.25, sun_h=needs - 0.1)
    assert areas(chosen(blue, parts=[shaded])) == [(0.75, lawn), (0.25, {other: 1.0})]
    assert areas(chosen(blue, parts=[part("steep", 0.25, sun_h=needs)])) == [(1, lawn)]
    dark = chosen(blue, parts=[part("steep", 0.25, sun_h=least - 0.1)])
    assert areas(dark) == [(0.75, lawn)] and len(dark.notes) == 1
    in_shade = light(least).sown_others("cool")
    wanted = [(0.75, lawn), (0.25, {in_shade[0]: 1.0})]
    assert areas(chosen(blue, parts=[part("shade", 0.25)])) == wanted
    assert areas(chosen(blue, zones=[zone(0.25, sun="shade")])) == wanted
    assert areas(chosen(blue, zones=[zone(0.25, sun="part"), zone(0.5)])) == [(1, lawn)]
    fescue = zone(0.25, grass="tall_fescue")
    assert areas(chosen(blue, zones=[fescue])) == [(0.75, lawn), (0.25, FESCUE)]


def test_plants_and_winter_covers_are_laid_over_parts_of_another_grass() -> None:
    """Not where it is dark, nor where nothing is sown."""
    planted = cases.brief(seeding={"intent": "plant"}, lawn={"grass": "zoysia"})
    own = part("steep", 0.25, grass="kentucky_bluegrass")
    assert areas(chosen(planted, parts=[own])) == [(1, {"zoysia": 1.0})]
    dark = part("steep", 0.25, sun_h=light().least_h - 0.1)
    assert areas(chosen(planted, parts=[dark])) == [(0.75, {"zoysia": 1.0})]
    cover = cases.brief(seeding={"intent": "winter_overseed"}, lawn={"grass": "bermuda_common"})
    assert areas(chosen(cover, parts=[own])) == [(1, {BOOK.winter_cover: 1.0})]
    assert chosen(cover, 0.1).refused is None


def mixture(*grasses: tuple[str, float], **seeding: Any) -> Any:
    """A brief of a mixed stand."""
    grass = [{"species": name, "share": share} for name, share in grasses]
    return cases.brief(lawn={"grass": grass}, seeding={"intent": "overseed", **seeding})


TWO = ("kentucky_bluegrass", 0.6), ("tall_fescue", 0.4)


def test_a_mixed_stand_is_sown_as_it_is_by_its_shares() -> None:
    """With a note of the weights; only of grasses that bear the sun and grow in its season."""
    found = chosen(mixture(*TWO))
    assert areas(found) == [(1, {"kentucky_bluegrass": 0.6, "tall_fescue": 0.4})]
    assert len(found.notes) == 1
    warm = chosen(mixture(("tall_fescue", 0.75), ("zoysia", 0.25)))
    assert areas(warm) == [(1, FESCUE)] and warm.notes == []
    needs = [light().needs_h(name) for name, _ in TWO]
    assert needs[1] < needs[0]
    shade = chosen(mixture(*TWO), needs[1])
    assert areas(shade) == [(1, FESCUE)] and shade.refused is None and len(shade.notes) == 1
    assert areas(chosen(mixture(*TWO), needs[0])) == areas(found)


def test_the_note_of_a_mixture_tells_seeds_and_weights() -> None:
    """By the rates of overseeding, or of a new lawn."""

    def weights(**seeding: Any) -> list[float]:
        (note,) = chosen(mixture(*TWO, **seeding)).notes
        parts = dict(note.values)["grasses"].items  # type: ignore[union-attr]
        return [dict(one.values)["weight"].value for one in parts]

    shares = {"kentucky_bluegrass": 0.6, "tall_fescue": 0.4}
    for intent, fact in (("overseed", "seed_rate_overseed"), ("renovate", "seed_rate_new")):
        name: Any = fact
        rates = rates_g_m2(BOOK, SownArea(1.0, shares), name)
        wanted = [rate / sum(rates.values()) for rate in rates.values()]
        assert weights(intent=intent) == pytest.approx(wanted)


def test_another_grass_is_sown_where_the_old_does_not_live() -> None:
    """Of cool-season grass, or where the lawn is made anew; else nothing is."""
    needs = light().needs_h("kentucky_bluegrass")
    blue = cases.brief(seeding={"intent": "overseed"}, lawn={"grass": "kentucky_bluegrass"})
    found = chosen(blue, needs - 0.1)
    other = light(needs - 0.1).sown_others("cool")[0]
    assert areas(found) == [(1, {other: 1.0})] and found.refused is None and len(found.notes) == 1
    assert areas(chosen(blue, needs)) == [(1, {"kentucky_bluegrass": 1.0})]
    dark = chosen(hours=light().least_h - 0.1)
    assert dark.refused is not None and areas(dark) == [(1, FESCUE)]
    bermuda = light().needs_h("bermuda_common")
    warm = cases.brief(lawn={"grass": "bermuda_common"}, seeding={"intent": "overseed"})
    assert chosen(warm, bermuda - 0.1).refused is not None
    zoysia = {"lawn": {"grass": "zoysia"}}
    needs = light().needs_h("zoysia")
    others = light(needs - 0.1).sown_others("warm")
    for intent, condition in (("renovate", "thin"), ("overseed", "bare"), ("overseed", "thin")):
        lawn = {**zoysia["lawn"], "condition": condition}
        found = chosen(cases.brief(lawn=lawn, seeding={"intent": intent}), needs - 0.1)
        anew = bool(others) and (intent, condition) != ("overseed", "thin")
        assert (found.refused is None) is anew


def test_a_grass_asked_for_by_name_is_sown_and_doubted_where_it_is_dark() -> None:
    """Not where it lives."""
    asked = cases.brief(seeding={"intent": "overseed", "species": "kentucky_bluegrass"})
    needs = light().needs_h("kentucky_bluegrass")
    found = [chosen(asked, hours) for hours in (needs, needs - 0.1)]
    assert [areas(one) for one in found] == [[(1, {"kentucky_bluegrass": 1.0})]] * 2
    assert [len(one.cautions) for one in found] == [0, 1]
    planted = cases.brief(seeding={"intent": "plant"}, lawn={"grass": "zoysia"})
    needs = light().needs_h("zoysia")
    assert [chosen(planted, h).refused is None for h in (needs, needs - 0.1)] == [True, False]


def test_grass_that_nobody_named_is_sown_with_the_finer_of_a_cool_lawn() -> None:
    """Warm grass, and plants, are asked for by name; broad blades only where they were seen."""
    broad = next(n for n, s in BOOK.species.items() if s.leaf == "broad" and s.season == "cool")
    fine = "kentucky_bluegrass" if broad != "kentucky_bluegrass" else "fine_fescue"
    lawn = mixture((broad, 0.6), (fine, 0.4))
    assert areas(chosen(lawn, unnamed=True)) == [(1, {fine: 1.0})]
    assert set(areas(chosen(lawn))[0][1]) == {broad, fine}
    alone = mixture((broad, 1.0))
    assert areas(chosen(alone, unnamed=True)) == [(1, {broad: 1.0})]
    seen = lawn.model_copy(update={"lawn": lawn.lawn.model_copy(update={"leaf": "broad"})})
    assert set(areas(chosen(seen, unnamed=True))[0][1]) == {broad, fine}
    warm = cases.brief(lawn={"grass": "zoysia"}, seeding={"intent": "overseed"})
    assert chosen(warm, unnamed=True).refused is not None and chosen(warm).refused is None
    planted = cases.brief(seeding={"intent": "plant"})
    assert chosen(planted, unnamed=True).refused is not None


def test_hours_of_shade_are_told_as_hours_of_sun() -> None:
    """Where the brief tells shade, and something is sown."""
    shaded = cases.brief(seeding={"intent": "overseed"}, site={"shade_hours": 4})
    (note,) = chosen(shaded, 7.5).notes
    assert dict(note.values)["hours"].value == 7.5  # type: ignore[union-attr]
    assert chosen(cases.brief(seeding={"intent": "none"}, site={"shade_hours": 4}), 7.5).notes == []
    assert chosen(hours=7.5).notes == []


@pytest.mark.full
@pytest.mark.parametrize(
    ("intent", "operation", "areas"),
    [
        ("none", None, 0),
        ("overseed", "overseed", 1),
        ("renovate", "seed", 1),
        ("plant", "plant", 1),
    ],
)
def test_an_intent_sows_what_it_names(intent: str, operation: str | None, areas: int) -> None:
    """Nothing where nothing is asked for: no area, no reason why not."""
    setting = setting_of(brief_of({"seeding": {"intent": intent}}))
    assert setting.sowing.operation == operation
    assert len(setting.sowing.areas) == areas and setting.sowing.refused is None


def test_what_does_not_live_on_the_sun_is_left_out_of_the_mix() -> None:
    """Five hours keep fescue and ryegrass of a mixed stand; bluegrass is told as left out."""
    setting = setting_of(brief_of(MIXED, {"site": {"sun_hours": 5}}))
    assert set(setting.sowing.grasses) == {"tall_fescue", "perennial_ryegrass"}
    (note,) = (m for m in setting.assumptions if m.key == "light.kept_of_stand")
    left = grass_name(setting.book, "kentucky_bluegrass")
    assert dict(note.values)["left"] == listed([left], "and")
    sunny = setting_of(brief_of(MIXED, {"site": {"sun_hours": 8}}))
    assert not [m for m in sunny.assumptions if m.key == "light.kept_of_stand"]
    assert set(sunny.sowing.grasses) >= {"tall_fescue", "kentucky_bluegrass"}


def test_what_is_risked_is_told_of_what_is_sown_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    """Not where it is too dark to sow anything."""
    risk = as_written("It lives here only just.")
    monkeypatch.setattr(module, "risks", lambda light, areas: (risk,))
    sown, dark = chosen(), chosen(hours=0.5)
    assert sown.refused is None and risk in sown.cautions
    assert dark.refused is not None and risk not in dark.cautions
