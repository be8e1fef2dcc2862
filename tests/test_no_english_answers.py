"""In the pseudo-language, no answer of a command and none of the server holds an English word.

`test_no_english_left` asks the same of sheets and calendars. What the command's own parser says of
options (exit code 2) is typer's, and is not asked.
"""

import gzip
import re
import shutil
from collections.abc import Callable, Collection
from datetime import date, datetime, timedelta
from functools import cache
from pathlib import Path
from typing import Any, get_args

import pytest

from command import run
from english_words import AS_THEY_ARE, english_in, own_words, shown_on_page
from machine import free_port
from planning import EXAMPLES, ROOT
from pseudo_language import LANGUAGE, MARKED, install
from test_docs import brief_keys
from turfplan.app import log_clients
from turfplan.cli import COMMANDS, clients, log
from turfplan.files.reading.book import load_book
from turfplan.files.reading.plan import read_plan
from turfplan.messages import catalog
from turfplan.records.journal import MeasuredQuantity

BRIEF = EXAMPLES / "cool-overseed.toml"
SURVEYED = EXAMPLES / "surveyed-metric.toml"
BRIEF_WITH_FAULTS = '[lawn]\narea = "-3 ft2"\ngrass = "oats"\ncolour = 1\n[place]\nlatitude = 97\n'
ROWS = (
    "id,lawn.area,lawn.grass,seeding.intent,place.postal_code\n"
    "ash,400 m2,tall_fescue,overseed,17601\nelm,qqq,tall_fescue,overseed,17601\n"
    "oak,400 m2,tall_fescue,overseed,17601\n,400 m2,tall_fescue,overseed,17601\n"
)
ONE_ROW = (
    "id,lawn.area,lawn.grass,seeding.intent,place.postal_code,season.from\n"
    "oak,400 m2,tall_fescue,overseed,17601,2027-03-01\n"
)
PRICES = 'name = "qqq"\n[prices]\ncurrency = "USD"\nperson_hour = 9\n[terms]\noffer_days = 9\n'
DAY = ("--today", "2027-02-01", "--processes", "1")
OFFER = ("clients", "quote", "offer", "{priced}", "oak")
TAKE = ("clients", "quote", "accept", "{priced}", "oak")
CHANGE = ("clients", "quote", "change", "{priced}", "oak", "--note", "qqq")
REST = ("clients", "pause", "{here}/c", *DAY[:2])
SELL = ("clients", "sell", "{here}/c", "oak", "--name", "qqq", *DAY[:2])
RULE = ("clients", "rule", "{here}/c", "--ban", "2027-07-01..2027-07-09")
CALL = ("clients", "callback", *DAY[:2])
LATE_PLAN = ("plan", str(EXAMPLES / "late-start.toml"), "-o", "{here}/late")
ENDED = ("--until", "2020-01-01")
TEXT = "not what is looked for\n" * 9
PAGE_DAY = "2027-03-29"
# What these tests type.
TYPED = {"qqq", "USD", "bare", "oats", "colour", "ftp", "parsecs", "turfplan", "TASK", "Dec", "Jan"}
ISSUE = ("tokens", "issue", "{out}", "--index", "{index}")
WINDOWS = ("windows", "--grass", "tall_fescue")
TO_JULY = ("-o", "{out}", "--to", "2027-07-03")
TO_AUTUMN = ("-o", "{out}", "--to", "2027-09-09")
LOGGED = ("-o", "{out}", "--on", "2027-02-03")
HALF = (*LOGGED, "--share", "0.5")
FAR = ("-o", "{out}", "--on", "2029-02-03")
IN_SEPTEMBER = ("-o", "{out}", "--on", "2027-09-05", "--amount")
TOMORROW = (*LOGGED, "--today", "2027-02-02")
JUNE = ("--from", "2027-06-01", "--to", "2027-06-02")
OF_HOUSE = "ash oak lawn house lawns season work water ics checklist order html"
# Of each command what it answers when all is well and when it is not, with the words in it that are
# keys, values that are allowed, or ids; places, named in braces, are of the fixture.
ANSWERS: dict[str, list[tuple[tuple[str, ...], int, str]]] = {
    "new": [
        (("new", "{brief}"), 3, ""),
        (("new", "{here}/n.toml", "--area", "3 parsecs"), 3, "lawn area"),
        (("new", "{here}/n.toml", "--area", "300 m2", "--grass", "oats"), 3, "lawn grass"),
    ],
    "plan": [
        (("plan", "{here}/none.toml", "-o", "{out}"), 3, ""),
        (("plan", "{here}/no-toml.toml", "-o", "{out}"), 3, ""),
        (("plan", "{here}/faults.toml", "-o", "{out}"), 3, "keys"),
        (("plan", "{brief}", "-o", "{here}/text"), 3, ""),
        (("plan", "{here}/other.toml", "-o", "{out}"), 3, "lawn"),
        ((*LATE_PLAN, "--today", "2027-02-01"), 4, "until from intent form sod plant dormant"),
        (("plan", "{brief}", "-o", "{out}", "--today", "2027-06-01"), 0, "tasks lawn logging"),
        (("plan", "{brief}", "-o", "{out}", "--weather", "{here}/none.csv"), 3, ""),
        (("plan", "{brief}", "-o", "{out}", "--weather", "{here}/text"), 3, "text"),
        (("plan", "{brief}", "-o", "{out}", "--weather-url", "http://127.0.0.1:{port}/"), 3, ""),
        (("plan", "{brief}", "-o", "{out}", "--weather-url", "ftp://qqq"), 3, ""),
        (("plan", "{brief}", "-o", "{out}", "--assume", "qqq"), 3, "not done"),
        (("plan", "{house}", "-o", "{out}"), 3, ""),
        (("plan", "{house}", "--today", "2027-02-01"), 0, OF_HOUSE),
        (("plan", "{house}", "--today", "2027-06-01"), 0, f"tasks logging {OF_HOUSE}"),
    ],
    "windows": [
        ((*WINDOWS, "--postal-code", "17601"), 0, "tasks data"),
        ((*WINDOWS, "--postal-code", "00000"), 3, "place"),
        (WINDOWS, 3, "place"),
        (("windows", "--grass", "oats", "--postal-code", "17601"), 3, "species"),
        ((*WINDOWS, "--latitude", "0", "--longitude", "-140"), 3, "place"),
        ((*WINDOWS, "--normals", "{here}/none.csv"), 3, ""),
        ((*WINDOWS, "--normals", "{here}/text"), 3, "text"),
        ((*WINDOWS, "--normals", "{here}/cut.gz"), 3, "cut"),
    ],
    "why": [
        (("why", "{brief}", "overseed", "-o", "{out}"), 0, "sources lawn"),
        (("why", "{brief}", "qqq", "-o", "{out}"), 3, "tasks"),
        (("why", "{brief}", "overseed", "-o", "{empty}"), 3, ""),
        (("why", "{here}/none.toml", "overseed"), 3, ""),
    ],
    "facts": [
        (("facts", "topdress.worked_depth"), 0, "sources topdress"),
        (("facts", "qqq"), 3, "NAME"),
        (("facts", "--region", "qqq"), 3, "region regions"),
    ],
    "print": [
        (("print", "{brief}", "book", "-o", "{empty}"), 3, ""),
        (("print", "{brief}", "book", "-o", "{out}", "--week", "this"), 3, "week book"),
        (("print", "{brief}", "week", "-o", "{out}", "--week", "99"), 3, "this"),
        (("print", "{brief}", "measure", "-o", "{here}/text"), 3, ""),
        (("print", "{house}", "week"), 3, "plan house lawns ash oak"),
        (("print", "{house}", "book"), 3, "SHEET book week order water"),
    ],
    "serve": [
        (("serve", "{here}/text", "--index", "{index}"), 3, ""),
        (("serve", "--index", "{here}/text"), 3, ""),
        (("serve", "--index", "{here}/text/index"), 3, ""),
        (("serve", "--host", "203.0.113.9", "--index", "{index}"), 3, ""),
        (("serve", "--host", "qqq.invalid", "--index", "{index}"), 3, ""),
    ],
    "publish": [
        (("publish", "{out}", "--to", "{here}/web"), 0, ""),
        (("publish", "{out}", "--to", "{here}/web", "--withdraw"), 0, ""),
        (("publish", "{out}", "--to", "{here}/web", "--withdraw"), 3, ""),
        (("publish", "{out}", "--to", "{out}"), 3, ""),
        (("publish", "{empty}", "--to", "{here}/web"), 3, ""),
        (("publish", "{out}", "--to", "{here}/text"), 3, ""),
        (("publish", "{out}", "--to", "{here}/web", "--part", "qqq"), 3, "part all work water"),
    ],
    "tokens": [
        (("tokens", "issue", "{out}", "--index", "{index}"), 0, "http webcal"),
        (("tokens", "list", "--index", "{index}"), 0, "feed"),
        ((*ISSUE, "--part", "qqq"), 3, "part all work water"),
        ((*ISSUE, "--from", "2027-06-02", "--to", "2027-06-01"), 3, ""),
        ((*ISSUE, "--part", "work", "--kind", "read"), 3, "kind feed read"),
        ((*ISSUE, "--from", "2027-06-02"), 3, ""),
        (("tokens", "issue", "{house}", *JUNE, "--index", "{index}"), 3, ""),
        (("tokens", "revoke", "1", "--index", "{index}"), 0, ""),
        (("tokens", "list", "--index", "{index}"), 0, "feed"),
        (("tokens", "owner", "--index", "{index}"), 0, "http"),
        (("tokens", "qqq", "--index", "{index}"), 3, "action issue list revoke open move owner"),
        (("tokens", "open", "1", "--index", "{index}"), 3, ""),
        (("tokens", "move", "{out}", "--index", "{index}"), 3, "lawn"),
        (("tokens", "move", "--index", "{index}"), 3, "DIR"),
        (("tokens", "move", "{twin}", "--index", "{index}"), 3, "lawn twin"),
        (("tokens", "issue", "--index", "{index}"), 3, "DIR feed read edit"),
        (("tokens", "issue", "{out}", "--kind", "qqq", "--index", "{index}"), 3, "feed read edit"),
        (("tokens", "issue", "{empty}", "--index", "{index}"), 3, ""),
        (("tokens", "revoke", "99", "--index", "{index}"), 3, ""),
        (("tokens", "list", "--index", "{here}/text"), 3, ""),
    ],
    "backup": [
        (("tokens", "issue", "{out}", "--index", "{index}"), 0, "http webcal"),
        (("backup", "{here}/copy", "--index", "{index}"), 0, "lawn"),
        (("backup", "{here}/copy3", "{empty}"), 3, ""),
        (("backup", "{here}/copy4", "{here}/none"), 3, ""),
        (("backup", "{here}/copy5", "{brief}"), 0, ""),
        (("backup", "{here}/text", "--index", "{index}"), 3, ""),
        (("backup", "{here}/text/copy", "--index", "{index}"), 3, ""),
        (("backup", "{here}/copy2", "--index", "{here}/none.index"), 3, ""),
    ],
    "restore": [
        (("tokens", "issue", "{out}", "--label", "qqq", "--index", "{index}"), 0, "http webcal"),
        (("backup", "{here}/copy", "--index", "{index}"), 0, ""),
        (("restore", "{here}/copy", "--to", "{here}/new"), 0, "lawn feed twin faults"),
        (
            ("restore", "{here}/copy", "--to", "{here}/new", "--with-addresses"),
            0,
            "lawn feed twin faults",
        ),
        (("restore", "{here}/copy", "--index", "{index}", "--to", "{here}/new2"), 3, "lawn"),
        (("restore", "{here}/copy", "--to", "{here}/text"), 3, ""),
        (("restore", "{here}/none", "--index", "{index}"), 3, ""),
        (("restore", "{here}/text", "--index", "{index}"), 3, ""),
    ],
    "clients plan": [
        (("clients", "plan", "{here}/none.csv", "-o", "{here}/c"), 3, ""),
        (("clients", "plan", "{here}/text", "-o", "{here}/c"), 3, "text"),
        (
            ("clients", "plan", "{here}/clients.csv", "-o", "{here}/c"),
            3,
            "lawn area rows clients list",
        ),
        (("clients", "plan", "{here}/clients.csv", "-o", "{here}/text"), 3, "lawn area rows"),
    ],
    "clients import": [
        (("clients", "import", "{here}/none.csv", "-o", "{here}/c"), 3, ""),
        (("clients", "import", "{here}/text", "-o", "{here}/c"), 3, "text"),
        (("clients", "import", "{here}/heads.csv", "-o", "{here}/c"), 3, "keys"),
        (
            ("clients", "import", "{here}/cells.csv", "-o", "{here}/c"),
            3,
            "keys name front area back oak soon",
        ),
        (
            ("clients", "import", "{here}/clients.csv", "-o", "{here}/c"),
            3,
            "lawn area rows only good",
        ),
        (
            ("clients", "import", "{here}/clients.csv", "-o", "{here}/c", "--only-good"),
            3,
            "lawn area rows",
        ),
        (("clients", "import", "{here}/one.csv", "-o", "{here}/c", "--dry-run"), 0, "rows"),
        (("clients", "import", "{here}/one.csv", "-o", "{here}/c", "--archive"), 0, "rows"),
        (
            ("clients", "import", "{here}/one.csv", "-o", "{here}/c", "--group", "qqq"),
            3,
            "COLUMN VALUE route north",
        ),
    ],
    "clients export": [
        (("clients", "export", "{empty}", "-o", "{here}/x.csv"), 3, "clients import FILE csv"),
        (("clients", "import", "{here}/one.csv", "-o", "{here}/c"), 0, "rows"),
        (("clients", "export", "{here}/c", "-o", "{here}/x.csv"), 0, "csv x"),
        (("clients", "export", "{here}/c", "-o", "{here}/x.csv", "--group", "x=y"), 3, ""),
    ],
    "clients list": [
        (("clients", "import", "{here}/one.csv", "-o", "{here}/c"), 0, "rows"),
        (("clients", "plan", "{here}/c", *DAY), 0, "data rows"),
        (("clients", "list", "{here}/c", "--on", "2027-08-31"), 0, "data rows"),
        (("clients", "list", "{here}/c", "--week", "2027-08-31"), 0, "data rows"),
        (("clients", "list", "{here}/c", "--on", "2027-01-31"), 0, "data rows"),
        (("clients", "list", "{here}/c", "--on", "qqq"), 3, "on this"),
    ],
    "clients print": [
        (("clients", "import", "{here}/one.csv", "-o", "{here}/c"), 0, "rows"),
        (("clients", "print", "week", "{here}/c", "--on", "2027-08-31"), 0, "week html c"),
        (("clients", "print", "day", "{empty}"), 3, "clients import FILE csv"),
    ],
    "clients record": [
        (("clients", "import", "{here}/one.csv", "-o", "{here}/c"), 0, "rows"),
        (("clients", "record", "{here}/c", "-o", "{here}/spread.csv"), 0, "spread csv"),
        (("clients", "record", "{here}/c", "-o", "{here}/spread.html"), 0, "spread html"),
        (("clients", "record", "{empty}", "-o", "{here}/x.csv"), 3, "clients import FILE csv"),
    ],
    "clients material": [
        (("clients", "import", "{here}/one.csv", "-o", "{here}/c"), 0, "rows"),
        (("clients", "plan", "{here}/c", *DAY), 0, "data rows"),
        (("clients", "material", "{here}/c", *DAY[:2], "--told"), 0, "data rows"),
        (("clients", "material", "{here}/c", "--week", "2027-01-31"), 0, ""),
        (("clients", "material", "{here}/c", "-o", "{here}/m.csv"), 0, "m csv"),
        (("clients", "material", "{here}/c", "-o", "{here}/m.qqq"), 3, "output csv html pdf m"),
        (("clients", "material", "{empty}"), 3, "clients import FILE csv"),
    ],
    "clients quote": [
        (("clients", "import", "{here}/one.csv", "-o", "{priced}"), 0, "rows"),
        (("clients", "plan", "{priced}", *DAY), 0, "data rows"),
        (("clients", "quote", "accept", "{priced}", "oak"), 3, "oak"),
        ((*OFFER, "--choice", "qqq: season.until=2028-06-01", *DAY[:2]), 0, "oak"),
        ((*OFFER, "--choice", "qqq"), 3, "choice KEY VALUE leveling depth in"),
        ((*OFFER, "--choice", "qqq.qqq=1"), 3, "choice keys"),
        (("clients", "list", "{priced}", "--quotes", *DAY[:2]), 0, "oak"),
        (("clients", "quote", "print", "{priced}", "oak"), 0, "oak html quote priced lawns"),
        (("clients", "quote", "accept", "{priced}", "oak", "--choice", "9"), 3, "yes"),
        (("clients", "quote", "change", "{priced}", "oak", "--note", "qqq"), 3, ""),
        ((*TAKE, "--yes", "--choice", "2", *DAY[:2]), 0, "clients plan priced"),
        (("clients", "quote", "decline", "{priced}", "oak"), 3, "accepted"),
        (("clients", "quote", "change", "{priced}", "oak", "--note", "qqq"), 0, ""),
        ((*CHANGE, "--price", "qqq"), 3, "price"),
        (("clients", "quote", "offer", "{empty}", "oak"), 3, "clients import FILE csv"),
        (("clients", "quote", "offer", "{priced}", "qqq"), 3, ""),
    ],
    "clients pause": [
        (("clients", "import", "{here}/one.csv", "-o", "{here}/c"), 0, "rows"),
        ((*REST, "oak", "--until", "2027-03-05"), 0, "oak clients pause undo c plan"),
        ((*REST, "oak", "--from", "2029-03-05", "--until", "2027-03-05"), 3, "until"),
        ((*REST, "oak", "--until", "2027-04-05"), 3, "oak yes"),
        ((*REST, "oak", "--over", "--dry-run"), 0, "oak"),
        (("clients", "pause", "{here}/c", "oak", "--over"), 0, "clients plan c"),
        ((*REST, "qqq", "--until", "2027-03-05"), 3, ""),
        ((*REST, "--until", "2027-03-05"), 3, "LAWN group COLUMN VALUE"),
        (("clients", "pause", "{here}/c", "--undo", "qqq"), 3, "undo"),
        (("clients", "pause", "{empty}", "oak", "--over"), 3, "clients import FILE csv"),
    ],
    "clients leave": [
        (("clients", "import", "{here}/one.csv", "-o", "{here}/c"), 0, "rows"),
        (("clients", "leave", "{here}/c", "oak", "--dry-run"), 0, "oak"),
        (("clients", "leave", "{here}/c", "oak"), 0, "oak copy clients leave undo c"),
        (("clients", "leave", "{here}/c", "oak", "--undo"), 0, "oak"),
        (("clients", "leave", "{here}/c", "qqq", "--undo"), 3, ""),
        (("clients", "leave", "{empty}", "oak"), 3, "clients import FILE csv"),
    ],
    "clients sell": [
        (("clients", "import", "{here}/one.csv", "-o", "{here}/c"), 0, "rows"),
        ((*SELL, "--set", "qqq"), 3, "set"),
        ((*SELL, "--set", "qqq=1", "--keep", "qqq"), 3, "set keep"),
        ((*SELL, "--dry-run"), 0, "oak"),
        (SELL, 0, "oak copy clients sell undo c"),
        (("clients", "sell", "{here}/c", "oak", "--undo"), 0, "oak"),
        (("clients", "sell", "{here}/c", "oak", "--undo"), 3, "oak"),
    ],
    "clients rule": [
        (("clients", "import", "{here}/one.csv", "-o", "{here}/c"), 0, "rows"),
        (("clients", "rule", "{here}/c"), 0, ""),
        (("clients", "rule", "{here}/c", "--ban", "qqq"), 3, "ban"),
        ((*RULE, "--place", "qqq=1"), 3, "place KEY VALUE postal_code town state region country"),
        ((*RULE, "--place", "postal_code=1"), 3, "place"),
        ((*RULE, "--permit", "no", "--dry-run"), 0, ""),
        (RULE, 0, "clients rule undo c plan"),
        (("clients", "rule", "{here}/c"), 0, ""),
        (("clients", "rule", "{here}/c", "--undo", "qqq"), 3, "undo"),
    ],
    "clients callback": [
        (("clients", "import", "{here}/one.csv", "-o", "{here}/c"), 0, "rows"),
        (("clients", "callback", "list", "{here}/c"), 0, ""),
        ((*CALL, "add", "{here}/c", "oak", "qqq", "--on", "2027-02-03"), 0, "oak"),
        ((*CALL, "add", "{here}/c", "oak", "qqq", "--on", "2027-01-03"), 3, "on yes"),
        ((*CALL, "move", "{here}/c", "oak", "1", "--on", "2027-02-05"), 0, "oak"),
        ((*CALL, "done", "{here}/c", "oak", "1", "--on", "2027-02-05"), 3, "on"),
        ((*CALL, "done", "{here}/c", "oak", "1", "--hours", "2"), 0, "oak"),
        ((*CALL, "drop", "{here}/c", "oak", "1"), 3, "oak"),
        ((*CALL, "reopen", "{here}/c", "oak", "1"), 0, "oak"),
        ((*CALL, "drop", "{here}/c", "oak", "1"), 0, "oak"),
        ((*CALL, "drop", "{here}/c", "oak", "7"), 3, "oak"),
        ((*CALL, "drop", "{here}/c", "qqq", "1"), 3, ""),
    ],
    "clients hours": [
        (("clients", "import", "{here}/one.csv", "-o", "{here}/c"), 0, "rows"),
        (("clients", "plan", "{here}/c", *DAY), 0, "data rows"),
        (("clients", "hours", "{here}/c"), 0, "clients log hours"),
        (("clients", "hours", "{empty}"), 3, "clients import FILE csv"),
    ],
    "clients visit": [
        (("clients", "import", "{here}/one.csv", "-o", "{here}/c"), 0, "rows"),
        (("clients", "visit", "{here}/c"), 0, "oak measure html lawns"),
        (("clients", "visit", "{empty}"), 3, "clients import FILE csv"),
    ],
    "clients letter": [
        (("clients", "import", "{here}/one.csv", "-o", "{priced}"), 0, "rows"),
        (("clients", "letter", "{priced}", "oak"), 3, "oak"),
        (("clients", "plan", "{priced}", *DAY), 0, "data rows"),
        (("clients", "letter", "{priced}"), 0, "oak html letter priced lawns web business toml"),
        (("clients", "letter", "{priced}", "oak", "--withdraw"), 0, "oak"),
        (("clients", "letter", "{priced}", "qqq"), 3, ""),
    ],
    "clients messages": [
        (("clients", "import", "{here}/one.csv", "-o", "{here}/c"), 0, "rows"),
        (("clients", "plan", "{here}/c", *DAY), 0, "data rows"),
        (("clients", "messages", "{here}/c", *DAY[:2], "--look"), 0, "data rows tasks"),
        (("clients", "messages", "{here}/c", *DAY[:2]), 0, "data rows tasks"),
        (("clients", "messages", "{here}/c", *DAY[:2]), 0, ""),
        (("clients", "messages", "{empty}"), 3, "clients import FILE csv"),
    ],
    "clients operators": [
        (("clients", "import", "{here}/one.csv", "-o", "{here}/c"), 0, "rows"),
        (("clients", "operators", "list", "{here}/c"), 0, ""),
        (("clients", "operators", "add", "{here}/c", "qqq"), 3, "PASSWORD"),
        (("clients", "operators", "withdraw", "{here}/c", "qqq"), 3, "NAME"),
        (("clients", "operators", "change", "{here}/c", "qqq", *ENDED), 3, "until"),
        (("clients", "operators", "change", "{here}/c", "qqq", "--crew", "qqq"), 3, "crew"),
    ],
    "clients log": [
        (("clients", "import", "{here}/one.csv", "-o", "{here}/c"), 0, "rows"),
        (("clients", "log", "{here}/c", "{here}/log.csv"), 3, "oak entries tasks keys log"),
        (("clients", "plan", "{here}/c", *DAY), 0, "data rows"),
        (
            ("clients", "log", "{here}/c", "{here}/log.csv"),
            3,
            "entries tasks keys log",
        ),
        (
            ("clients", "log", "{here}/c", "{here}/columns.csv"),
            3,
            "entries",
        ),
        (("clients", "log", "{here}/c", "--undo", "qqq"), 3, "undo"),
        (
            (
                "clients",
                "log",
                "{here}/c",
                "--on",
                "2027-03-01",
                "--all",
                "done",
                "--except",
                "qqq",
            ),
            3,
            "except",
        ),
        (
            ("clients", "log", "{here}/c", "--on", "2027-08-31", "--all", "done", "--yes"),
            0,
            "clients log undo plan oak tasks",
        ),
    ],
    "log done": [
        (("log", "done", "{brief}", "soil_test", *LOGGED), 0, "plan"),
        (
            ("log", "done", "{brief}", "topdress.1", *LOGGED, "--share", "0.5"),
            0,
            "plan topdress call",
        ),
        (("log", "done", "{brief}", "topdress.2", *LOGGED, "--amount", "3 parsecs"), 3, "--amount"),
        (("log", "done", "{brief}", "qqq", *LOGGED), 3, "tasks"),
        (("log", "done", "{brief}", "soil_test", *LOGGED), 3, "TASK lawn"),
        (("log", "done", "{brief}", "mow_low.1", *TOMORROW), 3, "lawn"),
        (("log", "done", "{brief}", "mow_low.1", *LOGGED, "--share", "20"), 3, "share"),
        (("log", "done", "{brief}", "mow_low.1", *LOGGED, "--amount", "3 yd3"), 3, "lawn amount"),
        (("log", "done", "{brief}", "overseed", *FAR), 3, "lawn"),
        (("log", "done", "{brief}", "topdress.3", *IN_SEPTEMBER, "900 yd3"), 3, "lawn amount"),
        (("log", "done", "{brief}", "topdress.3", *IN_SEPTEMBER, "7.13 m3"), 3, "lawn amount"),
        (("log", "done", "{here}/none.toml", "qqq", *LOGGED), 3, ""),
    ],
    "log skipped": [
        (("log", "skipped", "{brief}", "mow_low.1", *LOGGED), 0, "plan"),
        (("log", "skipped", "{brief}", "qqq", *LOGGED), 3, "tasks"),
    ],
    "log moved": [
        (
            ("log", "moved", "{brief}", "overseed", "-o", "{out}", "--to", "2027-09-12"),
            0,
            "plan lawn tasks",
        ),
        (("log", "moved", "{brief}", "qqq", *TO_AUTUMN), 3, "tasks"),
        (("log", "moved", "{brief}", "topdress.1", *TO_JULY), 3, "lawn"),
        (("log", "moved", "{brief}", "overseed", *TO_JULY, "--today", "2027-08-01"), 3, ""),
        (("log", "done", "{brief}", "soil_test", *LOGGED), 0, "plan lawn"),
        (("log", "moved", "{brief}", "soil_test", *TO_AUTUMN), 3, "TASK soil test"),
    ],
    "log booked": [
        (("log", "booked", "{brief}", "overseed", *TO_AUTUMN), 3, "lawn"),
        (
            ("log", "booked", "{brief}", "overseed", "-o", "{out}", "--to", "2027-09-12"),
            0,
            "plan lawn overseed",
        ),
        (("log", "booked", "{brief}", "topdress.1", *TO_JULY), 3, "lawn"),
        (("log", "booked", "{brief}", "qqq", *TO_AUTUMN), 3, "tasks"),
    ],
    "log list": [
        (("log", "list", "{brief}", "-o", "{out}"), 0, ""),
        (("log", "done", "{brief}", "soil_test", *LOGGED, "--by", "qqq"), 0, "plan lawn"),
        (("log", "list", "{brief}", "-o", "{out}"), 0, ""),
        (("log", "list", "{torn}", "-o", "{out}"), 0, "torn journal jsonl"),
        (("log", "list", "{here}/none.toml"), 3, ""),
    ],
    "log today": [
        (
            ("log", "today", "{brief}", "-o", "{out}", "--today", "2027-06-01"),
            0,
            "tasks lawn logging",
        ),
        (("log", "today", "{brief}", "-o", "{out}", "--today", "2027-02-02"), 0, ""),
        (("log", "today", "{brief}", "-o", "{empty}"), 3, ""),
        (("log", "today", "{house}"), 3, "plan house lawns ash oak"),
        (("log", "today", "{house}", "-o", "{out}"), 3, ""),
    ],
    "log rained-off": [
        (("log", "rained-off", "{brief}", *LOGGED), 0, "plan"),
        (("log", "rained-off", "{here}/none.toml", *LOGGED), 3, ""),
        (("log", "rained-off", "{brief}", *LOGGED), 3, ""),
        (("log", "rained-off", "{brief}", "soil_test", *LOGGED), 3, "TASK lawn"),
    ],
    "log measured": [
        (("log", "measured", "{brief}", "germination", "50 %", *LOGGED), 0, "plan"),
        (("log", "measured", "{brief}", "qqq", "50", *LOGGED), 3, "QUANTITY quantities"),
        (("log", "measured", "{brief}", "germination", "300 %", *LOGGED), 3, "VALUE"),
        (("log", "measured", "{brief}", "live_cause", "50 %", *LOGGED), 3, "VALUE"),
        (("log", "measured", "{brief}", "soil_temperature", "580 F", *LOGGED), 3, "VALUE"),
        (("log", "measured", "{brief}", "soil_temperature", "34 C", *LOGGED), 3, "VALUE"),
        (("log", "measured", "{brief}", "soil_temperature", "90 F", *LOGGED), 3, "VALUE"),
        (("log", "measured", "{brief}", "rain", "12 in", *LOGGED), 3, "VALUE"),
        (
            ("log", "measured", "{brief}", "rain", "12 mm", "-o", "{out}", "--on", "2019-07-10"),
            3,
            "",
        ),
        (
            ("log", "measured", "{brief}", "germination", "qqq", *LOGGED),
            3,
            "VALUE germination shares",
        ),
    ],
    "log delivered": [
        (
            ("log", "delivered", "{brief}", "delivery.1", *LOGGED, "--amount", "3 yd3"),
            0,
            "delivered",
        ),
        (("log", "delivered", "{brief}", "qqq", *LOGGED, "--amount", "3 yd3"), 3, "tasks"),
    ],
    "log refused": [
        (
            ("log", "refused", "{brief}", "delivery.1", *LOGGED, "--amount", "3 yd3"),
            0,
            "delivered call",
        ),
        (("log", "refused", "{brief}", "qqq", *LOGGED, "--amount", "3 yd3"), 3, "tasks"),
    ],
    "log not-done": [
        (("log", "not-done", "{brief}", "soil_test", "-o", "{out}"), 0, "plan"),
        (("log", "not-done", "{brief}", "soil_test", *LOGGED), 0, "plan"),
        (("log", "not-done", "{brief}", "soil_test", *FAR), 3, "lawn"),
        (("log", "not-done", "{brief}", "qqq", "-o", "{out}"), 3, "tasks"),
    ],
    "log note": [
        (("log", "note", "{brief}", "qqq", "-o", "{out}"), 0, "plan"),
        (("log", "note", "{brief}", "qqq", *LOGGED), 0, "plan"),
        (("log", "note", "{here}/none.toml", "qqq"), 3, ""),
    ],
    "log undo": [
        (("log", "note", "{brief}", "qqq", "-o", "{out}"), 0, "plan"),
        (("log", "undo", "{brief}", "1", "-o", "{out}"), 0, "plan"),
        (("log", "undo", "{brief}", "99", "-o", "{out}"), 3, ""),
        (("log", "undo", "{torn}", "1", "-o", "{out}"), 3, ""),
    ],
}


