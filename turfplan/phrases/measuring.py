"""Messages of `messages/en/measuring.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Listed, Message


def title() -> Message:
    """How to measure the lawn"""
    return Message("measuring.title")


def about() -> Message:
    """How to measure the ground of a lawn: straightedge, string line, rotating level, water
    level.
    """
    return Message("measuring.about")


def skip() -> Message:
    """Skip to the sheet"""
    return Message("measuring.skip")


def good_for(*, what: str, tools: str, error: str) -> Message:
    """For {what}. You need: {tools}. One reading is off by about {error}."""
    return Message("measuring.good_for", (("what", what), ("tools", tools), ("error", error)))


def columns(*, columns: str) -> Message:
    """For the file, write the readings into a table with the columns {columns} and save it as
    CSV.
    """
    return Message("measuring.columns", (("columns", columns),))


def readings() -> Message:
    """Readings"""
    return Message("measuring.readings")


def blank(*, features: Listed) -> Message:
    """begin and end on the same firm point; last column: {features}"""
    return Message("measuring.blank", (("features", features),))


def general_soil() -> Message:
    """Measure to the soil under the thatch, on mown grass."""
    return Message("measuring.general.soil")


def general_hollows() -> Message:
    """Put a point in the bottom of every hollow and on top of every rise besides the grid: a hollow
    no point falls into does not exist for the map.
    """
    return Message("measuring.general.hollows")


def general_lines() -> Message:
    """Before a stake goes in deeper than a finger, have buried lines marked: in the US call 811,
    elsewhere ask the local service. Sprinklers, lights and dog fence are yours to mark.
    """
    return Message("measuring.general.lines")


def general_codes() -> Message:
    """Local codes come first: ask before you change how water runs off toward a drain, a ditch, a
    tree or a neighbor.
    """
    return Message("measuring.general.codes")


def straightedge_name() -> Message:
    """Straightedge"""
    return Message("measuring.straightedge.name")


def straightedge_good_for() -> Message:
    """a few hollows on ground that is even between them"""
    return Message("measuring.straightedge.good_for")


def straightedge_tool_board() -> Message:
    """a straight board or pipe, as long as one person can carry (about {10 ft|3 m})"""
    return Message("measuring.straightedge.tool.board")


def straightedge_tool_ruler() -> Message:
    """a ruler or tape"""
    return Message("measuring.straightedge.tool.ruler")


def straightedge_tool_flags() -> Message:
    """flags"""
    return Message("measuring.straightedge.tool.flags")


def straightedge_step_flag() -> Message:
    """Walk the lawn after rain or with the sun low, and flag every hollow."""
    return Message("measuring.straightedge.step.flag")


def straightedge_step_lay() -> Message:
    """Lay the straightedge across the hollow, on sound ground at both ends; turn it until the gap
    under it is widest.
    """
    return Message("measuring.straightedge.step.lay")


def straightedge_step_read() -> Message:
    """Push the ruler through the grass to the soil, not to the thatch; read the deepest gap."""
    return Message("measuring.straightedge.step.read")


def straightedge_step_size() -> Message:
    """Pace or tape the hollow's length and width where the gap begins."""
    return Message("measuring.straightedge.step.size")


def straightedge_step_write(*, columns: Listed, mean: str) -> Message:
    """Write {columns}; if you measured several gaps, write their mean as {mean} instead."""
    return Message("measuring.straightedge.step.write", (("columns", columns), ("mean", mean)))


def string_line_name() -> Message:
    """String line"""
    return Message("measuring.string_line.name")


def string_line_good_for() -> Message:
    """a lawn up to about {30 ft|10 m} wide, or a strip along paving"""
    return Message("measuring.string_line.good_for")


def string_line_tool_stakes() -> Message:
    """stakes"""
    return Message("measuring.string_line.tool.stakes")


def string_line_tool_line() -> Message:
    """mason's line"""
    return Message("measuring.string_line.tool.line")


def string_line_tool_level() -> Message:
    """a line level or a tape"""
    return Message("measuring.string_line.tool.level")


def string_line_tool_rule() -> Message:
    """a tape or folding rule"""
    return Message("measuring.string_line.tool.rule")


def string_line_step_stretch() -> Message:
    """Drive a stake at each end of the strip and stretch the line tight; tie it where the finished
    lawn shall be, plus a round height to clear the grass.
    """
    return Message("measuring.string_line.step.stretch")


def string_line_step_fall() -> Message:
    """Keep the fall you want: lower one end by the fall times the length (2% of {20 ft|6 m} is
    about {5 in|12 cm}).
    """
    return Message("measuring.string_line.step.fall")


def string_line_step_measure() -> Message:
    """Every {3 to 6 ft|1 to 2 m}, and at the bottom of each hollow, measure from the line down to
    the soil with the tape upright.
    """
    return Message("measuring.string_line.step.measure")


def string_line_step_write() -> Message:
    """Take the round height off again and write the depth below the line; above it write a
    minus.
    """
    return Message("measuring.string_line.step.write")


def string_line_step_move() -> Message:
    """Move both stakes a step aside and repeat, until the lawn is covered. A line over {30 ft|10 m}
    sags: put a stake in the middle.
    """
    return Message("measuring.string_line.step.move")


def rotating_level_name() -> Message:
    """Rotating or builder's level"""
    return Message("measuring.rotating_level.name")


def rotating_level_good_for() -> Message:
    """a whole lawn, any size"""
    return Message("measuring.rotating_level.good_for")


