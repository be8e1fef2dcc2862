"""Messages of `messages/en/faults.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import DateInYear, Day, Listed, Message, Number


def id_used_twice() -> Message:
    """the id is used twice"""
    return Message("faults.id_used_twice")


def lime_too_much_at_once(*, rate_g_m2: Number, most_g_m2: Number) -> Message:
    """{rate_g_m2} g/m2 of lime at once, the surface takes {most_g_m2} g/m2"""
    return Message(
        "faults.lime_too_much_at_once", (("rate_g_m2", rate_g_m2), ("most_g_m2", most_g_m2))
    )


def limings_too_close(*, days: int, least_days: int) -> Message:
    """lime {days} days after lime, {least_days} at least"""
    return Message("faults.limings_too_close", (("days", days), ("least_days", least_days)))


def limed_on_lime() -> Message:
    """lime or sulfur on a soil that holds free lime"""
    return Message("faults.limed_on_lime")


def limed_above_goal(*, ph: Number, goal: Number) -> Message:
    """lime at a pH of {ph}, the goal is {goal}"""
    return Message("faults.limed_above_goal", (("ph", ph), ("goal", goal)))


def too_sour_for_a_grass(*, ph: Number, low: Number) -> Message:
    """a pH of {ph} is let be, where a grass of the stand wants {low} at the least"""
    return Message("faults.too_sour_for_a_grass", (("ph", ph), ("low", low)))


def sulfur_too_much_at_once(*, rate_g_m2: Number, most_g_m2: Number) -> Message:
    """{rate_g_m2} g/m2 of sulfur at once, grass bears {most_g_m2} g/m2"""
    return Message(
        "faults.sulfur_too_much_at_once", (("rate_g_m2", rate_g_m2), ("most_g_m2", most_g_m2))
    )


def ends_before_start(*, end: Day, start: Day) -> Message:
    """ends {end} before it starts {start}"""
    return Message("faults.ends_before_start", (("end", end), ("start", start)))


def outside_window(*, day: Day, first: Day, last: Day) -> Message:
    """starts {day}, outside its window {first} to {last}"""
    return Message("faults.outside_window", (("day", day), ("first", first), ("last", last)))


def outside_horizon(*, day: Day, first: Day, last: Day) -> Message:
    """{day} is outside the days of the plan, {first} to {last}"""
    return Message("faults.outside_horizon", (("day", day), ("first", first), ("last", last)))


def not_a_work_day(*, day: Day) -> Message:
    """{day} is not a day of work"""
    return Message("faults.not_a_work_day", (("day", day),))


def delivered_on_sunday(*, day: Day) -> Message:
    """{day} is a Sunday, when no supplier answers or delivers"""
    return Message("faults.delivered_on_sunday", (("day", day),))


def office_closed(*, day: Day) -> Message:
    """{day} is a weekend, when no office answers"""
    return Message("faults.office_closed", (("day", day),))


def day_unavailable(*, day: Day) -> Message:
    """{day} is not available"""
    return Message("faults.day_unavailable", (("day", day),))


def work_while_away(*, day: Day) -> Message:
    """{day}: nobody is there"""
    return Message("faults.work_while_away", (("day", day),))


def work_on_holiday(*, day: Day) -> Message:
    """{day} is a public holiday"""
    return Message("faults.work_on_holiday", (("day", day),))


def day_too_full(*, day: Day, hours: Number, there: Number) -> Message:
    """{day} holds {hours} hours of work, and {there} are at hand"""
    return Message("faults.day_too_full", (("day", day), ("hours", hours), ("there", there)))


def machine_on_quiet_day(*, day: Day) -> Message:
    """a machine is heard on {day}, a quiet day"""
    return Message("faults.machine_on_quiet_day", (("day", day),))


def heap_too_old(*, day: Day, most_days: int) -> Message:
    """on {day} no load has come within the {most_days} days that a heap keeps"""
    return Message("faults.heap_too_old", (("day", day), ("most_days", most_days)))


def cut_too_old(*, day: Day, cut: Day, most_days: int) -> Message:
    """spread until {day}, more than {most_days} days after the low cut of {cut}"""
    return Message("faults.cut_too_old", (("day", day), ("cut", cut), ("most_days", most_days)))


def seed_off_its_pass(*, day: Day, spread: Day, most_days: int) -> Message:
    """sown until {day}, more than {most_days} days after its pass began on {spread}"""
    return Message(
        "faults.seed_off_its_pass", (("day", day), ("spread", spread), ("most_days", most_days))
    )


def watered_while_away(*, day: Day) -> Message:
    """watered on {day}, when nobody is there and no timer is set"""
    return Message("faults.watered_while_away", (("day", day),))


def young_dry_while_away(*, day: Day) -> Message:
    """what is kept moist around an absence is not watered on {day}, within it"""
    return Message("faults.young_dry_while_away", (("day", day),))


def plants_left_dry() -> Message:
    """its plants wait for water: nothing says how each stretch is wet as soon as it is planted, in
    hours that are allowed
    """
    return Message("faults.plants_left_dry")


def relaid_left_dry(*, most: int) -> Message:
    """its turf is laid back where no day may be watered more than {most} days after another, and
    there is no permit
    """
    return Message("faults.relaid_left_dry", (("most", most),))


def watered_in_before_its_work(*, day: Day) -> Message:
    """runs on {day} before the work is done that it waters in"""
    return Message("faults.watered_in_before_its_work", (("day", day),))


def hose_beyond_the_day(*, day: Day, minutes: int) -> Message:
    """{minutes} minutes by hose on {day}, more than the hours in which somebody is there"""
    return Message("faults.hose_beyond_the_day", (("day", day), ("minutes", minutes)))


def watered_faster_than_soaks(*, minutes: int, cycles: int) -> Message:
    """{cycles} cycles of {minutes} min put down more at once than this ground takes in"""
    return Message("faults.watered_faster_than_soaks", (("minutes", minutes), ("cycles", cycles)))


def machine_on_steep_slope(*, day: Day, slope_percent: int) -> Message:
    """a machine on a slope of {slope_percent}% on {day}"""
    return Message(
        "faults.machine_on_steep_slope", (("day", day), ("slope_percent", slope_percent))
    )


def before_what_it_hangs_on(*, day: Day, first_day: Day) -> Message:
    """begins {day}, before what it hangs on is done on {first_day}"""
    return Message("faults.before_what_it_hangs_on", (("day", day), ("first_day", first_day)))


def filled_before_cause(*, day: Day, least_days: int, cause: Day) -> Message:
    """filled on {day}, less than {least_days} days after the look for the cause on {cause}"""
    return Message(
        "faults.filled_before_cause", (("day", day), ("least_days", least_days), ("cause", cause))
    )


def bared_before_permit(*, day: Day, least_days: int, permit: Day) -> Message:
    """the ground is laid bare on {day}, less than {least_days} days after the permit of {permit}"""
    return Message(
        "faults.bared_before_permit", (("day", day), ("least_days", least_days), ("permit", permit))
    )


def digging_without_marks(*, day: Day, least_days: int) -> Message:
    """work in the ground on {day} without marks {least_days} business days before it"""
    return Message("faults.digging_without_marks", (("day", day), ("least_days", least_days)))


def marks_run_out(*, age_days: int, day: Day, most_days: int) -> Message:
    """the marks were asked for {age_days} days before {day}; they hold for {most_days}"""
    return Message(
        "faults.marks_run_out", (("age_days", age_days), ("day", day), ("most_days", most_days))
    )


def not_mown_low(*, day: Day) -> Message:
    """not mown low before {day}"""
    return Message("faults.not_mown_low", (("day", day),))


def thatched_after_tines(*, day: Day) -> Message:
    """thatch is taken off on {day}, after the aeration"""
    return Message("faults.thatched_after_tines", (("day", day),))


def tines_without_pass(*, day: Day) -> Message:
    """no pass follows the tines of {day}"""
    return Message("faults.tines_without_pass", (("day", day),))


def lifted_after_pass(*, day: Day, pass_day: Day) -> Message:
    """hollows are filled until {day}, after the pass of {pass_day}"""
    return Message("faults.lifted_after_pass", (("day", day), ("pass_day", pass_day)))


def lifted_without_soil(*, day: Day) -> Message:
    """hollows are lifted on {day}, and nothing brings soil for them"""
    return Message("faults.lifted_without_soil", (("day", day),))


def fittings_after_pass(*, day: Day, pass_day: Day) -> Message:
    """fittings are raised until {day}, after the pass of {pass_day}"""
    return Message("faults.fittings_after_pass", (("day", day), ("pass_day", pass_day)))


def barred_twice(*, day: Day, given: Day) -> Message:
    """{day} is while the preventer of {given} still keeps weeds down"""
    return Message("faults.barred_twice", (("day", day), ("given", given)))


def new_grass_trodden(*, day: Day) -> Message:
    """what is done on {day} does not say how long people keep off"""
    return Message("faults.new_grass_trodden", (("day", day),))


def first_cut_too_early(*, day: Day, sown: Day) -> Message:
    """{day} is before the seed of {sown} can be up"""
    return Message("faults.first_cut_too_early", (("day", day), ("sown", sown)))


def delivery_without_order() -> Message:
    """delivered without a task that orders it"""
    return Message("faults.delivery_without_order")


def delivered_before_ordered(*, day: Day, least_days: int, ordered: Day) -> Message:
    """delivered {day}, less than {least_days} days after it is ordered on {ordered}"""
    return Message(
        "faults.delivered_before_ordered",
        (("day", day), ("least_days", least_days), ("ordered", ordered)),
    )


def pass_before_delivery(*, day: Day, least_days: int, delivered: Day) -> Message:
    """spread {day}, less than {least_days} days after the delivery of {delivered}"""
    return Message(
        "faults.pass_before_delivery",
        (("day", day), ("least_days", least_days), ("delivered", delivered)),
    )


def line_delivered_before_ordered(*, item: str, delivered: Day, ordered: Day) -> Message:
    """{item}: to be delivered {delivered}, before it is ordered {ordered}"""
    return Message(
        "faults.line_delivered_before_ordered",
        (("item", item), ("delivered", delivered), ("ordered", ordered)),
    )


def line_off_its_day(*, day: Day) -> Message:
    """no line of the order is for {day}"""
    return Message("faults.line_off_its_day", (("day", day),))


def turf_work_without_turf(*, day: Day) -> Message:
    """is work on turf, and on {day} there is none"""
    return Message("faults.turf_work_without_turf", (("day", day),))


def fed_before_roots(*, day: Day) -> Message:
    """feeds on {day} what is not sown or planted yet"""
    return Message("faults.fed_before_roots", (("day", day),))


def sown_over_live_stand(*, day: Day) -> Message:
    """sown on {day} over a stand that was to be killed in time, and is not"""
    return Message("faults.sown_over_live_stand", (("day", day),))


def trees_untold() -> Message:
    """it cuts or buries the ground of a lawn with trees, and says nothing of their roots"""
    return Message("faults.trees_untold")


def sown_though_refused(*, day: Day) -> Message:
    """in on {day}, and the plan says that nothing is sown or planted for want of water"""
    return Message("faults.sown_though_refused", (("day", day),))


def bared_not_sown(*, sown_m2: Number, area_m2: Number) -> Message:
    """the old stand is killed, and {sown_m2} m² of {area_m2} are sown again: the rest lies bare"""
    return Message("faults.bared_not_sown", (("sown_m2", sown_m2), ("area_m2", area_m2)))


def cover_not_bought(*, day: Day, slope_percent: int) -> Message:
    """filled by {day} on a slope of {slope_percent}%, where straw slides, and no mat is bought to
    peg over it
    """
    return Message("faults.cover_not_bought", (("day", day), ("slope_percent", slope_percent)))


def fill_lies_open(*, day: Day, most_days: int) -> Message:
    """filled by {day}, and neither sown within {most_days} days nor covered"""
    return Message("faults.fill_lies_open", (("day", day), ("most_days", most_days)))


def slope_lies_open(*, day: Day, slope_percent: int) -> Message:
    """filled by {day} on a slope of {slope_percent}%, and not covered the same day"""
    return Message("faults.slope_lies_open", (("day", day), ("slope_percent", slope_percent)))


def pass_too_deep(*, depth_mm: Number, most_mm: Number) -> Message:
    """{depth_mm} mm in one pass; {most_mm} mm is the most"""
    return Message("faults.pass_too_deep", (("depth_mm", depth_mm), ("most_mm", most_mm)))


def filled_where_none_goes(*, planned_m3: Number, most_m3: Number) -> Message:
    """{planned_m3} m3 of mix; without the parts of the lawn that get none it takes {most_m3} m3 at
    the most
    """
    return Message(
        "faults.filled_where_none_goes", (("planned_m3", planned_m3), ("most_m3", most_m3))
    )


def place_unnamed(*, place: str) -> Message:
    """it is not for the whole lawn, and its title does not say {place}"""
    return Message("faults.place_unnamed", (("place", place),))


def depth_not_reached(*, depth_mm: Number, asked_mm: Number) -> Message:
    """the passes add up to {depth_mm} mm, not to the {asked_mm} mm asked for"""
    return Message("faults.depth_not_reached", (("depth_mm", depth_mm), ("asked_mm", asked_mm)))


def fill_not_covered(*, planned_m3: Number, asked_m3: Number) -> Message:
    """{planned_m3} m³ are planned, and {asked_m3} m³ of settled fill are asked for"""
    return Message("faults.fill_not_covered", (("planned_m3", planned_m3), ("asked_m3", asked_m3)))


def passes_too_close(*, gap_days: int, least_days: int) -> Message:
    """{gap_days} days after the pass before; it needs {least_days}"""
    return Message("faults.passes_too_close", (("gap_days", gap_days), ("least_days", least_days)))


def seed_torn_up(*, day: Day, sown: Day) -> Message:
    """the work of {day} tears up the seed of {sown}"""
    return Message("faults.seed_torn_up", (("day", day), ("sown", sown)))


def dressed_over_seed(*, day: Day, sown: Day) -> Message:
    """spread on {day} over the seed of {sown}"""
    return Message("faults.dressed_over_seed", (("day", day), ("sown", sown)))


def seed_unwatched(*, day: Day, first: Day, last: Day) -> Message:
    """nobody can water the seed of {day} from {first} to {last}"""
    return Message("faults.seed_unwatched", (("day", day), ("first", first), ("last", last)))


def seed_without_water(*, day: Day) -> Message:
    """there is no water for the seed of {day}"""
    return Message("faults.seed_without_water", (("day", day),))


def seed_uncovered(*, slope_percent: int, day: Day, most_days: int) -> Message:
    """on a slope of {slope_percent}% nothing covers the seed of {day} within {most_days} days"""
    return Message(
        "faults.seed_uncovered",
        (("slope_percent", slope_percent), ("day", day), ("most_days", most_days)),
    )


def barred_over_seedlings(*, day: Day) -> Message:
    """a preventer on {day}, over seedlings that have not been mown three times"""
    return Message("faults.barred_over_seedlings", (("day", day),))


def fed_before_mown(*, day: Day, mown: Day) -> Message:
    """fed on {day}, before what was sown is mown on {mown}"""
    return Message("faults.fed_before_mown", (("day", day), ("mown", mown)))


def woken_seed_dry(*, day: Day) -> Message:
    """nothing is watered when the seed of {day} wakes"""
    return Message("faults.woken_seed_dry", (("day", day),))


def woken_seed_unfed(*, day: Day) -> Message:
    """the seed of {day} has no starter when it wakes, and no reason is told"""
    return Message("faults.woken_seed_unfed", (("day", day),))


def second_grass_uncut(*, day: Day, most_days: int) -> Message:
    """the lawn is not cut low in the {most_days} days before the ryegrass of {day}"""
    return Message("faults.second_grass_uncut", (("day", day), ("most_days", most_days)))


def second_grass_dry(*, day: Day) -> Message:
    """the ryegrass of {day} is not watered from its seed to its first cut"""
    return Message("faults.second_grass_dry", (("day", day),))


def relaid_turf_dry(*, day: Day) -> Message:
    """the turf that is laid again on {day} is not watered until it has rooted"""
    return Message("faults.relaid_turf_dry", (("day", day),))


def relaid_turf_torn(*, day: Day, laid: Day, least_days: int) -> Message:
    """on {day} over turf that is laid again on {laid}: blades, tines and low cuts wait {least_days}
    days for its roots, or leave it out by name
    """
    return Message(
        "faults.relaid_turf_torn", (("day", day), ("laid", laid), ("least_days", least_days))
    )


def second_grass_fed_off_time(*, day: Day, least_days: int, most_days: int) -> Message:
    """the ryegrass has its first food on {day}, not {least_days} to {most_days} days after its
    seed
    """
    return Message(
        "faults.second_grass_fed_off_time",
        (("day", day), ("least_days", least_days), ("most_days", most_days)),
    )


def second_grass_unfed(*, day: Day) -> Message:
    """the ryegrass of {day} is not fed"""
    return Message("faults.second_grass_unfed", (("day", day),))


def second_grass_stays(*, day: Day) -> Message:
    """nothing gives the lawn back after the ryegrass of {day}"""
    return Message("faults.second_grass_stays", (("day", day),))


def starter_with_compost(*, day: Day) -> Message:
    """the mix holds compost, no starter is given on {day}"""
    return Message("faults.starter_with_compost", (("day", day),))


def compost_feeds_other_ground(*, day: Day) -> Message:
    """the seed of {day} is left to compost that lies off most of it, or is too old"""
    return Message("faults.compost_feeds_other_ground", (("day", day),))


def starter_without_seed(*, day: Day, most_days: int) -> Message:
    """a starter on {day}, and nothing was sown in the {most_days} days before"""
    return Message("faults.starter_without_seed", (("day", day), ("most_days", most_days)))


def phosphate_unasked(*, rate_g_m2: Number) -> Message:
    """{rate_g_m2} g/m2 of phosphate that neither law nor test supports"""
    return Message("faults.phosphate_unasked", (("rate_g_m2", rate_g_m2),))


def series_backwards(*, end: Day, start: Day) -> Message:
    """the series ends {end} before it starts {start}"""
    return Message("faults.series_backwards", (("end", end), ("start", start)))


def watered_on_closed_day(*, day: Day) -> Message:
    """waters on {day}, which is not allowed"""
    return Message("faults.watered_on_closed_day", (("day", day),))


def watered_at_closed_hour(*, minutes: int, start: str) -> Message:
    """runs for {minutes} min from {start}, outside the allowed hours"""
    return Message("faults.watered_at_closed_hour", (("minutes", minutes), ("start", start)))


def watered_while_banned(*, day: Day) -> Message:
    """waters on {day} while watering is banned"""
    return Message("faults.watered_while_banned", (("day", day),))


def fed_in_blackout(*, day: Day, first: DateInYear, last: DateInYear) -> Message:
    """fed on {day}, inside the blackout {first} to {last}"""
    return Message("faults.fed_in_blackout", (("day", day), ("first", first), ("last", last)))


def nitrogen_too_much_at_once(*, rate_g_m2: Number, day: Day, most_g_m2: Number) -> Message:
    """{rate_g_m2} g/m2 of nitrogen on {day}; {most_g_m2} is the most at once"""
    return Message(
        "faults.nitrogen_too_much_at_once",
        (("rate_g_m2", rate_g_m2), ("day", day), ("most_g_m2", most_g_m2)),
    )


def feedings_too_close(*, day: Day, gap_days: int, before: Day, least_days: int) -> Message:
    """fed on {day}, {gap_days} days after {before}; {least_days} are the least"""
    return Message(
        "faults.feedings_too_close",
        (("day", day), ("gap_days", gap_days), ("before", before), ("least_days", least_days)),
    )


def nitrogen_too_much_in_year(*, rate_g_m2: Number, first: Day, most_g_m2: Number) -> Message:
    """{rate_g_m2} g/m2 of nitrogen in the year from {first}; {most_g_m2} is the most"""
    return Message(
        "faults.nitrogen_too_much_in_year",
        (("rate_g_m2", rate_g_m2), ("first", first), ("most_g_m2", most_g_m2)),
    )


def nitrogen_too_little_in_year(*, rate_g_m2: Number, first: Day, least_g_m2: Number) -> Message:
    """{rate_g_m2} g/m2 of nitrogen in the year from {first}; {least_g_m2} is the least, and no
    reason is given
    """
    return Message(
        "faults.nitrogen_too_little_in_year",
        (("rate_g_m2", rate_g_m2), ("first", first), ("least_g_m2", least_g_m2)),
    )


def fed_out_of_season(*, day: Day) -> Message:
    """fed on {day}, before the first or after the last day on which this grass is fed"""
    return Message("faults.fed_out_of_season", (("day", day),))


def fed_on_cold_ground(*, day: Day, soil_c: Number) -> Message:
    """fed on {day}, with the soil at {soil_c} degC"""
    return Message("faults.fed_on_cold_ground", (("day", day), ("soil_c", soil_c)))


def plants_fed_too_soon(*, day: Day) -> Message:
    """fed on {day}, before the plants hold"""
    return Message("faults.plants_fed_too_soon", (("day", day),))


def title_missing() -> Message:
    """it has no title"""
    return Message("faults.title_missing")


def word_missing() -> Message:
    """a word is missing"""
    return Message("faults.word_missing")


def why_missing() -> Message:
    """it does not say why"""
    return Message("faults.why_missing")


def day_unexplained(*, day: Day) -> Message:
    """a reason for {day} is missing"""
    return Message("faults.day_unexplained", (("day", day),))


def amount_unexplained(*, item: str) -> Message:
    """{item} has no reason"""
    return Message("faults.amount_unexplained", (("item", item),))


def amount_without_fact(*, item: str) -> Message:
    """{item} names no fact"""
    return Message("faults.amount_without_fact", (("item", item),))


def fact_unknown(*, fact: str) -> Message:
    """the book has no fact {fact}"""
    return Message("faults.fact_unknown", (("fact", fact),))


def amount_not_positive(*, item: str, value: Number) -> Message:
    """{item} is {value}"""
    return Message("faults.amount_not_positive", (("item", item), ("value", value)))


def twin_differs(*, item: str, value: Number, value_us: Number) -> Message:
    """{item} is {value} and, in US units, {value_us}: not the same"""
    return Message(
        "faults.twin_differs", (("item", item), ("value", value), ("value_us", value_us))
    )


def total_differs(*, item: str, total_kg: Number, wanted_kg: Number) -> Message:
    """{item} is {total_kg} kg; by its rate it is {wanted_kg} kg"""
    return Message(
        "faults.total_differs", (("item", item), ("total_kg", total_kg), ("wanted_kg", wanted_kg))
    )


def depth_volume_differs(*, volume_m3: Number, depth_mm: Number, wanted_m3: Number) -> Message:
    """{volume_m3} m3 for {depth_mm} mm; the lawn takes {wanted_m3} m3"""
    return Message(
        "faults.depth_volume_differs",
        (("volume_m3", volume_m3), ("depth_mm", depth_mm), ("wanted_m3", wanted_m3)),
    )


def weight_differs(*, weight_kg: Number, wanted_kg: Number) -> Message:
    """weighs {weight_kg} kg; by its parts it is {wanted_kg} kg"""
    return Message("faults.weight_differs", (("weight_kg", weight_kg), ("wanted_kg", wanted_kg)))


def barrows_too_few(*, loads: Number, wanted: int) -> Message:
    """{loads} barrow loads where {wanted} are needed"""
    return Message("faults.barrows_too_few", (("loads", loads), ("wanted", wanted)))


def seed_differs(*, seed_kg: Number, held_kg: Number, wanted_kg: Number) -> Message:
    """{seed_kg} kg of seed, {held_kg} kg held back; by the rate it is {wanted_kg} kg"""
    return Message(
        "faults.seed_differs",
        (("seed_kg", seed_kg), ("held_kg", held_kg), ("wanted_kg", wanted_kg)),
    )


def taken_for_other_ground(
    *, item: str, value: Number, wanted: Number, ground_m2: Number
) -> Message:
    """{value} of {item} for {ground_m2} m2, which take {wanted}"""
    return Message(
        "faults.taken_for_other_ground",
        (("item", item), ("value", value), ("wanted", wanted), ("ground_m2", ground_m2)),
    )


def sown_on_other_ground(*, sown_m2: Number, ground_m2: Number) -> Message:
    """the seed is for {sown_m2} m2, the job for {ground_m2} m2"""
    return Message("faults.sown_on_other_ground", (("sown_m2", sown_m2), ("ground_m2", ground_m2)))


def beyond_what_is_sown(*, ground_m2: Number, sown_m2: Number) -> Message:
    """it is for {ground_m2} m2, and {sown_m2} m2 are sown"""
    return Message("faults.beyond_what_is_sown", (("ground_m2", ground_m2), ("sown_m2", sown_m2)))


def beyond_what_is_loosened(*, ground_m2: Number, loosened_m2: Number) -> Message:
    """it is for {ground_m2} m2, and {loosened_m2} m2 are loosened"""
    return Message(
        "faults.beyond_what_is_loosened", (("ground_m2", ground_m2), ("loosened_m2", loosened_m2))
    )


def product_holds_other(*, item: str, said_kg: Number, held_kg: Number) -> Message:
    """the product of {item} is said to hold {said_kg} kg and holds {held_kg} kg"""
    return Message(
        "faults.product_holds_other", (("item", item), ("said_kg", said_kg), ("held_kg", held_kg))
    )


def load_differs(*, volume_m3: Number, line_m3: Number) -> Message:
    """{volume_m3} m3 where the order has {line_m3} m3"""
    return Message("faults.load_differs", (("volume_m3", volume_m3), ("line_m3", line_m3)))


def mix_short(*, bought_m3: Number, needed_m3: Number) -> Message:
    """{bought_m3} m3 are ordered and {needed_m3} m3 are spread"""
    return Message("faults.mix_short", (("bought_m3", bought_m3), ("needed_m3", needed_m3)))


def goods_short(*, bought: Number, item: str, needed: Number) -> Message:
    """{bought} of {item} are ordered and {needed} are used"""
    return Message("faults.goods_short", (("bought", bought), ("item", item), ("needed", needed)))


def line_without_task(*, item: str, day: Day) -> Message:
    """no task orders or fetches {item} for {day}"""
    return Message("faults.line_without_task", (("item", item), ("day", day)))


def used_before_bought(*, day: Day, came: Day) -> Message:
    """on {day}, and what it takes is here on {came}"""
    return Message("faults.used_before_bought", (("day", day), ("came", came)))


def machine_not_reserved(*, day: Day) -> Message:
    """on {day}, and no call before it reserves its machine"""
    return Message("faults.machine_not_reserved", (("day", day),))


def plants_ordered_late(*, day: Day, ordered: Day, least_days: int) -> Message:
    """brought on {day}, ordered on {ordered}; the grower needs {least_days} days"""
    return Message(
        "faults.plants_ordered_late",
        (("day", day), ("ordered", ordered), ("least_days", least_days)),
    )


def estimate_without_look(*, item: str) -> Message:
    """{item} waits for something to be found out, and no job finds it out"""
    return Message("faults.estimate_without_look", (("item", item),))


def estimate_unsaid(*, item: str) -> Message:
    """{item} may still change, and is not told as an estimate"""
    return Message("faults.estimate_unsaid", (("item", item),))


def parts_differ(*, item: str, parts: Number, value: Number) -> Message:
    """the parts of {item} add up to {parts}, not to {value}"""
    return Message("faults.parts_differ", (("item", item), ("parts", parts), ("value", value)))


def loads_differ(*, item: str, loads_m3: Number, value_m3: Number) -> Message:
    """the loads of {item} add up to {loads_m3} m3, not to {value_m3} m3"""
    return Message(
        "faults.loads_differ", (("item", item), ("loads_m3", loads_m3), ("value_m3", value_m3))
    )


def load_over_limit(*, load_m3: Number, item: str, limit_m3: Number) -> Message:
    """a load of {load_m3} m3 of {item}; the truck may bring {limit_m3} m3"""
    return Message(
        "faults.load_over_limit", (("load_m3", load_m3), ("item", item), ("limit_m3", limit_m3))
    )


def of_tasks(*, tasks: Listed, fault: Message) -> Message:
    """{tasks}: {fault}"""
    return Message("faults.of_tasks", (("tasks", tasks), ("fault", fault)))


def sown_in_the_dark(*, day: Day, hours: Number, least_hours: Number) -> Message:
    """seed or plants of {day} have {hours} hours of sun, less than the {least_hours} that any grass
    needs
    """
    return Message(
        "faults.sown_in_the_dark", (("day", day), ("hours", hours), ("least_hours", least_hours))
    )


def sown_on_weed_killer(*, day: Day, ingredient: str) -> Message:
    """seed or plants of {day} meet {ingredient}, before its label or a pot test lets them"""
    return Message("faults.sown_on_weed_killer", (("day", day), ("ingredient", ingredient)))


def sown_before_cause(*, day: Day, cause: Day, least_days: int) -> Message:
    """seed or plants of {day} do not wait {least_days} days after the look for the cause of
    {cause}
    """
    return Message(
        "faults.sown_before_cause", (("day", day), ("cause", cause), ("least_days", least_days))
    )


def dressed_over_earlier_seed(*, day: Day, sown: Day) -> Message:
    """{day} spreads over the seedlings of {sown}"""
    return Message("faults.dressed_over_earlier_seed", (("day", day), ("sown", sown)))


def machine_unanswered(*, machine: str) -> Message:
    """the machine {machine} at hand has no work, and the plan does not say so"""
    return Message("faults.machine_unanswered", (("machine", machine),))


def moss_not_raked_out() -> Message:
    """treated moss is to come off in a task of its own, and there is none"""
    return Message("faults.moss_not_raked_out")


def work_not_asked(*, day: Day) -> Message:
    """{day} brings work that a plan of care alone has none of"""
    return Message("faults.work_not_asked", (("day", day),))


def care_instead_of_work(*, intent: str) -> Message:
    """care alone is planned, and fill or seed ({intent}) is asked for"""
    return Message("faults.care_instead_of_work", (("intent", intent),))


def thatch_unanswered(*, thatch_mm: Number, limit_mm: Number) -> Message:
    """thatch of {thatch_mm} mm is over the limit of {limit_mm} mm, and the plan neither takes it
    down nor says why not
    """
    return Message("faults.thatch_unanswered", (("thatch_mm", thatch_mm), ("limit_mm", limit_mm)))