@pytest.fixture(autouse=True)
def speaking(tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch) -> None:
    """The user speaks the pseudo-language."""
    folder = tmp_path_factory.mktemp("catalogs")
    install(folder)
    monkeypatch.setenv(catalog.MORE, str(folder))
    monkeypatch.setenv("TURFPLAN_LANGUAGE", LANGUAGE)


@pytest.fixture(scope="module")
def planned(tmp_path_factory: pytest.TempPathFactory) -> Callable[[Path], Path]:
    """A folder with a brief, and its plan in `out`, each made when it is first asked for."""

    @cache
    def of(brief: Path) -> Path:
        home = tmp_path_factory.mktemp("planned")
        for file in (brief, *brief.parent.glob("*-survey.csv")):
            shutil.copy(file, home)
        done = run("plan", str(home / brief.name), "-o", str(home / "out"), "--today", "2027-02-01")
        assert done.returncode == 0, done.stderr
        return home

    return of


def places(home: Path) -> dict[str, str]:
    """What the words of a command may name, each written into the folder."""
    texts = {
        "no-toml.toml": "[lawn\n",
        "faults.toml": BRIEF_WITH_FAULTS,
        "text": TEXT,
        "clients.csv": ROWS,
        "one.csv": ONE_ROW,
        "heads.csv": "id,lawn.aera,x,x,\noak,400 m2,,,y\n",
        "cells.csv": "id,lawn.area,water.zones,calendar.away\noak,400 m2,front,soon\n",
        "log.csv": "lawn,task,day,kind,hours\nqqq,soil_test,2027-03-01,done,\n"
        "oak,qqq,2027-03-01,done,\n"
        "oak,soil_test,qqq,qqq,qqq\n",
        "columns.csv": "lawn,qqq\noak,1\n",
        "other.toml": BRIEF.read_text(encoding="utf-8").replace('id = "', 'id = "x', 1),
        "torn.toml": BRIEF.read_text(encoding="utf-8"),
        "torn.journal.jsonl": '{"sum":"a1',
    }
    for name, text in texts.items():
        (home / name).write_text(text, encoding="utf-8")
    (home / "cut.gz").write_bytes(gzip.compress(b"station,date\n" * 99)[:-9])
    (home / "empty").mkdir()
    for lawn in ("ash", "oak"):
        (home / "house" / "lawns" / lawn).mkdir(parents=True)
        brief = BRIEF.read_text(encoding="utf-8").replace('id = "maple-back-01"\n', "")
        (home / "house" / "lawns" / lawn / "brief.toml").write_text(brief, encoding="utf-8")
    (home / "priced").mkdir()
    (home / "priced" / "business.toml").write_text(PRICES, encoding="utf-8")
    shutil.copytree(home / "out", home / "twin")
    named = {
        "brief": BRIEF.name,
        "torn": "torn.toml",
        "out": "out",
        "empty": "empty",
        "priced": "priced",
        "twin": "twin",
        "house": "house",
    }
    return {
        **{name: str(home / file) for name, file in named.items()},
        "index": str(home / "lawns.index"),
        "here": str(home),
        "port": str(free_port()),
    }


