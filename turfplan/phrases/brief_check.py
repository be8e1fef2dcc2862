"""Messages of `messages/en/brief_check.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Listed, Message, Number, Quantity


def unknown_grass() -> Message:
    """unknown grass"""
    return Message("brief_check.unknown.grass")


def grass_of_several(*, n: int) -> Message:
    """{n} grasses bear this name"""
    return Message("brief_check.grass_of_several", (("n", n),))


def grass_meant(*, id: str, grass: Message) -> Message:
    """{id} ({grass})"""
    return Message("brief_check.grass_meant", (("id", id), ("grass", grass)))


def grass_meant_in(*, id: str, grass: Message, countries: Listed) -> Message:
    """{id} ({grass}; so called in {countries})"""
    return Message(
        "brief_check.grass_meant_in", (("id", id), ("grass", grass), ("countries", countries))
    )


def say_which_grass() -> Message:
    """write one of these names"""
    return Message("brief_check.say_which_grass")


def say_where_or_which_grass() -> Message:
    """write one of these names, or give place.country"""
    return Message("brief_check.say_where_or_which_grass")


def much_lime() -> Message:
    """more lime than such a soil takes"""
    return Message("brief_check.much_lime")


def lime_rate(*, rate: Quantity) -> Message:
    """{rate}"""
    return Message("brief_check.lime_rate", (("rate", rate),))


def lime_most(*, rate: Quantity) -> Message:
    """up to {rate}"""
    return Message("brief_check.lime_most", (("rate", rate),))


def lime_slip(*, tenth: Quantity) -> Message:
    """has the point slipped ({tenth}), or is the rate one per acre or hectare? If the report does
    say so, write its acidity or buffer pH beside it
    """
    return Message("brief_check.lime_slip", (("tenth", tenth),))


def unknown_soil() -> Message:
    """unknown soil texture"""
    return Message("brief_check.unknown.soil")


def unknown_mix() -> Message:
    """unknown mix"""
    return Message("brief_check.unknown.mix")


def unknown_material() -> Message:
    """unknown material"""
    return Message("brief_check.unknown.material")


def unknown_campaign() -> Message:
    """unknown campaign"""
    return Message("brief_check.unknown.campaign")


def unknown_region() -> Message:
    """unknown region"""
    return Message("brief_check.unknown.region")


def cool_in_warm(*, grass: Message, lawn: Message) -> Message:
    """{grass} grows in the cool season and {lawn} in the warm: one plan cannot suit both"""
    return Message("brief_check.cool_in_warm", (("grass", grass), ("lawn", lawn)))


def warm_in_cool(*, grass: Message, lawn: Message) -> Message:
    """{grass} grows in the warm season and {lawn} in the cool: one plan cannot suit both"""
    return Message("brief_check.warm_in_cool", (("grass", grass), ("lawn", lawn)))


def a_cool_grass() -> Message:
    """a cool-season grass"""
    return Message("brief_check.a_cool_grass")


def a_warm_grass() -> Message:
    """a warm-season grass"""
    return Message("brief_check.a_warm_grass")


def lawn_of_its_own() -> Message:
    """give this part a brief of its own, as a lawn of its own"""
    return Message("brief_check.lawn_of_its_own")


def survey_says() -> Message:
    """the survey says how deep; give the depth once"""
    return Message("brief_check.survey_says")


def depth_or_survey() -> Message:
    """depth or leveling.survey"""
    return Message("brief_check.depth_or_survey")


def depth_twice() -> Message:
    """the depth is said twice"""
    return Message("brief_check.depth_twice")


def depth_or_lows() -> Message:
    """depth of a zone or leveling.lows"""
    return Message("brief_check.depth_or_lows")


def no_seed(*, grass: Message) -> Message:
    """{grass} is not grown from seed"""
    return Message("brief_check.no_seed", (("grass", grass),))


def plant_plugs() -> Message:
    """plant plugs or sod: intent = \"plant\""""
    return Message("brief_check.plant_plugs")


def not_planted(*, grass: Message) -> Message:
    """{grass} is sown, not planted"""
    return Message("brief_check.not_planted", (("grass", grass),))


def not_sold_as(*, grass: Message, form: str) -> Message:
    """{grass} is not sold as {form}"""
    return Message("brief_check.not_sold_as", (("grass", grass), ("form", form)))


