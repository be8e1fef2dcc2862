"""Messages of `messages/en/sow.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Days, Message, Quantity


def seed() -> Message:
    """The lawn is sown anew at the time when this grass comes up fastest and weeds least."""
    return Message("sow.seed")


def seed_into() -> Message:
    """Seed goes into the stand at the time when this grass comes up fastest and weeds least."""
    return Message("sow.seed_into")


def overseed() -> Message:
    """Thin turf is filled by new plants: this is the best time for them here."""
    return Message("sow.overseed")


def seed_spring_cool() -> Message:
    """The lawn is sown anew in spring, the second-best time here: weeds take their share."""
    return Message("sow.seed_spring.cool")


def seed_spring() -> Message:
    """The lawn is sown anew in spring, the second-best time here: weeds and the first summer take
    their share.
    """
    return Message("sow.seed_spring")


def overseed_dense() -> Message:
    """New plants join the stand: this is the best time for them here."""
    return Message("sow.overseed_dense")


def overseed_spring_cool() -> Message:
    """New plants join the stand in spring, the second-best time here: weeds take their share."""
    return Message("sow.overseed_spring.cool")


def overseed_spring() -> Message:
    """New plants join the stand in spring, the second-best time here: weeds and the first summer
    take their share.
    """
    return Message("sow.overseed_spring")


def late() -> Message:
    """New plants need what is left of this season to grow in: every day counts now."""
    return Message("sow.late")


def overseed_winter() -> Message:
    """Ryegrass comes up while the grass below falls asleep, and keeps the lawn green."""
    return Message("sow.overseed_winter")


def plan_b_spring() -> Message:
    """spring, the second-best season; tell the plan what happened"""
    return Message("sow.plan_b.spring")


def dormant_seed() -> Message:
    """Seed sown now would come up too late; sown cold it lies safe and comes up first thing in
    spring.
    """
    return Message("sow.dormant_seed")


def dormant_seed_waits() -> Message:
    """Sown cold it lies safe and comes up first thing in spring."""
    return Message("sow.dormant_seed.waits")


def spreads(*, grass: Message) -> Message:
    """{grass:capital} also fills gaps by itself, so the rate stays low."""
    return Message("sow.spreads", (("grass", grass),))


def plant(*, grass: Message) -> Message:
    """{grass:capital} is planted, not seeded, or planting was asked for."""
    return Message("sow.plant", (("grass", grass),))


def plants_by_day(*, days: int, area: Quantity) -> Message:
    """Plant in {days} strips, one a day, {area} each; the plants of a strip come on its own
    morning. What is left over stands moist in the shade and goes in first on the next day.
    """
    return Message("sow.plants_by_day", (("days", days), ("area", area)))


def sod_by_day(*, days: int, area: Quantity) -> Message:
    """Lay it in {days} strips, one a day, {area} each; the sod of a strip comes on its own morning,
    since cut rolls keep a day.
    """
    return Message("sow.sod_by_day", (("days", days), ("area", area)))


def long_planting(*, days: int, people: int, needed: int, most: int) -> Message:
    """Planting takes {days} working days with {people} at work; with {needed} it would take
    {most}.
    """
    return Message(
        "sow.long_planting",
        (("days", days), ("people", people), ("needed", needed), ("most", most)),
    )


def form_sod() -> Message:
    """sod"""
    return Message("sow.form.sod")


def form_plugs() -> Message:
    """plugs"""
    return Message("sow.form.plugs")


def form_sprigs() -> Message:
    """sprigs"""
    return Message("sow.form.sprigs")


def cover_mat_title() -> Message:
    """Peg a mat over the sown slope"""
    return Message("sow.cover_mat.title")


def cover() -> Message:
    """On a slope the first storm carries seed and mix away."""
    return Message("sow.cover")


def roll() -> Message:
    """Seed that touches the soil all round takes up water; rolled once and lightly."""
    return Message("sow.roll")


def plan_b_next_year() -> Message:
    """the same window next year"""
    return Message("sow.plan_b.next_year")


def plan_b_rains(*, days: Days) -> Message:
    """the next rains that keep it wet, {days}"""
    return Message("sow.plan_b.rains", (("days", days),))


def plan_b_late_summer() -> Message:
    """wait for late summer, the better season"""
    return Message("sow.plan_b.late_summer")


def plan_b_dormant() -> Message:
    """dormant seed in early winter, or spring as the second best; tell the plan what happened"""
    return Message("sow.plan_b.dormant")


def go_on_rain() -> Message:
    """Soil crumbly and moist, rain in the forecast that wets the seed and does not wash it away."""
    return Message("sow.go_on_rain")


def on_rain() -> Message:
    """Nobody waters: this goes into moist ground when rain is forecast; wait for it as long as the
    window allows.
    """
    return Message("sow.on_rain")


def sprigs_furrows(*, rows: Quantity, least: Quantity, most: Quantity) -> Message:
    """Have the soil moist and raked level before the sprigs arrive. Open furrows {rows} apart,
    {least} to {most} deep, lay the sprigs end to end along them with a part of each above the
    ground, close and heel firm; keep the rest in the shade under wet sacking.
    """
    return Message("sow.sprigs.furrows", (("rows", rows), ("least", least), ("most", most)))


def sprigs_on_rain() -> Message:
    """Plant with rain in the forecast: nobody waters here, and only rain keeps them until they
    resist a pull.
    """
    return Message("sow.sprigs.on_rain")


def sprigs_water() -> Message:
    """Keep them wet from the first minutes, and water daily until they resist a pull: a sprig dries
    out within the hour.
    """
    return Message("sow.sprigs.water")


def sod_ground() -> Message:
    """Have the soil moist and raked level before the sod arrives, lower than paths and edges by its
    thickness; lay it the day it comes, the farthest corner first, and stand on boards.
    """
    return Message("sow.sod.ground")


def sod_joints() -> Message:
    """Push the pieces tight against each other without stretching, joints staggered like bricks,
    offcuts in the middle and not at the edge; roll once, lightly.
    """
    return Message("sow.sod.joints")


def sod_bank() -> Message:
    """On the slope begin at the foot, lay the pieces across the fall, and peg each one until it
    resists a pull.
    """
    return Message("sow.sod.bank")


def sod_on_rain() -> Message:
    """Lay it onto wet ground with rain in the forecast: nobody waters here, and only rain keeps it
    until a corner resists a pull.
    """
    return Message("sow.sod.on_rain")


def sod_water() -> Message:
    """Water each stretch as soon as it lies, until the soil below is wet, and daily until a corner
    resists a pull.
    """
    return Message("sow.sod.water")
