"""Passes and orders of briefs that nobody wrote: what must hold of every plan, whatever is asked
for.
"""

from datetime import date, timedelta
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from planning import EXAMPLES, TODAY, amount, brief_of, depth_total, kind, plan_brief
from turfplan.app.inputs import input_of
from turfplan.records.brief import Brief
from turfplan.records.plan import Plan
from turfplan.work.assumptions import resolve
from turfplan.work.filling import ways_of_filling
from turfplan.work.lawn import ResolvedLawn
from turfplan.work.passes import band_caps, pass_cap, plan_passes

HALF_INCH_MM = 12.7
LIFT_MM = 76.2
# Geometry: 1,000 ft2 x 1/24 ft / 27 = 1.543 yd3 for half an inch.
M3_PER_M2_AT_HALF_INCH = 1.543 * 0.764554858 / 92.90304

# A grass with a place where it grows, north and south.
HOMES: dict[str, tuple[dict[str, Any], ...]] = {
    "kentucky_bluegrass": ({"postal_code": "55406"}, {"postal_code": "83702"}),
    "perennial_ryegrass": (
        {"postal_code": "98115"},
        {"postal_code": None, "country": "NZ", "latitude": -43.5, "longitude": 172.6},
    ),
    "tall_fescue": (
        {"postal_code": "37205"},
        {"postal_code": None, "country": "AU", "latitude": -37.8, "longitude": 145.0},
    ),
    "fine_fescue": (
        {"postal_code": "04101"},
        {"postal_code": None, "country": "GB", "latitude": 55.9, "longitude": -3.2},
    ),
    "creeping_bentgrass": ({"postal_code": "17601"}, {"postal_code": "98115"}),
    "bermuda_common": (
        {"postal_code": "30606"},
        {"postal_code": None, "country": "ZA", "latitude": -26.2, "longitude": 28.0},
    ),
    "bermuda_hybrid": ({"postal_code": "85013"}, {"postal_code": "30606"}),
    "browntop": (
        {"postal_code": "98115"},
        {"postal_code": None, "country": "IE", "latitude": 53.3, "longitude": -6.3},
    ),
    "kikuyu": (
        {"postal_code": "92101"},
        {"postal_code": None, "country": "ZA", "latitude": -29.8, "longitude": 31.0},
    ),
    "carpetgrass": ({"postal_code": "70112"}, {"postal_code": "36602"}),
    "seashore_paspalum": (
        {"postal_code": "33139"},
        {"postal_code": None, "country": "AU", "latitude": -31.9, "longitude": 115.9},
    ),
    "zoysia": ({"postal_code": "37205"}, {"postal_code": "30606"}),
    "st_augustine": ({"postal_code": "32607"}, {"postal_code": "33139"}),
    "centipede": ({"postal_code": "29201"}, {"postal_code": "30606"}),
    "bahia": ({"postal_code": "32607"}, {"postal_code": "29201"}),
    "buffalo": ({"postal_code": "67401"}, {"postal_code": "80203"}),
}
SOILS = (
    "sand",
    "loamy sand",
    "sandy loam",
    "loam",
    "silt loam",
    "sandy clay loam",
    "clay loam",
    "silty clay",
    "clay",
)
COOL = (
    "kentucky_bluegrass",
    "perennial_ryegrass",
    "tall_fescue",
    "fine_fescue",
    "creeping_bentgrass",
)
UNSEEDED = ("bermuda_hybrid", "st_augustine", "seashore_paspalum")


def intents(grass: str) -> tuple[str, ...]:
    """What may be wished for a grass."""
    if grass in UNSEEDED:
        return ("none", "plant")
    return ("none", "patch", "overseed", "renovate", *(("dormant",) if grass in COOL else ()))


@st.composite
def briefs(draw: st.DrawFn) -> Brief:
    """A brief of any grass at home, any soil, any fill, any wish, from 20 m2 to 5,000 m2."""
    grass = draw(st.sampled_from(sorted(HOMES)))
    place = draw(st.sampled_from(HOMES[grass]))
    metric = draw(st.booleans())
    unit, most = ("mm", 64) if metric else ("in", 2.5)
    depths = st.integers(2, 64).map(lambda n: round(n * most / 64, 4))
    if draw(st.integers(0, 3)):
        leveling: dict[str, Any] = {"depth": f"{draw(depths)} {unit}"}
    else:
        shares = draw(st.lists(st.integers(1, 30), min_size=1, max_size=3))
        leveling = {
            "depth": None,
            "lows": [{"depth": f"{draw(depths)} {unit}", "share": s / 100} for s in shares],
        }
    if draw(st.booleans()):
        leveling["settle_percent"] = draw(st.integers(0, 20))
    return brief_of(
        {
            "lawn": {
                "grass": grass,
                "soil": draw(st.sampled_from(SOILS)),
                "area": f"{draw(st.integers(20, 5000))} m2",
                "condition": draw(st.sampled_from(("dense", "thin", "patchy", "bare"))),
                "thatch": draw(st.sampled_from(("0 in", "0.3 in", "0.6 in"))),
            },
            "place": place,
            "leveling": leveling,
            "seeding": {"intent": draw(st.sampled_from(intents(grass)))},
            "season": {"from": date(2027, 2, 1) + timedelta(days=draw(st.integers(0, 364)))},
            "work": {"people": draw(st.integers(1, 6))},
            "calendar": {
                "weekdays": draw(
                    st.sampled_from((["sat", "sun"], ["sat"], ["mon", "tue", "wed", "thu", "fri"]))
                )
            },
        }
    )