def words_of_names(names: str, home: Path) -> set[str]:
    """Words that may stand in an answer: of each name what it stands for here, else itself."""
    plan, book = read_plan(home / "out"), load_book()
    assert plan is not None
    lists: dict[str, Collection[str]] = {
        "keys": brief_keys(),
        "tasks": [*(task.id for task in plan.tasks), *book.operations, "tons"],
        "lawn": [*own_words(plan), plan.lawn_id, "xmaple"],
        "species": list(book.species),
        "regions": [path.stem for path in (ROOT / "turfplan" / "data" / "regions").iterdir()],
        "data": own_words(plan),
        "sources": [f"{s.title} {s.institution}" for s in book.sources.values()],
        "quantities": get_args(MeasuredQuantity),
        "rows": ["ash", "elm", "oak"],
        "text": [TEXT, "text"],
        "shares": ["share", "ratio"],
        "entries": [*log_clients.COLUMNS, *log_clients.KINDS, "soil_test"],
        "delivered": ["plan", "delivery"],
        "logging": ["plan", "log", "done", "skipped"],
    }
    texts = [text for name in names.split() for text in (*lists.get(name, ()), name)]
    return {word for text in texts for word in re.findall(r"[A-Za-z]+", text)}


def test_every_command_is_asked() -> None:
    """None is left out, with its commands below it."""
    groups = {"log": log.app, "clients": clients.app}
    below = {
        f"{name} {command.name or command.callback.__name__}"  # type: ignore[union-attr]
        for name, group in groups.items()
        for command in group.registered_commands
    }
    assert set(ANSWERS) == (set(COMMANDS) - set(groups)) | below


