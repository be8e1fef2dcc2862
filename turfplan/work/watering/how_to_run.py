"""What a watering says of its minutes: what they put down, and how they are divided."""

from turfplan.message import Message, Quantity
from turfplan.phrases import watering as phrases
from turfplan.work.watering.run_times import RunTime, WateringZone, applied_mm


def puts_down(when: RunTime, zone: WateringZone) -> Message:
    """What the minutes in one place come to, and where the rate is known from."""
    depth_mm = zone.uniformity * applied_mm(when.setting_min, zone.rate_mm_h)
    return phrases.how_puts_down(
        minutes=when.setting_min,
        depth=Quantity(depth_mm, "rain"),
        rate=Quantity(zone.rate_mm_h, "water_rate"),
        reason=zone.rate_reason,
    )


def in_parts(parts: int, when: RunTime, *, told: bool) -> tuple[Message, ...]:
    """That the supply does not water all of a zone at once, and how long each part of it runs.

    `told`: the brief says what the supply gives, so that the parts can be counted.
    """
    if parts < 2:
        return ()
    if told:
        return (phrases.how_in_parts(parts=parts, minutes=when.setting_min),)
    return (phrases.how_each_part(minutes=when.setting_min),)


def divided(when: RunTime, *, hose: bool) -> tuple[Message, ...]:
    """How the minutes are divided: into places of a sprinkler, into cycles that soak in."""
    settings, minutes, cycles = when.settings, when.setting_min, when.cycles
    told: list[Message] = []
    if hose and when.move_min:
        work = round(when.moving_min)
        told.append(phrases.hose_settings(n=settings, minutes=minutes, work=work))
    elif hose:
        told.append(phrases.hose_with_timer(n=settings, minutes=minutes))
    if cycles > 1:
        pause = when.soak_min
        told.append(phrases.how_cycles(cycles=cycles, minutes=when.cycle_min, pause=pause))
    if cycles > 1 and settings > 1:
        wait = when.wait_min
        told.append(
            phrases.hose_rounds(settings=settings, wait=wait)
            if wait
            else phrases.hose_rounds_at_once(settings=settings)
        )
    return tuple(told)