def not_dormant() -> Message:
    """warm-season grass is not sown dormant"""
    return Message("brief_check.not_dormant")


def winter_cover_sleeps(*, grass: Message) -> Message:
    """{grass} sleeps in winter like the lawn below it and makes no winter cover"""
    return Message("brief_check.winter_cover_sleeps", (("grass", grass),))


def take_winter_cover(*, grass: Message) -> Message:
    """take {grass}, or leave `species` out: a winter cover is a cool-season grass"""
    return Message("brief_check.take_winter_cover", (("grass", grass),))


def winter_is_warm() -> Message:
    """winter overseeding is for warm-season lawns"""
    return Message("brief_check.winter_is_warm")


def stays_green() -> Message:
    """a cool-season lawn stays green: use \"overseed\""""
    return Message("brief_check.stays_green")


def nothing_to_do() -> Message:
    """a campaign is asked for, and neither fill nor seed that it could bring"""
    return Message("brief_check.nothing_to_do")


def bare_unsown() -> Message:
    """the lawn is bare, and neither fill nor seed is asked for: no grass stands there to be cared
    for
    """
    return Message("brief_check.bare_unsown")


def seed_not_asked(*, key: str) -> Message:
    """{key} is given, and nothing is to be sown: give an intent such as \"overseed\", or leave
    {key} out
    """
    return Message("brief_check.seed_not_asked", (("key", key),))


def care_with_work() -> Message:
    """care alone is asked for beside fill or seed"""
    return Message("brief_check.care_with_work")


def drop_care() -> Message:
    """leave `campaign` out, or leave out [leveling] and [seeding]"""
    return Message("brief_check.drop_care")


def give_something() -> Message:
    """give [leveling] depth, or a seeding intent such as \"overseed\""""
    return Message("brief_check.give_something")


def thatch_goes_first(*, thatch: Quantity, limit: Quantity) -> Message:
    """give [leveling] depth, or a seeding intent such as \"overseed\": thatch of {thatch} is more
    than {limit}, and the plan then says when it is taken down, before the fill or the seed
    """
    return Message("brief_check.thatch_goes_first", (("thatch", thatch), ("limit", limit)))


def few_cans() -> Message:
    """too few cans to show how evenly the water falls"""
    return Message("brief_check.few_cans")


def cans_or_more(*, least: int, full: Number) -> Message:
    """{least} or more; {full} for a full test"""
    return Message("brief_check.cans_or_more", (("least", least), ("full", full)))


def set_cans() -> Message:
    """set straight-sided cans evenly over the zone and run it again"""
    return Message("brief_check.set_cans")


def above_zero() -> Message:
    """must be more than 0"""
    return Message("brief_check.above_zero")


def empty_cans() -> Message:
    """every can is empty"""
    return Message("brief_check.empty_cans")


def run_longer() -> Message:
    """run the zone longer"""
    return Message("brief_check.run_longer")


def covered() -> Message:
    """the other zones already cover the lawn"""
    return Message("brief_check.covered")


def give_area() -> Message:
    """give its area"""
    return Message("brief_check.give_area")


def together(*, one: str, other: str) -> Message:
    """{one} and {other} tell the rate together"""
    return Message("brief_check.together", (("one", one), ("other", other)))


def give_both() -> Message:
    """give both"""
    return Message("brief_check.give_both")


def of_one_head() -> Message:
    """the flow is that of one head, not of the whole line"""
    return Message("brief_check.of_one_head")


def unknown_zone() -> Message:
    """no shape of the lawn has this name"""
    return Message("brief_check.unknown_zone")


def part_beyond_zone() -> Message:
    """the part is as large as the zone that it lies in, or larger"""
    return Message("brief_check.part_beyond_zone")


def parts_too_large() -> Message:
    """the parts take the whole lawn, or more than it is"""
    return Message("brief_check.parts_too_large")


def phosphate_banned() -> Message:
    """holds phosphorus, which is banned where this lawn lies"""
    return Message("brief_check.phosphate_banned")


def phosphate_free() -> Message:
    """an analysis with 0 in the middle, such as 24-0-6"""
    return Message("brief_check.phosphate_free")


def phosphate_free_bag() -> Message:
    """ask for a bag without phosphorus and write its three numbers here, or leave the key out: the
    plan then says how much nitrogen to buy
    """
    return Message("brief_check.phosphate_free_bag")
