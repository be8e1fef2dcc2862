"""Messages of `messages/en/glossary.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Message


def barrow_load_word() -> Message:
    """Barrow load"""
    return Message("glossary.barrow_load.word")


def barrow_load_forms() -> Message:
    """*barrow load*"""
    return Message("glossary.barrow_load.forms")


def barrow_load_meaning() -> Message:
    """A garden barrow filled, not heaped above its rim; how much that holds stands beside the
    number.
    """
    return Message("glossary.barrow_load.meaning")


def best_day_word() -> Message:
    """Best day"""
    return Message("glossary.best_day.word")


def best_day_forms() -> Message:
    """*best"""
    return Message("glossary.best_day.forms")


def best_day_meaning() -> Message:
    """The day of a window on which the work is likeliest to succeed."""
    return Message("glossary.best_day.meaning")


def blackout_word() -> Message:
    """Blackout"""
    return Message("glossary.blackout.word")


def blackout_forms() -> Message:
    """*blackout*"""
    return Message("glossary.blackout.forms")


def blackout_meaning() -> Message:
    """Days on which a local law forbids fertilizer."""
    return Message("glossary.blackout.meaning")


def buffer_ph_word() -> Message:
    """Buffer pH, lime requirement"""
    return Message("glossary.buffer_ph.word")


def buffer_ph_forms() -> Message:
    """*buffer pH*, *lime requirement*"""
    return Message("glossary.buffer_ph.forms")


def buffer_ph_meaning() -> Message:
    """What a laboratory measures to say how much lime the soil needs."""
    return Message("glossary.buffer_ph.meaning")


def calibrate_word() -> Message:
    """Calibrate"""
    return Message("glossary.calibrate.word")


def calibrate_forms() -> Message:
    """*calibrat*"""
    return Message("glossary.calibrate.forms")


def calibrate_meaning() -> Message:
    """Weigh what the spreader gives over a known area, and set it to the rate."""
    return Message("glossary.calibrate.meaning")


def canopy_word() -> Message:
    """Canopy"""
    return Message("glossary.canopy.word")


def canopy_forms() -> Message:
    """*canopy*, *canopies*"""
    return Message("glossary.canopy.forms")


def canopy_meaning() -> Message:
    """The leaves of the lawn, seen as a layer between you and the soil."""
    return Message("glossary.canopy.meaning")


def catch_can_word() -> Message:
    """Catch can"""
    return Message("glossary.catch_can.word")


def catch_can_forms() -> Message:
    """*catch can*, *catch-can*, *catch_can*"""
    return Message("glossary.catch_can.forms")


def catch_can_meaning() -> Message:
    """A straight-sided can set on the lawn to measure how much a sprinkler gives."""
    return Message("glossary.catch_can.meaning")


def clay_word() -> Message:
    """Clay, loam, silt"""
    return Message("glossary.clay.word")


def clay_forms() -> Message:
    """clay*, loam*, silt*"""
    return Message("glossary.clay.forms")


def clay_meaning() -> Message:
    """Soils by grain: clay is finest and sticky, silt is floury, loam is a mixture with sand."""
    return Message("glossary.clay.meaning")


def climate_normals_word() -> Message:
    """Climate normals"""
    return Message("glossary.climate_normals.word")


def climate_normals_forms() -> Message:
    """*normals*, *climatolog*"""
    return Message("glossary.climate_normals.forms")


def climate_normals_meaning() -> Message:
    """The average of many years of weather, day by day or month by month."""
    return Message("glossary.climate_normals.meaning")


def common_practice_word() -> Message:
    """Common practice"""
    return Message("glossary.common_practice.word")


def common_practice_forms() -> Message:
    """*common practice*"""
    return Message("glossary.common_practice.forms")


def common_practice_meaning() -> Message:
    """What the trade does everywhere, without one publication that says so."""
    return Message("glossary.common_practice.meaning")


def compost_word() -> Message:
    """Compost"""
    return Message("glossary.compost.word")


def compost_forms() -> Message:
    """*compost*"""
    return Message("glossary.compost.forms")


def compost_meaning() -> Message:
    """Plant matter rotted until it is dark, crumbly and smells of earth."""
    return Message("glossary.compost.meaning")


def compost_credit_word() -> Message:
    """Compost credit"""
    return Message("glossary.compost_credit.word")


def compost_credit_forms() -> Message:
    """*credit*"""
    return Message("glossary.compost_credit.forms")


def compost_credit_meaning() -> Message:
    """Nitrogen that compost gives in its first year, counted as feeding."""
    return Message("glossary.compost_credit.meaning")


def cool_season_word() -> Message:
    """Cool-season, warm-season grass"""
    return Message("glossary.cool_season.word")


def cool_season_forms() -> Message:
    """*cool-season*, *warm-season*"""
    return Message("glossary.cool_season.forms")


def cool_season_meaning() -> Message:
    """Grass that grows most in spring and autumn, or most in the heat of summer."""
    return Message("glossary.cool_season.meaning")


def core_aerate_forms() -> Message:
    """*aerat*, *hollow-tin*, *hollow tin*"""
    return Message("glossary.core_aerate.forms")


def core_aerate_meaning() -> Message:
    """Pull plugs of soil out with hollow tines, so that air, water and mix get in."""
    return Message("glossary.core_aerate.meaning")


def cycle_word() -> Message:
    """Cycle"""
    return Message("glossary.cycle.word")


def cycle_forms() -> Message:
    """cycle, cycles"""
    return Message("glossary.cycle.forms")


def cycle_meaning() -> Message:
    """One of several short runs with a pause between, so that the water soaks in instead of running
    off.
    """
    return Message("glossary.cycle.meaning")


def depletion_word() -> Message:
    """Depletion"""
    return Message("glossary.depletion.word")


def depletion_forms() -> Message:
    """*depletion*"""
    return Message("glossary.depletion.forms")


def depletion_meaning() -> Message:
    """The share of the water in the root zone that grass may use before it is watered again."""
    return Message("glossary.depletion.meaning")


def dethatch_forms() -> Message:
    """*dethatch*, *scarif*"""
    return Message("glossary.dethatch.forms")


def dethatch_meaning() -> Message:
    """Comb the thatch out with blades or tines."""
    return Message("glossary.dethatch.meaning")


def dormant_word() -> Message:
    """Dormant"""
    return Message("glossary.dormant.word")


def dormant_forms() -> Message:
    """*dormant*"""
    return Message("glossary.dormant.forms")


def dormant_meaning() -> Message:
    """Alive but not growing, as grass in frost or seed in cold soil."""
    return Message("glossary.dormant.meaning")


def drag_word() -> Message:
    """Drag"""
    return Message("glossary.drag.word")


def drag_forms() -> Message:
    """drag*"""
    return Message("glossary.drag.forms")


def drag_meaning() -> Message:
    """Pull a mat or the back of a rake over the mix to work it down between the leaves."""
    return Message("glossary.drag.meaning")


def establishment_word() -> Message:
    """Establishment"""
    return Message("glossary.establishment.word")


def establishment_forms() -> Message:
    """*establish*"""
    return Message("glossary.establishment.forms")


def establishment_meaning() -> Message:
    """The weeks from sowing until the young grass can be treated like the rest."""
    return Message("glossary.establishment.meaning")


def evaporation_from_grass_word() -> Message:
    """Evaporation from grass (ET)"""
    return Message("glossary.evaporation_from_grass.word")


def evaporation_from_grass_forms() -> Message:
    """ET, ET0, *evapo*"""
    return Message("glossary.evaporation_from_grass.forms")


def evaporation_from_grass_meaning() -> Message:
    """Water that the soil and the grass lose to the air, as a depth like rain."""
    return Message("glossary.evaporation_from_grass.meaning")


def field_capacity_word() -> Message:
    """Field capacity, wilting point"""
    return Message("glossary.field_capacity.word")


def field_capacity_forms() -> Message:
    """*field capacity*, *wilting*"""
    return Message("glossary.field_capacity.forms")


def field_capacity_meaning() -> Message:
    """The most water a soil holds against draining, and the least from which grass can still
    drink.
    """
    return Message("glossary.field_capacity.meaning")


def fill_word() -> Message:
    """Fill"""
    return Message("glossary.fill.word")


def fill_forms() -> Message:
    """fill"""
    return Message("glossary.fill.forms")


def fill_meaning() -> Message:
    """What has to be added to make the ground even; its depth is the mean over the area."""
    return Message("glossary.fill.meaning")


def fittings_word() -> Message:
    """Fittings"""
    return Message("glossary.fittings.word")


def fittings_forms() -> Message:
    """*fitting, *fittings, *valve box*, *sprinkler heads*"""
    return Message("glossary.fittings.forms")


def fittings_meaning() -> Message:
    """Sprinkler heads, valve boxes and covers that stand in the lawn and must end up level with
    it.
    """
    return Message("glossary.fittings.meaning")


def flush_word() -> Message:
    """Flush"""
    return Message("glossary.flush.word")


def flush_forms() -> Message:
    """flush"""
    return Message("glossary.flush.forms")


def flush_meaning() -> Message:
    """The burst of leaf that grass makes in spring."""
    return Message("glossary.flush.meaning")


def germination_word() -> Message:
    """Germination"""
    return Message("glossary.germination.word")


def germination_forms() -> Message:
    """*germinat*"""
    return Message("glossary.germination.forms")


def germination_meaning() -> Message:
    """The seed waking and sending out its first root and leaf."""
    return Message("glossary.germination.meaning")


def green_up_word() -> Message:
    """Green-up"""
    return Message("glossary.green_up.word")


def green_up_forms() -> Message:
    """*green-up*, *green up*, *greens up*"""
    return Message("glossary.green_up.forms")


def green_up_meaning() -> Message:
    """The weeks in which dormant grass turns green again."""
    return Message("glossary.green_up.meaning")


def growing_degree_days_word() -> Message:
    """Growing degree days"""
    return Message("glossary.growing_degree_days.word")


def growing_degree_days_forms() -> Message:
    """*degree-day*, *degree day*"""
    return Message("glossary.growing_degree_days.forms")


def growing_degree_days_meaning() -> Message:
    """Warmth summed up: each day counts by how far its mean lies above a base temperature."""
    return Message("glossary.growing_degree_days.meaning")


def growth_potential_word() -> Message:
    """Growth potential"""
    return Message("glossary.growth_potential.word")


def growth_potential_forms() -> Message:
    """*growth potential*, *of its best*"""
    return Message("glossary.growth_potential.forms")


def growth_potential_meaning() -> Message:
    """How strongly a grass grows at a temperature, as a share of its best."""
    return Message("glossary.growth_potential.meaning")


def herbicide_word() -> Message:
    """Herbicide"""
    return Message("glossary.herbicide.word")


def herbicide_forms() -> Message:
    """*herbicide*"""
    return Message("glossary.herbicide.forms")


def herbicide_meaning() -> Message:
    """A weedkiller; its label is the law."""
    return Message("glossary.herbicide.meaning")


def intake_word() -> Message:
    """Intake"""
    return Message("glossary.intake.word")


def intake_forms() -> Message:
    """*intake*, *infiltration*"""
    return Message("glossary.intake.forms")


def intake_meaning() -> Message:
    """How fast water soaks into a soil, as a depth in an hour."""
    return Message("glossary.intake.meaning")


def judgement_word() -> Message:
    """Judgement"""
    return Message("glossary.judgement.word")


def judgement_forms() -> Message:
    """*judgement*"""
    return Message("glossary.judgement.forms")


def judgement_meaning() -> Message:
    """A number without a publication behind it: our own reckoning, to be corrected by your
    notes.
    """
    return Message("glossary.judgement.meaning")


def leaf_tips_word() -> Message:
    """Leaf tips"""
    return Message("glossary.leaf_tips.word")


def leaf_tips_forms() -> Message:
    """tips"""
    return Message("glossary.leaf_tips.forms")


def leaf_tips_meaning() -> Message:
    """The ends of the grass leaves; they must show after each pass, or the grass below dies."""
    return Message("glossary.leaf_tips.meaning")


def lift_and_fill_forms() -> Message:
    """*lift and fill*, *lift the turf*, *relay*, *re-lay*"""
    return Message("glossary.lift_and_fill.forms")


def lift_and_fill_meaning() -> Message:
    """Cut the turf and roll it back, fill the hollow beneath, and lay the turf again."""
    return Message("glossary.lift_and_fill.meaning")


def lime_forms() -> Message:
    """lime, liming"""
    return Message("glossary.lime.forms")


def lime_meaning() -> Message:
    """Ground limestone; it makes sour soil milder, and is given only where a soil test asks for
    it.
    """
    return Message("glossary.lime.meaning")


def low_cut_forms() -> Message:
    """*low cut*, *mow low*"""
    return Message("glossary.low_cut.forms")


def low_cut_meaning() -> Message:
    """Mowing below the usual height, in steps, so that the mix reaches the soil."""
    return Message("glossary.low_cut.meaning")


def median_word() -> Message:
    """Median, quartiles"""
    return Message("glossary.median.word")


def median_forms() -> Message:
    """*median*, *quartile*"""
    return Message("glossary.median.forms")


def median_meaning() -> Message:
    """The middle one of many values, and those a quarter in from either end."""
    return Message("glossary.median.meaning")


def mix_word() -> Message:
    """Mix"""
    return Message("glossary.mix.word")


def mix_forms() -> Message:
    """mix, mixes, mixture"""
    return Message("glossary.mix.forms")


def mix_meaning() -> Message:
    """What is spread: topsoil, sand and compost in set shares, dry and blended by machine."""
    return Message("glossary.mix.meaning")


def nitrogen_word() -> Message:
    """Nitrogen (N)"""
    return Message("glossary.nitrogen.word")


def nitrogen_forms() -> Message:
    """*nitrogen*, N"""
    return Message("glossary.nitrogen.forms")


def nitrogen_meaning() -> Message:
    """The food that makes grass grow green; it is given by weight over an area."""
    return Message("glossary.nitrogen.meaning")


def noxious_weed_word() -> Message:
    """Noxious weed"""
    return Message("glossary.noxious_weed.word")


def noxious_weed_forms() -> Message:
    """*noxious*"""
    return Message("glossary.noxious_weed.forms")


def noxious_weed_meaning() -> Message:
    """A weed that the law forbids to sell or to spread."""
    return Message("glossary.noxious_weed.meaning")


def organic_matter_word() -> Message:
    """Organic matter"""
    return Message("glossary.organic_matter.word")


def organic_matter_forms() -> Message:
    """*organic matter*"""
    return Message("glossary.organic_matter.forms")


def organic_matter_meaning() -> Message:
    """What is left of plants in the soil; it holds water and food."""
    return Message("glossary.organic_matter.meaning")


def overseed_forms() -> Message:
    """*overseed*"""
    return Message("glossary.overseed.forms")


def overseed_meaning() -> Message:
    """Sow into grass that stays."""
    return Message("glossary.overseed.meaning")


def pass_word() -> Message:
    """Pass"""
    return Message("glossary.pass.word")


def pass_forms() -> Message:
    """pass, passes"""
    return Message("glossary.pass.forms")


def pass_meaning() -> Message:
    """One thin layer of mix over the whole lawn."""
    return Message("glossary.pass.meaning")


def ph_word() -> Message:
    """pH"""
    return Message("glossary.ph.word")


def ph_forms() -> Message:
    """pH"""
    return Message("glossary.ph.forms")


def ph_meaning() -> Message:
    """How acid a soil is: 7 is neutral, less is acid."""
    return Message("glossary.ph.meaning")


def phosphate_word() -> Message:
    """Phosphate, potash"""
    return Message("glossary.phosphate.word")


def phosphate_forms() -> Message:
    """*phosphate*, *potash*"""
    return Message("glossary.phosphate.forms")


def phosphate_meaning() -> Message:
    """How phosphorus and potassium are named on a bag of fertilizer."""
    return Message("glossary.phosphate.meaning")


def phosphorus_word() -> Message:
    """Phosphorus (P)"""
    return Message("glossary.phosphorus.word")


def phosphorus_forms() -> Message:
    """*phosphor*, P"""
    return Message("glossary.phosphorus.forms")


def phosphorus_meaning() -> Message:
    """Food for young roots; many places allow it only where a soil test asks for it."""
    return Message("glossary.phosphorus.meaning")


def plug_word() -> Message:
    """Plug, core"""
    return Message("glossary.plug.word")


def plug_forms() -> Message:
    """plug, plugs, core, cores"""
    return Message("glossary.plug.forms")


def plug_meaning() -> Message:
    """A finger of soil that a hollow tine pulls out; also a small piece of turf that is planted and
    spreads.
    """
    return Message("glossary.plug.meaning")


def potassium_word() -> Message:
    """Potassium (K), potash"""
    return Message("glossary.potassium.word")


def potassium_forms() -> Message:
    """*potassium*, *potash*"""
    return Message("glossary.potassium.forms")


def potassium_meaning() -> Message:
    """Food that helps grass through drought and winter; a soil test says whether it is lacking."""
    return Message("glossary.potassium.meaning")


def preventer_word() -> Message:
    """Preventer"""
    return Message("glossary.preventer.word")


def preventer_forms() -> Message:
    """*preemergent*, *pre-emergent*, *preventer*"""
    return Message("glossary.preventer.forms")


def preventer_meaning() -> Message:
    """A weedkiller that stops seed from coming up, grass seed too."""
    return Message("glossary.preventer.meaning")


def reserve_word() -> Message:
    """Reserve"""
    return Message("glossary.reserve.word")


def reserve_forms() -> Message:
    """reserve, *held back*, *hold back*"""
    return Message("glossary.reserve.forms")


def reserve_meaning() -> Message:
    """Seed kept for the spots that stay bare or wash out."""
    return Message("glossary.reserve.meaning")


def root_zone_word() -> Message:
    """Root zone"""
    return Message("glossary.root_zone.word")


def root_zone_forms() -> Message:
    """*root zone*"""
    return Message("glossary.root_zone.forms")


def root_zone_meaning() -> Message:
    """The soil that the roots reach and draw water from."""
    return Message("glossary.root_zone.meaning")


def run_off_word() -> Message:
    """Run off"""
    return Message("glossary.run_off.word")


def run_off_forms() -> Message:
    """*run off*, *runs off*, *running off*, *runoff*"""
    return Message("glossary.run_off.forms")


def run_off_meaning() -> Message:
    """Flow away over the ground, because the soil is full or takes water too slowly."""
    return Message("glossary.run_off.meaning")


def screened_word() -> Message:
    """Screened"""
    return Message("glossary.screened.word")


def screened_forms() -> Message:
    """*screen*"""
    return Message("glossary.screened.forms")


def screened_meaning() -> Message:
    """Shaken through a sieve, so that nothing larger than its openings is left."""
    return Message("glossary.screened.meaning")


def settle_word() -> Message:
    """Settle"""
    return Message("glossary.settle.word")


def settle_forms() -> Message:
    """*settl*, loose"""
    return Message("glossary.settle.forms")


def settle_meaning() -> Message:
    """Sink together under rain and watering; the order holds more so that enough is left."""
    return Message("glossary.settle.meaning")


def setup_word() -> Message:
    """Setup"""
    return Message("glossary.setup.word")


def setup_forms() -> Message:
    """setup, setups, set-up, set-ups"""
    return Message("glossary.setup.forms")


def setup_meaning() -> Message:
    """One place from which a level is read."""
    return Message("glossary.setup.meaning")


def silica_dust_word() -> Message:
    """Silica dust"""
    return Message("glossary.silica_dust.word")


def silica_dust_forms() -> Message:
    """*silica*"""
    return Message("glossary.silica_dust.forms")


def silica_dust_meaning() -> Message:
    """Dust of sand so fine that it stays in the lungs."""
    return Message("glossary.silica_dust.meaning")


def slow_release_word() -> Message:
    """Slow-release"""
    return Message("glossary.slow_release.word")


def slow_release_forms() -> Message:
    """*slow-release*"""
    return Message("glossary.slow_release.forms")


def slow_release_meaning() -> Message:
    """Nitrogen that feeds over weeks instead of days."""
    return Message("glossary.slow_release.meaning")


def sod_word() -> Message:
    """Sod, plugs, sprigs"""
    return Message("glossary.sod.word")


def sod_forms() -> Message:
    """sod, plugs, sprig, sprigs"""
    return Message("glossary.sod.forms")


def sod_meaning() -> Message:
    """Grass set living: in rolls, in small rooted pieces, or as bare runners."""
    return Message("glossary.sod.meaning")


def soil_temperature_word() -> Message:
    """Soil temperature"""
    return Message("glossary.soil_temperature.word")


def soil_temperature_forms() -> Message:
    """*soil temperature*"""
    return Message("glossary.soil_temperature.forms")


def soil_temperature_meaning() -> Message:
    """The warmth of the soil {4 in|10 cm} down; it decides when seed wakes and roots grow."""
    return Message("glossary.soil_temperature.meaning")


def stake_word() -> Message:
    """Stake"""
    return Message("glossary.stake.word")


def stake_forms() -> Message:
    """stake, stakes"""
    return Message("glossary.stake.forms")


def stake_meaning() -> Message:
    """A peg in the lawn at which the depth of fill is marked."""
    return Message("glossary.stake.meaning")


def stand_word() -> Message:
    """Stand"""
    return Message("glossary.stand.word")


def stand_forms() -> Message:
    """stand, stands"""
    return Message("glossary.stand.forms")


def stand_meaning() -> Message:
    """The grass plants of a lawn taken together: thin where soil shows between them, dense where it
    does not.
    """
    return Message("glossary.stand.meaning")


def starter_feed_word() -> Message:
    """Starter feed"""
    return Message("glossary.starter_feed.word")


def starter_feed_forms() -> Message:
    """*starter*"""
    return Message("glossary.starter_feed.forms")


def starter_feed_meaning() -> Message:
    """Fertilizer given with the seed; left out where compost feeds it."""
    return Message("glossary.starter_feed.meaning")


def stolons_word() -> Message:
    """Stolons"""
    return Message("glossary.stolons.word")


def stolons_forms() -> Message:
    """*stolon*, *runners*"""
    return Message("glossary.stolons.forms")


def stolons_meaning() -> Message:
    """Stems that creep over the ground and root; grass that has them closes gaps by itself."""
    return Message("glossary.stolons.meaning")


def straightedge_word() -> Message:
    """Straightedge"""
    return Message("glossary.straightedge.word")


def straightedge_forms() -> Message:
    """*straightedge*"""
    return Message("glossary.straightedge.forms")


def straightedge_meaning() -> Message:
    """A straight board or pole; what gapes below it is low."""
    return Message("glossary.straightedge.meaning")


def swale_word() -> Message:
    """Swale"""
    return Message("glossary.swale.word")


def swale_forms() -> Message:
    """*swale*"""
    return Message("glossary.swale.forms")


def swale_meaning() -> Message:
    """A shallow dip that leads water away; it is kept, not filled."""
    return Message("glossary.swale.meaning")


def thatch_word() -> Message:
    """Thatch"""
    return Message("glossary.thatch.word")


def thatch_forms() -> Message:
    """*thatch*"""
    return Message("glossary.thatch.forms")


def thatch_meaning() -> Message:
    """The brown felt of dead stems between the leaves and the soil."""
    return Message("glossary.thatch.meaning")


def tiller_word() -> Message:
    """Tiller"""
    return Message("glossary.tiller.word")


def tiller_forms() -> Message:
    """grass tiller, tillering"""
    return Message("glossary.tiller.forms")


def tiller_meaning() -> Message:
    """A new shoot from the foot of a grass plant; the grass grows denser by it."""
    return Message("glossary.tiller.meaning")


def tine_word() -> Message:
    """Tine"""
    return Message("glossary.tine.word")


def tine_forms() -> Message:
    """tine, tines"""
    return Message("glossary.tine.forms")


def tine_meaning() -> Message:
    """The spike of an aerator."""
    return Message("glossary.tine.meaning")


def top_dress_forms() -> Message:
    """*topdress*, *top-dress*, *dressed, *dressing"""
    return Message("glossary.top_dress.forms")


def top_dress_meaning() -> Message:
    """Spread a thin layer of mix over living grass."""
    return Message("glossary.top_dress.meaning")


def uniformity_word() -> Message:
    """Uniformity"""
    return Message("glossary.uniformity.word")


def uniformity_forms() -> Message:
    """*uniformity*"""
    return Message("glossary.uniformity.forms")


def uniformity_meaning() -> Message:
    """How evenly a sprinkler waters; 1 is perfectly even."""
    return Message("glossary.uniformity.meaning")


def utility_marks_word() -> Message:
    """Utility marks"""
    return Message("glossary.utility_marks.word")


def utility_marks_forms() -> Message:
    """*utility*, *utilities*, 811"""
    return Message("glossary.utility_marks.forms")


def utility_marks_meaning() -> Message:
    """Flags or paint that show where buried pipes and cables run."""
    return Message("glossary.utility_marks.meaning")


def window_word() -> Message:
    """Window"""
    return Message("glossary.window.word")


def window_forms() -> Message:
    """window, windows"""
    return Message("glossary.window.forms")


def window_meaning() -> Message:
    """The days on which a job may be done here with this grass."""
    return Message("glossary.window.meaning")
