"""Messages of `messages/en/ground.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Listed, Message, Number


def zone(*, number: int) -> Message:
    """zone {number}"""
    return Message("ground.zone", (("number", number),))


def name_whole_outline() -> Message:
    """outline"""
    return Message("ground.name.whole_outline")


def name_texture() -> Message:
    """texture"""
    return Message("ground.name.texture")


def name_mix() -> Message:
    """mix"""
    return Message("ground.name.mix")


def name_outline(*, number: int) -> Message:
    """outline {number}"""
    return Message("ground.name.outline", (("number", number),))


def name_hole(*, number: int) -> Message:
    """hole {number}"""
    return Message("ground.name.hole", (("number", number),))


def name_polygon(*, number: int) -> Message:
    """polygon {number}"""
    return Message("ground.name.polygon", (("number", number),))


def name_polygon_hole(*, polygon: Message, hole: int) -> Message:
    """{polygon}, hole {hole}"""
    return Message("ground.name.polygon_hole", (("polygon", polygon), ("hole", hole)))


def name_feature(*, number: int) -> Message:
    """feature {number}"""
    return Message("ground.name.feature", (("number", number),))


def name_within(*, place: Message, kind: str) -> Message:
    """{place}.{kind}"""
    return Message("ground.name.within", (("place", place), ("kind", kind)))


def name_ring(*, place: Message, number: int, ring: int) -> Message:
    """{place} {number}, ring {ring}"""
    return Message("ground.name.ring", (("place", place), ("number", number), ("ring", ring)))


def name_position(*, ring: Message, number: int) -> Message:
    """{ring}, position {number}"""
    return Message("ground.name.position", (("ring", ring), ("number", number)))


def name_line(*, number: int) -> Message:
    """line {number}"""
    return Message("ground.name.line", (("number", number),))


def fault_crosses() -> Message:
    """crosses itself"""
    return Message("ground.fault.crosses")


def fault_outline_crosses() -> Message:
    """the outline crosses itself"""
    return Message("ground.fault.outline_crosses")


def fault_sides(*, first: int, second: int) -> Message:
    """side {first} and side {second}"""
    return Message("ground.fault.sides", (("first", first), ("second", second)))


def fault_in_order() -> Message:
    """give the corners in order, all the way round"""
    return Message("ground.fault.in_order")


def fault_no_area() -> Message:
    """encloses no area"""
    return Message("ground.fault.no_area")


def fault_corners(*, n: int) -> Message:
    """{n} different corners"""
    return Message("ground.fault.corners", (("n", n),))


def fault_no_lawn() -> Message:
    """no lawn is left once the holes are taken out"""
    return Message("ground.fault.no_lawn")


def fault_triangle() -> Message:
    """these three sides do not meet in a triangle"""
    return Message("ground.fault.triangle")


def fault_triangle_sides() -> Message:
    """each side shorter than the other two together"""
    return Message("ground.fault.triangle_sides")


def fault_few_corners() -> Message:
    """has fewer than three different corners"""
    return Message("ground.fault.few_corners")


def fault_one_line() -> Message:
    """the corners lie in one line and enclose no area"""
    return Message("ground.fault.one_line")


def fault_overlaps() -> Message:
    """overlaps another shape, whose area would count twice"""
    return Message("ground.fault.overlaps")


def fault_overlaps_hint() -> Message:
    """draw one outline around both"""
    return Message("ground.fault.overlaps_hint")


def fault_hole_outside() -> Message:
    """the hole does not lie inside the lawn"""
    return Message("ground.fault.hole_outside")


def fault_hole_outside_hint() -> Message:
    """a hole is cut out of a shape around it"""
    return Message("ground.fault.hole_outside_hint")


def fault_holes_overlap() -> Message:
    """overlaps another hole, which would be taken out twice"""
    return Message("ground.fault.holes_overlap")


def fault_needs_package(*, package: str) -> Message:
    """a survey or a map needs the package {package}"""
    return Message("ground.fault.needs_package", (("package", package),))


def fault_no_soil() -> Message:
    """holds no soil"""
    return Message("ground.fault.no_soil")


def fault_no_class() -> Message:
    """is no class of the triangle"""
    return Message("ground.fault.no_class")


def fault_texture_sum() -> Message:
    """sand, silt and clay must add up to 1"""
    return Message("ground.fault.texture_sum")


def fault_texture(*, sand: Number, silt: Number, clay: Number) -> Message:
    """{sand} sand, {silt} silt, {clay} clay"""
    return Message("ground.fault.texture", (("sand", sand), ("silt", silt), ("clay", clay)))


def map_too_large() -> Message:
    """is too large for the map of a lawn"""
    return Message("ground.map.too_large")


def map_not_json(*, reason: Message) -> Message:
    """is not JSON: {reason}"""
    return Message("ground.map.not_json", (("reason", reason),))


def map_other_crs() -> Message:
    """coordinates must be longitude and latitude (WGS 84)"""
    return Message("ground.map.other_crs")


def map_other_crs_hint() -> Message:
    """export the map as GeoJSON in WGS 84"""
    return Message("ground.map.other_crs_hint")


def map_no_polygon() -> Message:
    """holds no polygon"""
    return Message("ground.map.no_polygon")


def map_polygons(*, types: Listed, features: str) -> Message:
    """{types}, alone or in {features}"""
    return Message("ground.map.polygons", (("types", types), ("features", features)))


def map_not_geojson() -> Message:
    """is not a GeoJSON object"""
    return Message("ground.map.not_geojson")


def map_unknown_type() -> Message:
    """is not a type of GeoJSON"""
    return Message("ground.map.unknown_type")


def map_not_list() -> Message:
    """is not a list"""
    return Message("ground.map.not_list")


def map_no_pair() -> Message:
    """is not a pair of numbers"""
    return Message("ground.map.no_pair")


def map_not_closed() -> Message:
    """is not closed"""
    return Message("ground.map.not_closed")


def map_closed() -> Message:
    """four positions or more, the last equal to the first (RFC 7946, 3.1.6)"""
    return Message("ground.map.closed")


def map_hole_outside() -> Message:
    """does not lie inside its polygon"""
    return Message("ground.map.hole_outside")


def map_swapped() -> Message:
    """latitude and longitude are swapped"""
    return Message("ground.map.swapped")


def map_looks_swapped() -> Message:
    """latitude and longitude look swapped: no lawn grows there"""
    return Message("ground.map.looks_swapped")


def map_not_on_earth() -> Message:
    """is not on the Earth"""
    return Message("ground.map.not_on_earth")


def map_ranges() -> Message:
    """longitude -180 to 180, then latitude -90 to 90"""
    return Message("ground.map.ranges")


def map_longitude_first() -> Message:
    """GeoJSON writes longitude first, then latitude"""
    return Message("ground.map.longitude_first")


def map_far() -> Message:
    """lies far from the place that was given"""
    return Message("ground.map.far")


def map_near(*, place: str) -> Message:
    """near {place}"""
    return Message("ground.map.near", (("place", place),))


def map_overlaps() -> Message:
    """overlaps another polygon, whose area would count twice"""
    return Message("ground.map.overlaps")