@pytest.mark.full
@pytest.mark.parametrize("command", ANSWERS)
def test_no_answer_of_a_command_is_english(
    command: str, planned: Callable[[Path], Path], tmp_path: Path
) -> None:
    """What it says when all is well, and each way in which it refuses."""
    home = tmp_path / "home"
    shutil.copytree(planned(BRIEF), home)
    named = places(home)
    left: dict[str, set[str]] = {}
    for words, code, names in ANSWERS[command]:
        called = [word.format(**named) for word in words]
        done = run(*called)
        assert done.returncode == code, (words, done.stderr)
        said = done.stdout + done.stderr
        assert code == 0 or any(letter in MARKED for letter in said), words
        found = english_in(said.replace(str(home), ""), TYPED | words_of_names(names, home))
        if found:
            left[" ".join(words)] = found
    assert left == {}


@pytest.fixture
def served_lawn(planned: Callable[[Path], Path], tmp_path: Path) -> Path:
    """The surveyed lawn, planned again in its season after a pass was moved: work near and overdue,
    and changes.
    """
    home = tmp_path / "home"
    shutil.copytree(planned(SURVEYED), home)
    brief, out = home / SURVEYED.name, home / "out"
    plan = read_plan(out)
    assert plan is not None
    spread = next(task for task in plan.tasks if task.plays("spreading") and task.series is None)
    later = (spread.start + timedelta(days=14)).isoformat()
    for words in (
        ("log", "moved", str(brief), spread.id, "-o", str(out), "--to", later),
        ("plan", str(brief), "-o", str(out), "--today", PAGE_DAY),
    ):
        done = run(*words)
        assert done.returncode == 0, done.stderr
    return home


