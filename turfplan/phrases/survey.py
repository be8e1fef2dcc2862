"""Messages of `messages/en/survey.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Listed, Message, Number, Quantity, RodReading, SurveySpot


def target_own_fall() -> Message:
    """The target keeps the lawn's own fall: hollows are filled to the ground around them, and
    slopes stay as they are.
    """
    return Message("survey.target.own_fall")


def target_plane() -> Message:
    """The target is one even plane, the one that fits the ground best."""
    return Message("survey.target.plane")


def target_fill_only() -> Message:
    """The target is what a long straightedge leaves: every gap under it is filled, and nothing is
    cut.
    """
    return Message("survey.target.fill_only")


def target_line() -> Message:
    """The target is the string line: each depth is what is missing below it."""
    return Message("survey.target.line")


def volume_one_plane(*, points: int) -> Message:
    """{points} points lie in one plane: nothing is seen to be missing, and so few points see
    little.
    """
    return Message("survey.volume.one_plane", (("points", points),))


def volume_none(*, points: int) -> Message:
    """From {points} points: nothing is missing; no material is needed."""
    return Message("survey.volume.none", (("points", points),))


def volume_missing(
    *, points: int, each: Quantity, volume: Quantity, low: Quantity, high: Quantity
) -> Message:
    """From {points} points, one for about {each}: {volume} is missing, settled; nine surveys of ten
    like this one hold the truth between {low} and {high}.
    """
    return Message(
        "survey.volume.missing",
        (("points", points), ("each", each), ("volume", volume), ("low", low), ("high", high)),
    )


def volume_other_targets(*, plane: Quantity, straightedge: Quantity, length: Quantity) -> Message:
    """Other targets would need: one even plane {plane}; no gap under a straightedge of {length}
    {straightedge}.
    """
    return Message(
        "survey.volume.other_targets",
        (("plane", plane), ("straightedge", straightedge), ("length", length)),
    )


def volume_hollows(*, n: int, volume: Quantity, low: Quantity, high: Quantity) -> Message:
    """{n} hollows filled to the rim: {volume} settled, between {low} and {high} as such hollows can
    be measured.
    """
    return Message(
        "survey.volume.hollows", (("n", n), ("volume", volume), ("low", low), ("high", high))
    )


def volume_zone(
    *, zone: Message, area: Quantity, volume: Quantity, mean: Quantity, deepest: Quantity
) -> Message:
    """{zone} ({area}): {volume} is missing, settled; {mean} on average, {deepest} at the
    deepest.
    """
    return Message(
        "survey.volume.zone",
        (("zone", zone), ("area", area), ("volume", volume), ("mean", mean), ("deepest", deepest)),
    )


def volume_other_area(*, seen: Quantity, given: Quantity) -> Message:
    """The survey covers {seen}, the brief says {given}: the depths found are taken to hold for the
    whole lawn in the same shares.
    """
    return Message("survey.volume.other_area", (("seen", seen), ("given", given)))


def doubt_readings(*, volume: Quantity) -> Message:
    """Errors of reading only ever add fill: {volume} of it may be such error. Reading more finely,
    or each point twice, lessens it.
    """
    return Message("survey.doubt.readings", (("volume", volume),))


def doubt_gaps(*, volume: Quantity) -> Message:
    """Most of the doubt, {volume}, is ground between the points: twice as many points would about
    halve it.
    """
    return Message("survey.doubt.gaps", (("volume", volume),))


def doubt_averaged(*, readings: int, spots: int) -> Message:
    """{readings} readings stand on {spots} spots; readings of the same spot were averaged."""
    return Message("survey.doubt.averaged", (("readings", readings), ("spots", spots)))


def doubt_beyond(*, share: Number) -> Message:
    """{share} of the lawn lies outside of the points and takes the height of the nearest ones:
    measure its edge and corners too.
    """
    return Message("survey.doubt.beyond", (("share", share),))


def doubt_far_apart(*, distance: Quantity, volume: Quantity) -> Message:
    """The points stand about {distance} apart: hollows narrower than that may lie between them
    unseen. The upper figure allows {volume} for ordinary ones.
    """
    return Message("survey.doubt.far_apart", (("distance", distance), ("volume", volume)))


def doubt_few_points(*, points: int) -> Message:
    """{points} points show how the lawn lies, not its hollows: the volume may be anything up to
    twice what is printed.
    """
    return Message("survey.doubt.few_points", (("points", points),))


def outlier_above(*, point: Message, height: Quantity) -> Message:
    """{point} stands {height} above the ground around it: a stone, a hole or a slip? It was kept;
    read it again.
    """
    return Message("survey.outlier.above", (("point", point), ("height", height)))


def outlier_below(*, point: Message, height: Quantity) -> Message:
    """{point} stands {height} below the ground around it: a stone, a hole or a slip? It was kept;
    read it again.
    """
    return Message("survey.outlier.below", (("point", point), ("height", height)))


def outlier_more(*, n: int) -> Message:
    """{n} more readings stand apart like this."""
    return Message("survey.outlier.more", (("n", n),))


def level_open() -> Message:
    """The run of levels does not return to a known point, so a slip in it cannot be seen: end on
    the point it began with.
    """
    return Message("survey.level.open")


def level_closes(*, off: RodReading, n: int) -> Message:
    """The run of levels closes within {off} over {n} setups; the difference was shared out over the
    setups.
    """
    return Message("survey.level.closes", (("off", off), ("n", n)))


def level_slip(*, off: RodReading, n: int, allowed: RodReading) -> Message:
    """The run of levels closes within {off} over {n} setups: more than the {allowed} that reading
    explains. There is a slip in it; level it again before material is ordered.
    """
    return Message("survey.level.slip", (("off", off), ("n", n), ("allowed", allowed)))


def ground_high_spots(*, height: Quantity, area: Quantity) -> Message:
    """High spots stay: up to {height} above the target, {area} in all. Filling around them hides
    them; else lift the turf and take soil out.
    """
    return Message("survey.ground.high_spots", (("height", height), ("area", area)))


def ground_lifted(*, area: Quantity, share: Number, limit: Quantity) -> Message:
    """{area} ({share}) is deeper than {limit}: there the turf is lifted, the hollow filled with
    soil like the soil below, and the turf laid again.
    """
    return Message("survey.ground.lifted", (("area", area), ("share", share), ("limit", limit)))


def ground_hollow_lifted(*, hollow: Message, limit: Quantity) -> Message:
    """{hollow} is deeper than {limit}: lift the turf there, fill with soil like the soil below, and
    lay it again.
    """
    return Message("survey.ground.hollow_lifted", (("hollow", hollow), ("limit", limit)))


def limit_tilted(*, before: Number, after: Number) -> Message:
    """The plane is tilted from {before}% to {after}% so that water runs off it; its low edge stays
    where it is.
    """
    return Message("survey.limit.tilted", (("before", before), ("after", after)))


def limit_raised(*, depth: Quantity, fall: Number) -> Message:
    """Along the building the ground is raised by up to {depth} so that it falls {fall} away from
    the wall.
    """
    return Message("survey.limit.raised", (("depth", depth), ("fall", fall)))


def limit_above_paving(*, height: Quantity) -> Message:
    """Beside the paving the ground already stands up to {height} higher than it should: no fill
    there; soil has to come out, under lifted turf.
    """
    return Message("survey.limit.above_paving", (("height", height),))


def limit_below_paving(*, depth: Quantity) -> Message:
    """The lawn lies up to {depth} below the edge of the paving: too much for passes. Lift the turf
    along it and fill underneath.
    """
    return Message("survey.limit.below_paving", (("depth", depth),))


def limit_trunk(*, distance: Quantity) -> Message:
    """Nothing is spread within {distance} of a trunk; the flare of its roots stays open."""
    return Message("survey.limit.trunk", (("distance", distance),))


def limit_roots(*, depth: Quantity) -> Message:
    """Over tree roots no more than {depth} is spread in all."""
    return Message("survey.limit.roots", (("depth", depth),))


def drainage_wall_little(
    *, fall: Number, wanted: Number, distance: Quantity, lacking: Quantity
) -> Message:
    """Away from the building the finished lawn falls only {fall} where it falls least; {wanted}
    over the first {distance} keeps water off the wall. Leveling cannot give that: {lacking} is
    lacking.
    """
    return Message(
        "survey.drainage.wall_little",
        (("fall", fall), ("wanted", wanted), ("distance", distance), ("lacking", lacking)),
    )


def drainage_wall_none(*, wanted: Number, distance: Quantity, lacking: Quantity) -> Message:
    """Away from the building the finished lawn does not fall where it falls least; {wanted} over
    the first {distance} keeps water off the wall. Leveling cannot give that: {lacking} is lacking.
    """
    return Message(
        "survey.drainage.wall_none",
        (("wanted", wanted), ("distance", distance), ("lacking", lacking)),
    )


def drainage_wall_toward(
    *, fall: Number, wanted: Number, distance: Quantity, lacking: Quantity
) -> Message:
    """Away from the building the finished lawn falls {fall} toward the wall where it falls least;
    {wanted} over the first {distance} keeps water off the wall. Leveling cannot give that:
    {lacking} is lacking.
    """
    return Message(
        "survey.drainage.wall_toward",
        (("fall", fall), ("wanted", wanted), ("distance", distance), ("lacking", lacking)),
    )


def drainage_to_swale(*, fall: Number, wanted: Number, lacking: Quantity) -> Message:
    """The finished lawn falls {fall} toward the swale; {wanted} carries water off. Leveling cannot
    give that: {lacking} more would be needed at the high end.
    """
    return Message(
        "survey.drainage.to_swale", (("fall", fall), ("wanted", wanted), ("lacking", lacking))
    )


def drainage_to_low_side(*, fall: Number, wanted: Number, lacking: Quantity) -> Message:
    """The finished lawn falls {fall} to its low side; {wanted} carries water off. Leveling cannot
    give that: {lacking} more would be needed at the high end.
    """
    return Message(
        "survey.drainage.to_low_side", (("fall", fall), ("wanted", wanted), ("lacking", lacking))
    )


def drainage_other_work() -> Message:
    """Regrading by machine or a drain with an outlet would give it; that is other work, for someone
    licensed for it where local rules say so, and is not planned here.
    """
    return Message("survey.drainage.other_work")


def drainage_standing(*, depth: Quantity, area: Quantity, place: SurveySpot) -> Message:
    """Water will still stand up to {depth} deep on {area} around {place}: that hollow is wider than
    leveling follows, or has no way out. Fill it to a level you set yourself, or drain it.
    """
    return Message("survey.drainage.standing", (("depth", depth), ("area", area), ("place", place)))


def work_passes(*, n: int) -> Message:
    """{n} passes"""
    return Message("survey.work.passes", (("n", n),))


def work_lift() -> Message:
    """lift and fill"""
    return Message("survey.work.lift")


def name_rest() -> Message:
    """lawn"""
    return Message("survey.name.rest")


def name_spot(*, place: SurveySpot) -> Message:
    """{place}"""
    return Message("survey.name.spot", (("place", place),))


def name_point(*, number: int) -> Message:
    """point {number}"""
    return Message("survey.name.point", (("number", number),))


def name_line(*, line: int) -> Message:
    """line {line}"""
    return Message("survey.name.line", (("line", line),))


def name_grid_cell(*, line: int, across: str) -> Message:
    """line {line}, x {across}"""
    return Message("survey.name.grid_cell", (("line", line), ("across", across)))


def name_hollow(*, line: int) -> Message:
    """the hollow of line {line}"""
    return Message("survey.name.hollow", (("line", line),))


def name_cell(*, line: int, column: str) -> Message:
    """line {line}: {column}"""
    return Message("survey.name.cell", (("line", line), ("column", column)))


def name_what(*, point: Message) -> Message:
    """{point}: what"""
    return Message("survey.name.what", (("point", point),))


def name_column(*, name: str) -> Message:
    """column {name}"""
    return Message("survey.name.column", (("name", name),))


def name_empty_column() -> Message:
    """column (empty)"""
    return Message("survey.name.empty_column")


def name_columns() -> Message:
    """columns"""
    return Message("survey.name.columns")


def name_points() -> Message:
    """points"""
    return Message("survey.name.points")


def fault_few_points() -> Message:
    """a surface needs three points or more that are not in a line"""
    return Message("survey.fault.few_points")


def fault_few_points_hint() -> Message:
    """about one point every 2 m (6 ft), and one in each hollow and on each rise"""
    return Message("survey.fault.few_points_hint")


def fault_one_line() -> Message:
    """all points lie in one line, so they say nothing of the ground beside it"""
    return Message("survey.fault.one_line")


def fault_one_line_got(*, n: int) -> Message:
    """{n} points"""
    return Message("survey.fault.one_line_got", (("n", n),))


def fault_one_line_hint() -> Message:
    """measure points to both sides of the line as well"""
    return Message("survey.fault.one_line_hint")


def fault_not_finite() -> Message:
    """is not a number"""
    return Message("survey.fault.not_finite")


def fault_finite() -> Message:
    """finite numbers"""
    return Message("survey.fault.finite")


def fault_needs_height(*, feature: str) -> Message:
    """a point of {feature} needs a height"""
    return Message("survey.fault.needs_height", (("feature", feature),))


def fault_same_spot() -> Message:
    """stand on the same spot with different heights"""
    return Message("survey.fault.same_spot")


def fault_apart(*, mm: Number) -> Message:
    """{mm} mm apart"""
    return Message("survey.fault.apart", (("mm", mm),))


def fault_apart_allowed(*, mm: Number) -> Message:
    """up to {mm} mm, six times the error of a reading"""
    return Message("survey.fault.apart_allowed", (("mm", mm),))


def fault_same_spot_hint() -> Message:
    """measure that spot again and keep one reading"""
    return Message("survey.fault.same_spot_hint")


def fault_together(*, points: Listed) -> Message:
    """{points}"""
    return Message("survey.fault.together", (("points", points),))


def fault_no_triangles() -> Message:
    """no triangles can be drawn through them"""
    return Message("survey.fault.no_triangles")


def fault_no_triangles_hint() -> Message:
    """are they in one line?"""
    return Message("survey.fault.no_triangles_hint")


def fault_few_edge_points() -> Message:
    """an outline needs three edge points or more"""
    return Message("survey.fault.few_edge_points")


def fault_no_hollows() -> Message:
    """lists no hollows"""
    return Message("survey.fault.no_hollows")


def fault_hollow_size() -> Message:
    """needs a length, a width and a depth above 0"""
    return Message("survey.fault.hollow_size")


def fault_hollows_too_large() -> Message:
    """the hollows together are larger than the lawn"""
    return Message("survey.fault.hollows_too_large")


def fault_up_to(*, area: Number) -> Message:
    """up to {area} m2"""
    return Message("survey.fault.up_to", (("area", area),))


def fault_no_readings() -> Message:
    """holds no readings"""
    return Message("survey.fault.no_readings")


def fault_no_back() -> Message:
    """the first line needs a back reading"""
    return Message("survey.fault.no_back")


def fault_no_back_hint() -> Message:
    """begin on a point whose height is known or taken as 0"""
    return Message("survey.fault.no_back_hint")


def fault_no_fore() -> Message:
    """has no fore reading, so it has no height"""
    return Message("survey.fault.no_fore")


def fault_empty() -> Message:
    """holds no measurements"""
    return Message("survey.fault.empty")


def fault_table(*, columns: Message) -> Message:
    """a line of column names ({columns}), then a line for each point"""
    return Message("survey.fault.table", (("columns", columns),))


def fault_columns(*, heights: str, depths: str, readings: str, hollows: str) -> Message:
    """{heights}, or {depths}, or {readings}, or {hollows}"""
    return Message(
        "survey.fault.columns",
        (("heights", heights), ("depths", depths), ("readings", readings), ("hollows", hollows)),
    )


def fault_twice() -> Message:
    """is there twice"""
    return Message("survey.fault.twice")


def fault_no_unit() -> Message:
    """has no unit in its name"""
    return Message("survey.fault.no_unit")


def fault_other_unit(*, unit: str, dimension: Message) -> Message:
    """{unit} is a unit of {dimension}, not of length"""
    return Message("survey.fault.other_unit", (("unit", unit), ("dimension", dimension)))


def fault_unknown_unit(*, unit: str) -> Message:
    """unknown unit {unit}"""
    return Message("survey.fault.unknown_unit", (("unit", unit),))


def fault_unknown_column() -> Message:
    """unknown column"""
    return Message("survey.fault.unknown_column")


def fault_more_values() -> Message:
    """has more values than there are columns"""
    return Message("survey.fault.more_values")


def fault_no_number() -> Message:
    """is not a number"""
    return Message("survey.fault.no_number")


def fault_number() -> Message:
    """a number like 12.5 or 3 1/4"""
    return Message("survey.fault.number")


def fault_no_survey() -> Message:
    """do not make a survey"""
    return Message("survey.fault.no_survey")


def fault_no_survey_hint(
    *, x: str, y: str, height: str, depth: str, back: str, fore: str
) -> Message:
    """give {x} and {y}, and one of {height}, {depth}, or {back} and {fore}"""
    return Message(
        "survey.fault.no_survey_hint",
        (("x", x), ("y", y), ("height", height), ("depth", depth), ("back", back), ("fore", fore)),
    )


def fault_what() -> Message:
    """is not one of the allowed words"""
    return Message("survey.fault.what")


def fault_lacks(*, columns: Listed) -> Message:
    """has {columns}"""
    return Message("survey.fault.lacks", (("columns", columns),))


def fault_no_column(*, column: str) -> Message:
    """no {column}"""
    return Message("survey.fault.no_column", (("column", column),))
