"""Messages of `messages/en/ground_fill.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Message, Quantity


def fill_bank_water() -> Message:
    """Moisten it once it is firmed, when its watering says, in short cycles with pauses, and stop
    before water runs: on a bank the foot or a tamper settles the fill, a soaking carries it off.
    """
    return Message("ground_fill.fill_bank_water")


def till_slope_filled() -> Message:
    """Work across the slope, and loosen no more than is filled and covered the same day: what lies
    loose overnight goes with the next storm.
    """
    return Message("ground_fill.till_slope_filled")


def till_slope_firm() -> Message:
    """Work across the slope, and tread or tamp it at once until a foot sinks no more than {1/2
    in|12 mm}: it is graded, sown and covered the same day, so that no storm finds it open.
    """
    return Message("ground_fill.till_slope_firm")


def campaign() -> Message:
    """No grass has to grow through the fill: the ground is loosened, filled in lifts, firmed and
    settled before seed or plants go in.
    """
    return Message("ground_fill.campaign")


def campaign_loosened() -> Message:
    """Ground without grass is loosened, raked and firmed right before its seed or plants."""
    return Message("ground_fill.campaign.loosened")


def campaign_season() -> Message:
    """So deep a fill goes on settling for months: it waits a season under a temporary cover, and is
    graded and sown then.
    """
    return Message("ground_fill.campaign.season")


def campaign_killed() -> Message:
    """The old stand is killed first, looked at again and cleared; the new one does not grow up
    among it.
    """
    return Message("ground_fill.campaign.killed")


def window_of_weeks(*, most: int) -> Message:
    """The fill is done in the {most} weeks or so before seed or plants, while the soil can be
    worked; what takes longer than that to spread by hand begins earlier.
    """
    return Message("ground_fill.window_of_weeks", (("most", most),))


def window_a_season() -> Message:
    """The fill goes on a season before seed or plants, while the soil can be worked."""
    return Message("ground_fill.window_a_season")


def cap() -> Message:
    """so that feet or a roller firm it to its bottom"""
    return Message("ground_fill.cap")


def one_lift() -> Message:
    """No grass has to grow through it: the whole fill goes on in one lift."""
    return Message("ground_fill.one_lift")


def lifts(*, depth: Quantity, n: int) -> Message:
    """{depth} of fill goes on in {n} lifts, each firmed and watered before the next."""
    return Message("ground_fill.lifts", (("depth", depth), ("n", n)))


def long_lift(*, n: int, people: int, needed: int, most: int) -> Message:
    """This lift takes {n} working days with {people} at work; with {needed} it would take {most}.
    Fill strip by strip, each to its whole height lift on lift, firmed and watered before the next
    is begun.
    """
    return Message(
        "ground_fill.long_lift", (("n", n), ("people", people), ("needed", needed), ("most", most))
    )


def steep() -> Message:
    """Steep ground: fill from the foot up, in steps cut across the slope; cover each finished strip
    the same day, and leave nothing loose before a storm.
    """
    return Message("ground_fill.steep")


def till() -> Message:
    """Roots and water stop at packed ground, and what the soil test asks for is worked in now or
    never.
    """
    return Message("ground_fill.till")


def grade() -> Message:
    """What has settled is filled, and the seedbed made firm: a soft one sinks under every foot and
    wheel.
    """
    return Message("ground_fill.grade")


def nurse_cover_season() -> Message:
    """The fill settles for a season, and open ground washes and grows weeds."""
    return Message("ground_fill.nurse_cover.season")


def nurse_cover_weeks() -> Message:
    """The fill takes weeks, and open soil washes with every storm and grows weeds: cover each strip
    as it is finished.
    """
    return Message("ground_fill.nurse_cover.weeks")


def nurse_cover_straw() -> Message:
    """Spread clean straw over each finished strip, so that half the soil shows; on a slope peg a
    netting over it.
    """
    return Message("ground_fill.nurse_cover.straw")


def nurse_cover_straw_off() -> Message:
    """Rake it off before the final grade."""
    return Message("ground_fill.nurse_cover.straw_off")


def nurse_cover_bank() -> Message:
    """Rain carries open soil off a slope: each strip is covered the evening it is filled, and stays
    so until the seed's day.
    """
    return Message("ground_fill.nurse_cover.bank")


def nurse_cover_lift(*, number: int) -> Message:
    """Cover lift {number} of the fill until the next one"""
    return Message("ground_fill.nurse_cover.lift", (("number", number),))


def nurse_cover_mat() -> Message:
    """Unroll a mat of straw or jute over each finished strip, dig its upper end in and peg it every
    {3 ft|1 m}: straw would slide.
    """
    return Message("ground_fill.nurse_cover.mat")


def nurse_cover_mat_off() -> Message:
    """Roll it up on the day of what comes next and keep it: the same evening it is pegged again
    over what is filled or sown.
    """
    return Message("ground_fill.nurse_cover.mat_off")


def nurse_cover_straw_off_lift() -> Message:
    """Rake it off the day the next lift goes on."""
    return Message("ground_fill.nurse_cover.straw_off_lift")


def nurse_cover_unsown() -> Message:
    """Nothing is sown yet, and open ground washes and grows weeds; the final grade comes with the
    seed.
    """
    return Message("ground_fill.nurse_cover.unsown")


def order() -> Message:
    """Topsoil without weeds, stones and clay lumps is not in every yard: ask and order in time."""
    return Message("ground_fill.order")


def order_ask() -> Message:
    """Ask the questions on the order sheet before you pay, and where the soil comes from: it should
    be near to your own, screened, and no subsoil. It need not be dry, only moist enough to crumble.
    """
    return Message("ground_fill.order_ask")


def ask_source() -> Message:
    """Where does the soil come from, and is it free of weed roots, rubble and herbicide?"""
    return Message("ground_fill.ask_source")


def ask_texture() -> Message:
    """Which texture is it? Best is that of the lawn's own soil, else a loam; no subsoil."""
    return Message("ground_fill.ask_texture")