def setting_of(brief: Brief) -> ResolvedLawn:
    """The lawn of a brief, resolved."""
    inputs = input_of(brief, EXAMPLES)
    return resolve(brief, inputs.book, inputs.climate, TODAY.date())


@pytest.mark.full
@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(
    brief=briefs(), room=st.lists(st.integers(1, 4), min_size=1, max_size=4), seeded=st.booleans()
)
def test_passes_of_any_fill(brief: Brief, room: list[int], seeded: bool) -> None:
    """At most half an inch and the turf's own cap each, or a lift of ground without grass, none but
    the last under half of that, and together the fill.
    """
    setting = setting_of(brief)
    passes = plan_passes(setting, room, seeded)
    assert bool(passes) == bool(setting.levelling.bands)
    rest = pass_cap(setting, seeded=False)[0]
    caps = band_caps(setting, seeded, most=True)
    for layer in passes:
        cap = caps[0].last if layer.number == len(passes) else caps[0].plain
        assert 0 < layer.depth_mm <= cap.depth_mm + 1e-6
        assert layer.depth_mm <= most_at_once_mm(setting) + 1e-6
    assert all(layer.depth_mm >= rest / 2 - 1e-6 for layer in passes[:-1])
    assert sum(layer.depth_mm for layer in passes) == pytest.approx(setting.levelling.depth_mm)
    volume = (
        sum(band.share * band.depth_mm for band in setting.levelling.bands)
        * setting.plot.area_m2
        / 1000
    )
    assert sum(layer.settled_m3 for layer in passes) == pytest.approx(volume)


def most_at_once_mm(setting: ResolvedLawn) -> float:
    """Half an inch over living grass, two inches in a hollow of a strong creeper, three inches
    where a roller firms it to its bottom."""
    if setting.on_open_ground:
        return LIFT_MM
    return 4 * HALF_INCH_MM if setting.turf.species.creeps else HALF_INCH_MM


def judge(plan: Plan, brief: Brief, setting: ResolvedLawn) -> None:
    """What must hold of the passes and the order of a finished plan."""
    layers = kind(plan, "fill" if setting.on_open_ground else "topdress")
    depths = [amount(t, "depth") for t in layers]
    plain = pass_cap(setting, seeded=False)[0]
    assert all(depth <= most_at_once_mm(setting) + 1e-6 for depth in depths)
    assert all(depth >= plain / 2 - 1e-6 for depth in depths[:-1])
    assert sum(depths) == pytest.approx(plan.lawn.depth_mm, abs=0.01)
    ways = ways_of_filling(setting)
    taken = [
        way.levelling
        for way in ways
        if way.levelling.depth_mm == pytest.approx(plan.lawn.depth_mm, abs=1e-5)
        and bool(way.levelling.lift_share) == bool(kind(plan, "lift_and_fill"))
    ]
    settled = min(way.mean_mm for way in taken) * setting.plot.area_m2 / 1000
    ordered = sum(line.value for line in plan.order if line.item == "mix")
    assert ordered >= settled * (1 + setting.levelling.settle_share) - 1e-6
    assert ordered >= sum(amount(t, "volume") for t in layers) - 1e-6
    if setting.levelling.covered_share > 0.999 and not brief.leveling.lows:
        assert (
            ordered
            >= M3_PER_M2_AT_HALF_INCH
            * setting.plot.area_m2
            * depth_total(plan)
            / HALF_INCH_MM
            * 0.9999
        )
    for line in plan.order:
        if line.loads:
            assert sum(line.loads) == pytest.approx(line.value, abs=0.01)
        if line.parts:
            assert sum(part.value for part in line.parts) >= line.value * 0.999


@pytest.mark.full
@settings(
    max_examples=30, deadline=None, derandomize=True, suppress_health_check=[HealthCheck.too_slow]
)
@given(brief=briefs())
def test_plan_of_any_brief(brief: Brief) -> None:
    """A plan is sound or says why there is none; its passes add up to the fill and its order covers
    them with the allowance.
    """
    plan = plan_brief(brief, options=False)
    if plan.conflict is not None:
        assert plan.conflict.reasons and not plan.tasks and not plan.order
        return
    judge(plan, brief, setting_of(brief))
