"""Messages of `messages/en/screen.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Amounted, Day, Days, Listed, Message, Number


def note(*, note: str) -> Message:
    """note: {note}"""
    return Message("screen.note", (("note", note),))


def client_note(*, client: str, note: str) -> Message:
    """note: {client}: {note}"""
    return Message("screen.client_note", (("client", client), ("note", note)))


def stopped() -> Message:
    """stopped; nothing was changed"""
    return Message("screen.stopped")


def cannot() -> Message:
    """This cannot be done as asked:"""
    return Message("screen.cannot")


def point(*, line: str) -> Message:
    """- {line}"""
    return Message("screen.point", (("line", line),))


def rejected(*, campaign: str, reason: str) -> Message:
    """not {campaign}: {reason}"""
    return Message("screen.rejected", (("campaign", campaign), ("reason", reason)))


def ways_out() -> Message:
    """What can be done, each checked by planning it:"""
    return Message("screen.ways_out")


def way_out(*, number: int, title: str, change: str, reason: str) -> Message:
    """{number}. {title} ({change}). {reason}"""
    return Message(
        "screen.way_out",
        (("number", number), ("title", title), ("change", change), ("reason", reason)),
    )


def season(*, lawn: str, campaign: str) -> Message:
    """{lawn}: {campaign}"""
    return Message("screen.season", (("lawn", lawn), ("campaign", campaign)))


def place(*, place: str) -> Message:
    """Place: {place}."""
    return Message("screen.place", (("place", place),))


def below(*, line: str) -> Message:
    """{line}"""
    return Message("screen.below", (("line", line),))


def rests_on(*, source: str, n: int) -> Message:
    """Dates rest on {source}; they may be off by about {n} days."""
    return Message("screen.rests_on", (("source", source), ("n", n)))


def note_of_rank(*, rank: Message, note: Message) -> Message:
    """! {rank}: {note}"""
    return Message("screen.note_of_rank", (("rank", rank), ("note", note)))


def new_note(*, rank: Message, note: Message) -> Message:
    """! new, {rank}: {note}"""
    return Message("screen.new_note", (("rank", rank), ("note", note)))


def more_notes(*, n: int, command: str) -> Message:
    """{n} more notes, on single jobs, what may do damage, advice and what was assumed:
    `{command}`
    """
    return Message("screen.more_notes", (("n", n), ("command", command)))


def rank_stop() -> Message:
    """stop"""
    return Message("screen.rank.stop")


def rank_law() -> Message:
    """law and permission"""
    return Message("screen.rank.law")


def rank_safety() -> Message:
    """safety"""
    return Message("screen.rank.safety")


def rank_damage() -> Message:
    """damage"""
    return Message("screen.rank.damage")


def rank_advice() -> Message:
    """advice"""
    return Message("screen.rank.advice")


def rank_information() -> Message:
    """good to know"""
    return Message("screen.rank.information")


def real_years(*, worked: int, years: int) -> Message:
    """[would have worked in {worked} of {years} years]"""
    return Message("screen.real_years", (("worked", worked), ("years", years)))


def dry_in_generated(*, share: Message) -> Message:
    """[dry enough in {share} generated years]"""
    return Message("screen.dry_in_generated", (("share", share),))


def moist_in_generated(*, share: Message) -> Message:
    """[rain enough in {share} generated years]"""
    return Message("screen.moist_in_generated", (("share", share),))


def season_years(*, season: str) -> Message:
    """{season}"""
    return Message("screen.season_years", (("season", season),))


def job(*, days: Days, title: str, mark: str, years: str) -> Message:
    """{days}  {title}  {mark}{years}"""
    return Message(
        "screen.job", (("days", days), ("title", title), ("mark", mark), ("years", years))
    )


def closed(*, outcome: Message) -> Message:
    """({outcome})"""
    return Message("screen.closed", (("outcome", outcome),))


def outcome_done() -> Message:
    """done"""
    return Message("screen.outcome.done")


def outcome_skipped() -> Message:
    """skipped"""
    return Message("screen.outcome.skipped")


def outcome_dropped() -> Message:
    """dropped"""
    return Message("screen.outcome.dropped")


def is_overdue(*, task: str) -> Message:
    """{task} (overdue)"""
    return Message("screen.is_overdue", (("task", task),))


def waterings(*, n: int, first: Day, last: Day) -> Message:
    """and {n} watering series from {first} to {last}"""
    return Message("screen.waterings", (("n", n), ("first", first), ("last", last)))


def order(*, name: str, amount: str, order_by: Day, on_site_by: Day) -> Message:
    """Order: {name}, {amount}; by {order_by}, on site by {on_site_by}"""
    return Message(
        "screen.order",
        (("name", name), ("amount", amount), ("order_by", order_by), ("on_site_by", on_site_by)),
    )


def change(*, kind: Message, title: str, days: str, because: str) -> Message:
    """{kind}: {title}{days}. {because}"""
    return Message(
        "screen.change", (("kind", kind), ("title", title), ("days", days), ("because", because))
    )


def change_days(*, days: str) -> Message:
    """: {days}"""
    return Message("screen.change_days", (("days", days),))


def changed_waterings(*, n: int) -> Message:
    """Changed: {n} watering series, which follow the work and the weather (changes.html has them
    all).
    """
    return Message("screen.changed_waterings", (("n", n),))


def overdue(*, title: str) -> Message:
    """Overdue: {title}. If it was done, or is left out:"""
    return Message("screen.overdue", (("title", title),))


def command(*, command: str) -> Message:
    """{command}"""
    return Message("screen.command", (("command", command),))


def plan_again() -> Message:
    """To plan again what was not done:"""
    return Message("screen.plan_again")


def written(*, folder: str) -> Message:
    """Written to {folder}: season.ics, checklist.html, order.html, plan.json and tables"""
    return Message("screen.written", (("folder", folder),))


def why_title(*, title: str, days: Days) -> Message:
    """{title}: {days}"""
    return Message("screen.why.title", (("title", title), ("days", days)))


def why_at_all(*, why: str) -> Message:
    """Why at all: {why}"""
    return Message("screen.why.at_all", (("why", why),))


def why_open(*, days: Days, best: Day) -> Message:
    """Open from {days}; best {best}."""
    return Message("screen.why.open", (("days", days), ("best", best)))


def why_not_earlier() -> Message:
    """Why not earlier:"""
    return Message("screen.why.not_earlier")


def why_not_later() -> Message:
    """Why not later:"""
    return Message("screen.why.not_later")


def why_this_much() -> Message:
    """Why this much:"""
    return Message("screen.why.this_much")


def why_amount(*, item: Message, amount: Amounted, reason: str) -> Message:
    """- {item}: {amount}. {reason}"""
    return Message("screen.why.amount", (("item", item), ("amount", amount), ("reason", reason)))


def why_real_years(*, worked: int, years: int, reason: str) -> Message:
    """In real years it would have worked in {worked} of {years}. {reason}"""
    return Message(
        "screen.why.real_years", (("worked", worked), ("years", years), ("reason", reason))
    )


def why_generated_years(*, worked: int, years: int, reason: str) -> Message:
    """In generated weather it would have worked in {worked} of {years} years. {reason}"""
    return Message(
        "screen.why.generated_years", (("worked", worked), ("years", years), ("reason", reason))
    )


def why_facts() -> Message:
    """It rests on:"""
    return Message("screen.why.facts")


def why_rests_on(*, source: str, n: int) -> Message:
    """Dates rest on {source}; about {n} days either way."""
    return Message("screen.why.rests_on", (("source", source), ("n", n)))


def why_changed_since() -> Message:
    """The brief or the journal has changed since this plan was made: plan again."""
    return Message("screen.why.changed_since")


def log_entry(*, number: int, entry: Message) -> Message:
    """Entry {number}: {entry}"""
    return Message("screen.log.entry", (("number", number), ("entry", entry)))


def log_next(*, command: str) -> Message:
    """Next: {command}"""
    return Message("screen.log.next", (("command", command),))


def log_job(*, title: str, task: str) -> Message:
    """“{title}” ({task})"""
    return Message("screen.log.job", (("title", title), ("task", task)))


def log_done(*, task: str, on: str, part: str, used: str) -> Message:
    """{task} done on {on}{part}{used}."""
    return Message("screen.log.done", (("task", task), ("on", on), ("part", part), ("used", used)))


def log_part(*, share: Number) -> Message:
    """({share} of it)"""
    return Message("screen.log.part", (("share", share),))


def log_used(*, amount: str) -> Message:
    """, {amount}"""
    return Message("screen.log.used", (("amount", amount),))


def log_skipped(*, task: str) -> Message:
    """{task} skipped."""
    return Message("screen.log.skipped", (("task", task),))


def log_moved(*, task: str, to: str) -> Message:
    """{task} held on {to}."""
    return Message("screen.log.moved", (("task", task), ("to", to)))


def log_rained_off(*, task: str, on: str) -> Message:
    """{task} rained off on {on}."""
    return Message("screen.log.rained_off", (("task", task), ("on", on)))


def log_all_rained_off(*, on: str) -> Message:
    """everything that needs a dry day rained off on {on}."""
    return Message("screen.log.all_rained_off", (("on", on),))


def log_measured(*, quantity: Message, value: str, on: str) -> Message:
    """{quantity}: {value} on {on}."""
    return Message("screen.log.measured", (("quantity", quantity), ("value", value), ("on", on)))


def quantity_soil_temperature() -> Message:
    """soil temperature"""
    return Message("screen.quantity.soil_temperature")


def quantity_rain() -> Message:
    """rain"""
    return Message("screen.quantity.rain")


def quantity_grass_height() -> Message:
    """grass height"""
    return Message("screen.quantity.grass_height")


def quantity_depth_missing() -> Message:
    """depth missing"""
    return Message("screen.quantity.depth_missing")


def quantity_germination() -> Message:
    """germination"""
    return Message("screen.quantity.germination")


def quantity_live_cause() -> Message:
    """a live cause of thin grass (1 found, 0 none)"""
    return Message("screen.quantity.live_cause")


def quantity_cause_left() -> Message:
    """a cause of thin grass that is not put right (1 left, 0 none)"""
    return Message("screen.quantity.cause_left")


def quantity_seed_washed() -> Message:
    """seed washed away, as a share"""
    return Message("screen.quantity.seed_washed")


def quantity_animals() -> Message:
    """seed eaten or scratched out by animals, as a share"""
    return Message("screen.quantity.animals")


def quantity_tips_buried() -> Message:
    """leaf tips still buried (1 yes, 0 no more)"""
    return Message("screen.quantity.tips_buried")


def quantity_burned() -> Message:
    """grass burned by fertilizer (1 yes, 0 no more)"""
    return Message("screen.quantity.burned")


def quantity_heat_stress() -> Message:
    """grass that suffers from heat (1 yes, 0 no more)"""
    return Message("screen.quantity.heat_stress")


def quantity_sickness() -> Message:
    """sick grass (1 yes, 0 no more)"""
    return Message("screen.quantity.sickness")


def quantity_weed_killer() -> Message:
    """a weed killer on the ground for seed (1 yes, 0 no more)"""
    return Message("screen.quantity.weed_killer")


def quantity_green_up() -> Message:
    """grass green after winter (1 yes, 0 not yet)"""
    return Message("screen.quantity.green_up")


def quantity_heap_wet() -> Message:
    """a wet heap of mix (1 yes, 0 no more)"""
    return Message("screen.quantity.heap_wet")


def quantity_water_ban() -> Message:
    """days on which watering is banned"""
    return Message("screen.quantity.water_ban")


def quantity_grubs() -> Message:
    """grubs"""
    return Message("screen.quantity.grubs")


def log_delivered(*, task: str, on: str, used: str) -> Message:
    """{task} delivered on {on}{used}."""
    return Message("screen.log.delivered", (("task", task), ("on", on), ("used", used)))


def log_refused(*, task: str, on: str, used: str) -> Message:
    """{task} refused on {on}{used}."""
    return Message("screen.log.refused", (("task", task), ("on", on), ("used", used)))


def log_not_done(*, task: str) -> Message:
    """{task} was not done; it is planned again."""
    return Message("screen.log.not_done", (("task", task),))


def log_move_watered(*, days: Days) -> Message:
    """waterings of {days}"""
    return Message("screen.log.move.watered", (("days", days),))


def log_put_off(*, task: str, on: str) -> Message:
    """{task} was not done on {on}; it waits for another day."""
    return Message("screen.log.put_off", (("task", task), ("on", on)))


def log_note(*, note: str) -> Message:
    """noted: {note}"""
    return Message("screen.log.note", (("note", note),))


def log_note_of(*, note: str, on: str) -> Message:
    """noted of {on}: {note}"""
    return Message("screen.log.note_of", (("note", note), ("on", on)))


def log_undo(*, number: int, entry: Message) -> Message:
    """entry {number} no longer counts: {entry}"""
    return Message("screen.log.undo", (("number", number), ("entry", entry)))


def log_undone(*, number: int) -> Message:
    """the taking back of entry {number}."""
    return Message("screen.log.undone", (("number", number),))


def log_already(*, number: int, entry: Message) -> Message:
    """Already written, as entry {number}: {entry}"""
    return Message("screen.log.already", (("number", number), ("entry", entry)))


def log_booked(*, task: str, to: str) -> Message:
    """{task} booked for {to}."""
    return Message("screen.log.booked", (("task", task), ("to", to)))


def log_by(*, entry: Message, by: str) -> Message:
    """{entry} Written by {by}."""
    return Message("screen.log.by", (("entry", entry), ("by", by)))


def log_empty() -> Message:
    """No entry stands."""
    return Message("screen.log.empty")


def log_asked(*, question: str) -> Message:
    """This looks like a slip: {question}."""
    return Message("screen.log.asked", (("question", question),))


def log_moves(*, tasks: Listed) -> Message:
    """It moves {tasks}."""
    return Message("screen.log.moves", (("tasks", tasks),))


def log_drags(*, tasks: Listed) -> Message:
    """It drags along {tasks}."""
    return Message("screen.log.drags", (("tasks", tasks),))


def log_moves_nothing() -> Message:
    """It moves nothing else."""
    return Message("screen.log.moves_nothing")


def log_moves_none() -> Message:
    """It moves nothing in the plan."""
    return Message("screen.log.moves_none")


def log_move_moved(*, title: str, task: str, days: Days) -> Message:
    """“{title}” ({task}) to {days}"""
    return Message("screen.log.move.moved", (("title", title), ("task", task), ("days", days)))


def log_move_added(*, title: str, task: str, days: Days) -> Message:
    """“{title}” ({task}), which is new, on {days}"""
    return Message("screen.log.move.added", (("title", title), ("task", task), ("days", days)))


def log_move_dropped(*, title: str, task: str, days: Days) -> Message:
    """“{title}” ({task}), which falls, off {days}"""
    return Message("screen.log.move.dropped", (("title", title), ("task", task), ("days", days)))


def log_move_more(*, n: int) -> Message:
    """{n} more"""
    return Message("screen.log.move.more", (("n", n),))


def log_due(*, title: str, days: Days) -> Message:
    """Due: {title}, {days}."""
    return Message("screen.log.due", (("title", title), ("days", days)))


def log_nothing_due() -> Message:
    """Everything that was due has its entry."""
    return Message("screen.log.nothing_due")


def log_looks(*, n: int, titles: Listed) -> Message:
    """{n} looks were due: {titles}. Were all made as planned? d = all as planned, nothing = one by
    one
    """
    return Message("screen.log.looks", (("n", n), ("titles", titles)))


def log_was_done(*, title: str, days: Days) -> Message:
    """{title}, {days}: was it done? d = as planned, o = on another day, n = not done, nothing = ask
    again later
    """
    return Message("screen.log.was_done", (("title", title), ("days", days)))


def log_which_day(*, example: str) -> Message:
    """On which day (for example {example})?"""
    return Message("screen.log.which_day", (("example", example),))


def log_answers() -> Message:
    """One of d, o, n, or nothing."""
    return Message("screen.log.answers")


def log_no_day() -> Message:
    """That is no day."""
    return Message("screen.log.no_day")


def new_wrote(*, file: str) -> Message:
    """Wrote {file}. Next: turfplan plan {file}"""
    return Message("screen.new.wrote", (("file", file),))


def new_fault(*, fault: Message, hint: Message) -> Message:
    """{fault} ({hint})"""
    return Message("screen.new.fault", (("fault", fault), ("hint", hint)))


def new_unknown(*, assumed: str) -> Message:
    """?: {assumed}"""
    return Message("screen.new.unknown", (("assumed", assumed),))


def new_looks() -> Message:
    """look: tell it by how it looks"""
    return Message("screen.new.looks")


def new_soil_ways() -> Message:
    """feel: tell it by a handful; jar: by what settles in a jar"""
    return Message("screen.new.soil_ways")


def new_choice() -> Message:
    """The number of one, or nothing where you did not look"""
    return Message("screen.new.choice")


def new_choice_line(*, number: int, label: str) -> Message:
    """{number} {label}"""
    return Message("screen.new.choice_line", (("number", number), ("label", label)))


def new_taken(*, answer: str) -> Message:
    """Taken: {answer}"""
    return Message("screen.new.taken", (("answer", answer),))


def new_pace() -> Message:
    """nothing can be assumed here: paced off is good enough, for example 60 x 70 ft"""
    return Message("screen.new.pace")


def new_near() -> Message:
    """nothing can be assumed here: a town nearby is good enough"""
    return Message("screen.new.near")


def new_intent_line(*, key: str, label: str) -> Message:
    """{key}: {label}"""
    return Message("screen.new.intent_line", (("key", key), ("label", label)))


def new_name() -> Message:
    """What do you call this lawn?"""
    return Message("screen.new.name")


def new_area() -> Message:
    """How large is it (for example 4200 ft2 or 390 m2)?"""
    return Message("screen.new.area")


def new_grass() -> Message:
    """Which grass (for example tall fescue, common bermudagrass, or as it is called where you
    live)?
    """
    return Message("screen.new.grass")


def new_soil() -> Message:
    """What soil (sand, loam, clay loam, clay, …)?"""
    return Message("screen.new.soil")


def new_place() -> Message:
    """Town and country (for example Kiel, Germany), a postal code of the US, or latitude and
    longitude with a comma between?
    """
    return Message("screen.new.place")


def new_depth() -> Message:
    """How much is to be filled, on average (0 in for none)?"""
    return Message("screen.new.depth")


def new_everywhere() -> Message:
    """Is it that low everywhere (e), or only in hollows: which share of the lawn (for example
    0.1)?
    """
    return Message("screen.new.everywhere")


def new_intent(*, intents: str) -> Message:
    """Seed or plant? One of {intents}"""
    return Message("screen.new.intent", (("intents", intents),))


def new_condition() -> Message:
    """How does the grass stand (thick, thin, patchy, bare)?"""
    return Message("screen.new.condition")


def new_cause() -> Message:
    """Why is it uneven?"""
    return Message("screen.new.cause")


def new_water() -> Message:
    """How is it watered?"""
    return Message("screen.new.water")


def new_heads() -> Message:
    """Which heads do the sprinklers have?"""
    return Message("screen.new.heads")


def new_sprayed() -> Message:
    """Which weed killer was used in the last 12 months?"""
    return Message("screen.new.sprayed")


def new_sprayed_on() -> Message:
    """When was it used last (for example April, or a date)?"""
    return Message("screen.new.sprayed_on")


def new_killer() -> Message:
    """Its active ingredient, in small print on the label?"""
    return Message("screen.new.killer")


def new_people() -> Message:
    """How many people work?"""
    return Message("screen.new.people")


def new_one_of(*, choices: Listed) -> Message:
    """Answer with one of these: {choices}"""
    return Message("screen.new.one_of", (("choices", choices),))


def new_weekdays() -> Message:
    """On which days can you work?"""
    return Message("screen.new.weekdays")


def facts_count(*, n: int, judged: int) -> Message:
    """{n} facts, {judged} of them judgement"""
    return Message("screen.facts.count", (("n", n), ("judged", judged)))


def clients_client() -> Message:
    """client"""
    return Message("screen.clients.client")


def clients_state() -> Message:
    """state"""
    return Message("screen.clients.state")


def clients_campaign() -> Message:
    """campaign"""
    return Message("screen.clients.campaign")


def clients_first_work() -> Message:
    """first work"""
    return Message("screen.clients.first_work")


def clients_main_work() -> Message:
    """seed or last pass"""
    return Message("screen.clients.main_work")


def clients_order() -> Message:
    """order"""
    return Message("screen.clients.order")


def clients_is_planned() -> Message:
    """planned"""
    return Message("screen.clients.is_planned")


def clients_not_possible() -> Message:
    """not possible"""
    return Message("screen.clients.not_possible")


def clients_bad_row() -> Message:
    """bad row"""
    return Message("screen.clients.bad_row")


def clients_not_written() -> Message:
    """not written"""
    return Message("screen.clients.not_written")


def clients_fault(*, line: int, client: str, fault: str) -> Message:
    """error: line {line}, {client}: {fault}"""
    return Message("screen.clients.fault", (("line", line), ("client", client), ("fault", fault)))


def clients_no_id() -> Message:
    """no id"""
    return Message("screen.clients.no_id")


def clients_progress(*, done: int, rows: int) -> Message:
    """{done} of {rows}"""
    return Message("screen.clients.progress", (("done", done), ("rows", rows)))


def clients_planned(*, planned: int, rows: int, folder: str) -> Message:
    """{planned} of {rows} planned into {folder}"""
    return Message(
        "screen.clients.planned", (("planned", planned), ("rows", rows), ("folder", folder))
    )


def no_home_network() -> Message:
    """This computer is in no network: only it can open the address. Connect it, and start again."""
    return Message("screen.no_home_network")


def serve_on(*, address: str) -> Message:
    """Serving on {address}; addresses come from `turfplan tokens issue`"""
    return Message("screen.serve.on", (("address", address),))


def backup_made(*, lawns: int, files: int, addresses: int) -> Message:
    """Lawns: {lawns}; files: {files}; addresses: {addresses}. Keep it private."""
    return Message(
        "screen.backup.made", (("lawns", lawns), ("files", files), ("addresses", addresses))
    )


def restore_lawn(*, folder: str, lawn_id: str, entries: int, revision: int) -> Message:
    """{folder}: {lawn_id}, revision {revision} of its plan, entries in its journal: {entries}"""
    return Message(
        "screen.restore.lawn",
        (("folder", folder), ("lawn_id", lawn_id), ("entries", entries), ("revision", revision)),
    )


def restore_files(*, n: int) -> Message:
    """{n} files written."""
    return Message("screen.restore.files", (("n", n),))


def restore_addresses(*, opened: int, withdrawn: int, index: str) -> Message:
    """Addresses in {index}: {opened} open, {withdrawn} withdrawn as before."""
    return Message(
        "screen.restore.addresses", (("opened", opened), ("withdrawn", withdrawn), ("index", index))
    )


def restore_closed(*, number: str, kind: str, label: str, created: str) -> Message:
    """closed: {number}, {kind} for {label}, made {created}"""
    return Message(
        "screen.restore.closed",
        (("number", number), ("kind", kind), ("label", label), ("created", created)),
    )


def restore_open_them(*, command: str) -> Message:
    """This index cannot tell whether the closed ones were withdrawn meanwhile; `{command}` opens
    one, `restore --with-addresses` all.
    """
    return Message("screen.restore.open_them", (("command", command),))


def tokens_none() -> Message:
    """No tokens yet: `turfplan tokens issue DIR` makes one."""
    return Message("screen.tokens.none")


def tokens_revoked(*, on: str) -> Message:
    """revoked {on}"""
    return Message("screen.tokens.revoked", (("on", on),))


def tokens_closed(*, on: str) -> Message:
    """closed by restore {on}"""
    return Message("screen.tokens.closed", (("on", on),))


def tokens_in_use() -> Message:
    """in use"""
    return Message("screen.tokens.in_use")


def tokens_gone(*, number: str) -> Message:
    """Token {number} is revoked: its address now answers that it is gone."""
    return Message("screen.tokens.gone", (("number", number),))


def tokens_until(*, on: str) -> Message:
    """until {on}"""
    return Message("screen.tokens.until", (("on", on),))


def owner_once() -> Message:
    """Open this address once, in the browser that shall be yours (it works for a day):"""
    return Message("screen.owner.once")


def tokens_opened(*, number: str) -> Message:
    """Token {number} is open again."""
    return Message("screen.tokens.opened", (("number", number),))


def tokens_moved(*, old: str, new: str) -> Message:
    """The addresses of the lawn that was in {old} now open {new}."""
    return Message("screen.tokens.moved", (("old", old), ("new", new)))


def tokens_once() -> Message:
    """It is shown this once. Calendars look at it once or twice a day at best."""
    return Message("screen.tokens.once")


def publish_private() -> Message:
    """Who has the address can read the calendar. The host must send .ics as text/calendar."""
    return Message("screen.publish.private")


def publish_page(*, page: str) -> Message:
    """A page of the season for people: {page}"""
    return Message("screen.publish.page", (("page", page),))


def publish_next(*, folder: str, name: str) -> Message:
    """Next: copy {folder} to the host, then subscribe to its address with /{name} at the end. After
    each new plan publish again and copy again.
    """
    return Message("screen.publish.next", (("folder", folder), ("name", name)))


def publish_withdrawn() -> Message:
    """Withdrawn here: the calendar at this name has ended and cancels what is to come. Nobody has
    heard of it yet.
    """
    return Message("screen.publish.withdrawn")


def publish_sync_first(*, folder: str) -> Message:
    """Next: copy {folder} to the host first; only then do calendars hear that it has ended. Leave
    the file there for some weeks, until all have looked. Publishing again draws a new name.
    """
    return Message("screen.publish.sync_first", (("folder", folder),))