def rotating_level_tool_level() -> Message:
    """a rotating laser or a builder's level on a tripod (hired)"""
    return Message("measuring.rotating_level.tool.level")


def rotating_level_tool_rod() -> Message:
    """a rod or a batten with a tape on it"""
    return Message("measuring.rotating_level.tool.rod")


def rotating_level_tool_tapes() -> Message:
    """two long tapes"""
    return Message("measuring.rotating_level.tool.tapes")


def rotating_level_tool_helper() -> Message:
    """a helper"""
    return Message("measuring.rotating_level.tool.helper")


def rotating_level_step_axes() -> Message:
    """Choose one corner as 0, 0 and lay a tape along a straight side: that is x. Measure y away
    from it. Note a spot due north of the corner.
    """
    return Message("measuring.rotating_level.step.axes")


def rotating_level_step_set_up() -> Message:
    """Set the level up off the lawn, on firm ground, where it sees everything; let it level itself.
    Laser: eyes off the beam, and away from windows.
    """
    return Message("measuring.rotating_level.step.set_up")


def rotating_level_step_back() -> Message:
    """First read the rod on something that never moves (a doorstep): that is the back reading, and
    this point is the bench mark.
    """
    return Message("measuring.rotating_level.step.back")


def rotating_level_step_fore() -> Message:
    """Walk the grid with the rod upright and its foot on the soil, and read it at every crossing,
    in every hollow, and on every rise. These are fore readings.
    """
    return Message("measuring.rotating_level.step.fore")


def rotating_level_step_turn() -> Message:
    """Out of sight? Read the rod on a stone (fore), move the level, read the same stone again
    (back), and go on.
    """
    return Message("measuring.rotating_level.step.turn")


def rotating_level_step_close() -> Message:
    """End on the bench mark you began with: what does not come back to nought is the misclosure,
    and it is reckoned for you.
    """
    return Message("measuring.rotating_level.step.close")


def rotating_level_step_what(*, features: Listed) -> Message:
    """Write what stands at the edge: {features}."""
    return Message("measuring.rotating_level.step.what", (("features", features),))


def water_level_name() -> Message:
    """Water level"""
    return Message("measuring.water_level.name")


def water_level_good_for() -> Message:
    """corners out of sight of each other, without an instrument"""
    return Message("measuring.water_level.good_for")


def water_level_tool_tube() -> Message:
    """clear tube, {3/8 in|10 mm} wide and longer than the lawn"""
    return Message("measuring.water_level.tool.tube")


def water_level_tool_water() -> Message:
    """water with a drop of color"""
    return Message("measuring.water_level.tool.water")


def water_level_tool_battens() -> Message:
    """two battens with tapes"""
    return Message("measuring.water_level.tool.battens")


def water_level_step_fill() -> Message:
    """Fill the tube from one end until no bubble is left; both ends open and side by side must
    stand level.
    """
    return Message("measuring.water_level.step.fill")


def water_level_step_read() -> Message:
    """One batten stays at the bench mark, the other walks the grid. Wait until the water rests, and
    read both at once.
    """
    return Message("measuring.water_level.step.read")


def water_level_step_height(*, column: str) -> Message:
    """The point's height above the bench mark is the reading there taken from the reading at the
    bench mark. Write it as {column}; below it write a minus.
    """
    return Message("measuring.water_level.step.height", (("column", column),))


def water_level_step_leave() -> Message:
    """Top up nothing between readings, and keep the tube out of the sun: warm water stands
    higher.
    """
    return Message("measuring.water_level.step.leave")


def how_close() -> Message:
    """How close the points"""
    return Message("measuring.how_close")


def every(*, spacing: str) -> Message:
    """Every {spacing}"""
    return Message("measuring.every", (("spacing", spacing),))


def points_on(*, points: str, area: str) -> Message:
    """{points} points on {area}"""
    return Message("measuring.points_on", (("points", points), ("area", area)))


def choice_look() -> Message:
    """shows where the hollows lie; buy nothing by it."""
    return Message("measuring.choice.look")


def choice_loads() -> Message:
    """tells one load from three; order again once the first has been spread."""
    return Message("measuring.choice.loads")


def choice_order() -> Message:
    """is enough to order by."""
    return Message("measuring.choice.order")


def choice_map() -> Message:
    """is enough to order by, and for a map of each pass."""
    return Message("measuring.choice.map")


def which_way() -> Message:
    """Which way"""
    return Message("measuring.which_way")


def before() -> Message:
    """Before you begin"""
    return Message("measuring.before")


def sketch() -> Message:
    """Sketch: draw the house, the edge and every hollow"""
    return Message("measuring.sketch")


def head_point() -> Message:
    """Point"""
    return Message("measuring.head.point")


def head_length() -> Message:
    """Length"""
    return Message("measuring.head.length")


def head_width() -> Message:
    """Width"""
    return Message("measuring.head.width")


def head_deepest() -> Message:
    """Deepest gap"""
    return Message("measuring.head.deepest")


def head_x() -> Message:
    """Along"""
    return Message("measuring.head.x")


def head_y() -> Message:
    """Across"""
    return Message("measuring.head.y")


def head_depth() -> Message:
    """Down to the soil"""
    return Message("measuring.head.depth")


def head_back() -> Message:
    """Looking back"""
    return Message("measuring.head.back")


def head_fore() -> Message:
    """Looking on"""
    return Message("measuring.head.fore")


def head_what() -> Message:
    """What"""
    return Message("measuring.head.what")


def head_height() -> Message:
    """Height"""
    return Message("measuring.head.height")
