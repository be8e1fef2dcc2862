"""Places on a grid over the whole world, with a grass and a start at random: each has a plan that
holds, or a reason.
"""

from datetime import date, timedelta
from pathlib import Path
from random import Random
from typing import Any

from campaigns.records import Campaign, Figures
from planning import brief_of, plan_brief
from test_planning_random import HOMES, judge, setting_of
from turfplan.errors import TurfplanError

# Sixty in the south to seventy in the north: beyond is no lawn.
SOUTH, NORTH = -60.0, 70.0


def run(count: int, seed: int, folder: Path) -> Figures:
    """Fails where a plan breaks what must hold of all, or a place is refused without words."""
    chance = Random(seed)
    planned = refused = impossible = 0
    for number in range(count):
        # Evenly over the sphere's latitudes is not needed: rows of one latitude, stepped by the
        # golden ratio.
        latitude = SOUTH + (NORTH - SOUTH) * (number + 0.5) / count
        longitude = (number * 222.4922359) % 360 - 180
        grass = chance.choice(sorted(HOMES))
        change: dict[str, Any] = {
            "lawn": {"grass": grass, "soil": "loam"},
            "place": {
                "postal_code": None,
                "country": None,
                "latitude": round(latitude, 3),
                "longitude": round(longitude, 3),
            },
            "leveling": {"depth": f"{chance.randint(3, 40)} mm"},
            "seeding": {"intent": "none"},
            "season": {"from": date(2027, 1, 1) + timedelta(days=chance.randrange(365))},
        }
        brief = brief_of(change)
        try:
            plan = plan_brief(brief, options=False)
        except TurfplanError as error:
            assert all(str(problem).strip() for problem in error.problems), change
            refused += 1
            continue
        if plan.conflict is not None:
            assert plan.conflict.reasons, change
            impossible += 1
            continue
        judge(plan, brief, setting_of(brief))
        planned += 1
    assert planned or count < 10, "not one place has a plan"
    return {"planned": planned, "impossible": impossible, "refused": refused}


CAMPAIGN = Campaign("places", size=2000, seed=7, unit="places", run=run)