def test_no_answer_of_the_server_is_english(
    served_lawn: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Every page with work that is near and overdue, changes, a map and stakes, with each fault of
    its forms; the owner's pages; and what the server says where there is no page.
    """
    client = pytest.importorskip("starlette.testclient", reason="the extra web is not there")
    from turfplan.files import index
    from turfplan.serve import app, owners, pages, tokens, visit

    out, brief, store = (served_lawn / name for name in ("out", SURVEYED.name, "lawns.index"))
    plan = read_plan(out)
    assert plan is not None and plan.changes
    day = min(t.start for t in plan.tasks if t.series is None and str(t.start) > PAGE_DAY)
    noon = datetime.fromisoformat(f"{day}T12:00:00+00:00")
    with index.opened(store) as connection:
        lawn = index.add_lawn(connection, out, brief)
        other = shutil.copytree(out, served_lawn / "bare")
        text = (other / "plan.json").read_text(encoding="utf-8")
        (other / "plan.json").write_text(text.replace('"lawn_id": "', '"lawn_id": "x'), "utf-8")
        bare = index.add_lawn(connection, other)
        read, edit, gone = (
            tokens.issue(connection, lawn, kind) for kind in ("read", "edit", "read")
        )
        of_one = tokens.FeedView(days=(date.fromisoformat(PAGE_DAY),) * 2)
        of_day = tokens.issue(connection, lawn, "read", view=of_one)
        tokens.issue(connection, lawn, "feed")
        over = tokens.issue(connection, lawn, "read", ends=noon.date() - timedelta(days=9))
        none, feed_of_none = (tokens.issue(connection, bare, kind) for kind in ("read", "feed"))
        found = tokens.find(connection, gone)
        assert found is not None and tokens.revoke(connection, found.id, lawn)
        once = owners.invite(connection, noon)
    shutil.rmtree(served_lawn / "bare")

    def asking(**settings: Any) -> Any:
        given = {"clock": lambda: noon, "replan": lambda _: ("",)} | settings
        served = visit.ServerSettings(store, hosts=("testserver",), **given)
        return client.TestClient(
            app.create_app(served), raise_server_exceptions=False, follow_redirects=False
        )

    def late() -> Any:
        """The owner's browser days later, when calendars have fallen silent."""
        other = asking(clock=lambda: noon + timedelta(days=9))
        with index.opened(store) as connection:
            other.post(f"/own/{owners.invite(connection, noon)}")
        return other

    past = [t for t in plan.tasks if t.end < noon.date() and t.series is None and not t.closed]
    owner = asking()
    page, job = f"/lawn/{edit}", {"do": "done", "job": past[0].id}
    other = {"do": "other", "job": past[0].id, "how": "done", "on": PAGE_DAY}
    elsewhere, broken = {"origin": "https://qqq.example"}, {"content-type": "multipart/form-data"}

    def get(address: str) -> Any:
        return asking().get(address)

    def post(address: str, **given: Any) -> Any:
        return asking().post(address, **given)

    answers = [
        (200, get(page)),
        (200, get(f"/lawn/{read}")),
        (200, get(f"{page}/did")),
        (200, get(f"{page}/calendar")),
        (200, asking(base_url="http://192.168.0.9").get(f"{page}/calendar")),
        (200, asking(base_url="http://lawns.example").get(f"{page}/calendar")),
        (422, post(page, data={"do": "done", "job": "qqq"})),
        (422, post(page, data={"do": "qqq"})),
        (422, post(page, data={"do": "put_off", "job": past[0].id})),
        (422, post(page, data=other | {"on": "qqq"})),
        (422, post(page, data=other | {"on": "2019-02-03"})),
        (422, post(page, data=other | {"amount": "qqq"})),
        (422, post(page, data=other | {"how": "qqq"})),
        (422, post(page, data={"do": "undo", "number": "99"})),
        (422, post(page, data={"do": "revoke"})),
        (303, post(page, data=job)),
        (200, get(f"{page}?told=1&known=1&known=2")),
        (200, get(f"{page}/did?undone=1")),
        (403, post(page, data=job, headers=elsewhere)),
        (403, post(f"/lawn/{read}", data=job)),
        (411, post(page, content=iter([b"q"]))),
        (413, post(page, data={"on": "q" * 30_000})),
        (400, post(page, content=b"qqq", headers=broken)),
        (404, get("/lawn/qqq")),
        (404, get("/qqq")),
        (405, asking().put(page)),
        (404, get(f"/lawn/{none}")),
        (404, get(f"/feed/{feed_of_none}.ics")),
        (410, get(f"/lawn/{gone}")),
        (410, get(f"/lawn/{over}")),
        (410, get(f"/feed/{tokens.feed_of_page(gone)}.ics")),
        (400, asking().get("/", headers={"host": "qqq.example"})),
        (429, asking(per_minute=0).get("/")),
        (403, get("/")),
        (200, owner.get(f"/own/{once}")),
        (303, owner.post(f"/own/{once}", data={"label": ""})),
        (410, owner.get(f"/own/{once}")),
        (200, owner.get("/")),
        (200, owner.get("/mine/1/calendar")),
        (200, owner.get("/mine/1/season")),
        (200, owner.get("/mine/1/season?kept=1")),
        (422, owner.post("/mine/1/season", data={"do": "keep_if", "people": "9999"})),
        (422, owner.post("/mine/1/season", data={"do": "keep_if", "start": "qqq"})),
        (200, owner.get("/mine/1/made")),
        (200, owner.get("/mine/1/lawn?saved=1")),
        (422, owner.post("/mine/1/lawn", data={"do": "save_brief", "text": "qqq"})),
        (422, owner.post("/mine/1/lawn", data={"do": "delete_lawn"})),
        (200, owner.get("/new/brief")),
        (422, owner.post("/new/brief", data={"text": "[qqq"})),
        (200, get(f"/lawn/{of_day}")),
        (200, get(f"/lawn/{of_day}/print/day")),
        (200, late().get(page)),
        (404, owner.get("/mine/99")),
        (200, owner.get("/new/place")),
        (422, owner.post("/new/place", data={"answer": "qqq"})),
        (303, owner.post("/new/place", data={"answer": "17601"})),
        (200, owner.get("/new/area")),
        (422, owner.post("/new/area", data={"answer": "3 qqq"})),
        (422, owner.post("/new/area", data={"answer": ""})),
        (303, owner.post("/new/area", data={"answer": "390 m2"})),
        (303, owner.post("/new/grass", data={"unknown": "yes"})),
        (200, owner.get("/new/depth")),
        (
            303,
            owner.post(
                "/new/depth", data={"answer": "25 mm", "everywhere": "hollows", "share": "0.1"}
            ),
        ),
        (303, owner.post("/new/soil", data={"unknown": "yes"})),
        (200, owner.get("/new/water")),
        (422, owner.post("/new/water", data={"answer": "qqq"})),
        (303, owner.post("/new/water", data={"answer": "system", "heads": "rotor"})),
        (200, owner.get("/new/sprayed")),
        (422, owner.post("/new/sprayed", data={"answer": "leaves", "sprayed_on": "qqq"})),
        (303, owner.post("/new/sprayed", data={"answer": "leaves"})),
        (200, owner.get("/new/intent")),
        (303, owner.post("/new/intent", data={"answer": "overseed"})),
        (200, owner.get("/new/weekdays")),
        (200, owner.get("/new/check")),
        (303, owner.post("/new/weekdays", data={"answer": "sat"})),
        (303, owner.post("/new/name", data={"answer": "qqq"})),
        (422, owner.post("/new/check")),
        (422, owner.post("/mine/1/calendar", data={"do": "give", "ends": "qqq"})),
        (
            200,
            owner.post("/mine/1/calendar", data={"do": "give", "kind": "feed", "label": "qqq"}),
        ),
        (
            200,
            owner.post("/mine/1/calendar", data={"do": "give", "kind": "edit", "label": "qqq"}),
        ),
    ]
    journal = served_lawn / f"{brief.stem}.journal.jsonl"
    journal.write_text("qqq\nqqq\n", encoding="utf-8")
    answers += [(200, get(page)), (422, post(page, data=job))]
    (out / "plan.json").write_text("{", encoding="utf-8")
    answers.append((404, post(page, data=job)))
    monkeypatch.setattr(pages, "read_plan", lambda _: 1 / 0)
    answers.append((500, post(page, data=job)))
    assert [(code, answer.status_code) for code, answer in answers] == [
        (code, code) for code, _ in answers
    ]
    allowed = (
        own_words(plan)
        | AS_THEY_ARE
        | TYPED
        | {"http", "tokens", "owner", "Lancaster", "acre", "acres"}
    )
    told = [(code, answer) for code, answer in answers if code != 303]
    left = {
        (code, word)
        for code, answer in told
        # The text of a brief is its owner's, and is shown as it was written.
        for text in shown_on_page(re.sub("(?s)<textarea.*?</textarea>", "", answer.text))
        for word in english_in(text, allowed)
    }
    assert left == set()
    assert all(any(letter in MARKED for letter in answer.text) for _, answer in told)
    for part in ('class="map"', 'class="job"', "<table", 'class="wrong"', 'name="on"'):
        assert any(part in answer.text for _, answer in told), part
