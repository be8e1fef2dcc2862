"""How the minutes of a run are divided, as it is told."""

from itertools import product

import pytest

from turfplan.phrases import watering as phrases
from turfplan.work.watering.how_to_run import divided
from turfplan.work.watering.run_times import RunTime


@pytest.mark.parametrize(("settings", "cycles"), list(product((1, 2, 3), (1, 2, 3))))
@pytest.mark.parametrize("move_min", [0.0, 4.0])
def test_places_and_cycles_are_told_where_there_are_several(
    settings: int, cycles: int, move_min: float
) -> None:
    """By hose its places, with the work of moving it; cycles and their pause where the minutes are
    cut; rounds where both, for then one place soaks in while the others run.
    """
    when = RunTime(10 * settings * cycles, cycles, 30, settings=settings, move_min=move_min)
    minutes = 10 * cycles
    moved = (
        phrases.hose_settings(n=settings, minutes=minutes, work=4 * settings * cycles)
        if move_min
        else phrases.hose_with_timer(n=settings, minutes=minutes)
    )
    cut = [phrases.how_cycles(cycles=cycles, minutes=10, pause=30)] if cycles > 1 else []
    wait = max(0.0, 30 - (settings - 1) * (10 + move_min))
    rounds = (
        [
            phrases.hose_rounds(settings=settings, wait=int(wait))
            if wait
            else phrases.hose_rounds_at_once(settings=settings)
        ]
        if cycles > 1 and settings > 1
        else []
    )
    assert divided(when, hose=True) == (moved, *cut, *rounds)
    assert divided(when, hose=False) == (*cut, *rounds)