def ask_tested() -> Message:
    """Is there a test of this heap, not older than a year: pH, soluble salts, phosphorus,
    potassium, organic matter?
    """
    return Message("ground_fill.ask_tested")


def ask_screened() -> Message:
    """Is it screened, and kept covered against rain?"""
    return Message("ground_fill.ask_screened")


def ask_load() -> Message:
    """How large is one load, and where can the truck stand and tip?"""
    return Message("ground_fill.ask_load")


def ask_refuse() -> Message:
    """May a sodden or lumpy load be refused at the gate?"""
    return Message("ground_fill.ask_refuse")


def look_squeeze() -> Message:
    """Squeeze test: a squeezed handful holds, and falls apart when poked. Smears: too wet; dusts:
    too dry to be firmed, damp it.
    """
    return Message("ground_fill.look_squeeze")


def look_clean() -> Message:
    """Look: one even color, no clay lumps, stones, roots, glass or weeds; smell: earth, not
    sour.
    """
    return Message("ground_fill.look_clean")


def order_spot() -> Message:
    """Name the drop spot: on or beside the ground to be filled, off the roots of trees."""
    return Message("ground_fill.order_spot")


def delivery() -> Message:
    """The soil must be there before the day it is spread."""
    return Message("ground_fill.delivery")


def delivery_look() -> Message:
    """Look before it is tipped: screened, no stones, clay lumps, roots or sour smell; a handful
    crumbles, it neither smears nor dusts.
    """
    return Message("ground_fill.delivery_look")


def delivery_tip() -> Message:
    """Tip it on or beside the ground to be filled, off the roots of trees, and cover it against
    rain.
    """
    return Message("ground_fill.delivery_tip")


def delivery_go() -> Message:
    """Moist, screened, one even color. Sodden or lumpy soil is refused."""
    return Message("ground_fill.delivery_go")


def delivery_fallback() -> Message:
    """Refused or late: tell whoever keeps the plan⟦ (`turfplan log BRIEF refused TASK`)⟧."""
    return Message("ground_fill.delivery_fallback")


def kill() -> Message:
    """What lives of the old stand comes up through the new one for years."""
    return Message("ground_fill.kill")


def kill_title() -> Message:
    """Kill the old stand while it grows"""
    return Message("ground_fill.kill_title")


def kill_again() -> Message:
    """One treatment seldom gets everything: runners, and what was dry or shaded that day, shoot
    again.
    """
    return Message("ground_fill.kill_again")


def kill_again_title() -> Message:
    """Treat again what has come up green"""
    return Message("ground_fill.kill_again_title")


def kill_again_name() -> Message:
    """Second treatment"""
    return Message("ground_fill.kill_again_name")


def kill_again_none() -> Message:
    """Nothing green anywhere: leave this out, and say so to the plan⟦ (`turfplan log BRIEF skipped
    TASK`)⟧; the rest may go on.
    """
    return Message("ground_fill.kill_again_none")


def kill_again_rest() -> Message:
    """Treat every green patch with a margin around it, as the label says for a second time, or pull
    it out.
    """
    return Message("ground_fill.kill_again_rest")


def runners_later(*, days: int) -> Message:
    """Loosening cuts runners, and each piece shoots: where weeks lie between this and the seed,
    look again about {days} days before it, once the ground has been wet, and treat each shoot then,
    as long as the label leaves days enough.
    """
    return Message("ground_fill.runners_later", (("days", days),))


def runners_dug() -> Message:
    """A shoot of the old grass is dug out with the whole of its runner: a hoe or rake only cuts
    it.
    """
    return Message("ground_fill.runners_dug")


def look() -> Message:
    """Only what has had time to shoot again shows that it lives."""
    return Message("ground_fill.look")


def look_title() -> Message:
    """Look: what of the old stand has come up again?"""
    return Message("ground_fill.look_title")


def look_how() -> Message:
    """Walk it in strips and flag every green patch; pull at runners: white and firm ones live."""
    return Message("ground_fill.look_how")


def look_go() -> Message:
    """Some rain or a watering since the treatment, so that what lives has shot."""
    return Message("ground_fill.look_go")


def clear() -> Message:
    """Standing dead grass keeps seed off the soil."""
    return Message("ground_fill.clear")


def strip_title(*, volume: Quantity) -> Message:
    """Strip the old turf with its thatch: {volume} to take away"""
    return Message("ground_fill.strip_title", (("volume", volume),))


def strip_name() -> Message:
    """Strip the turf"""
    return Message("ground_fill.strip_name")


def strip(*, thatch: Quantity) -> Message:
    """Thatch of {thatch} is a sponge: nothing levels on it, and roots of the new grass would stay
    in it.
    """
    return Message("ground_fill.strip", (("thatch", thatch),))


def strip_how() -> Message:
    """Mow it low, then cut below the thatch with a sod cutter, in strips that one person can roll
    and carry.
    """
    return Message("ground_fill.strip_how")


def strip_away() -> Message:
    """Compost what is clean in a heap of its own, roots up, or have it taken to a place for garden
    waste: ask before the day what it takes.
    """
    return Message("ground_fill.strip_away")


def clear_mulch() -> Message:
    """What lies dead and thin may stay: it keeps the ground moist."""
    return Message("ground_fill.clear_mulch")


def clear_all() -> Message:
    """Rake it off down to the soil: left under fill or tilled in thick, it rots to a soft seam."""
    return Message("ground_fill.clear_all")


def slit() -> Message:
    """Seed on a dead mulch dries out; in slits it touches soil."""
    return Message("ground_fill.slit")


def touch_up_later() -> Message:
    """The final grade comes with the seed: no touch-up is planned before it."""
    return Message("ground_fill.touch_up_later")


def weeds() -> Message:
    """More than half of this is weeds: renovation is the plan for it⟦ (`intent = \"renovate\"`)⟧,
    which kills what is there and sows anew; overseeding is planned only because it is asked for,
    and a season of it does not mend that.
    """
    return Message("ground_fill.weeds")
