"""The forms that the index has had, as the statements that lead from each to the next."""

# Numbered migrations: each is run once, in order, inside one transaction with its number; never
# edited, only added to.
MIGRATIONS: tuple[tuple[str, ...], ...] = (
    (
        "CREATE TABLE lawn (id INTEGER PRIMARY KEY, folder TEXT NOT NULL UNIQUE, brief TEXT, "
        "lawn_id TEXT NOT NULL, added TEXT NOT NULL)",
        "CREATE TABLE token (id INTEGER PRIMARY KEY, lawn INTEGER NOT NULL REFERENCES lawn(id), "
        "page INTEGER REFERENCES token(id), kind TEXT NOT NULL "
        "CHECK (kind IN ('feed', 'read', 'edit')), "
        "hash TEXT NOT NULL UNIQUE, label TEXT NOT NULL, created TEXT NOT NULL, revoked TEXT)",
        "CREATE TABLE published (lawn INTEGER PRIMARY KEY REFERENCES lawn(id), "
        "stamp TEXT NOT NULL, bytes BLOB NOT NULL, at TEXT NOT NULL)",
    ),
    ("CREATE INDEX token_by_lawn ON token (lawn)",),
    # When a token came back closed with a copy; another restore may open it, nothing a revoked one.
    ("ALTER TABLE token ADD COLUMN closed TEXT",),
    (
        # The last day of an address, and when something was last read by it.
        "ALTER TABLE token ADD COLUMN ends TEXT",
        "ALTER TABLE token ADD COLUMN read TEXT",
        # Browsers of the owner, and the one-time addresses (`once`) that make them such.
        "CREATE TABLE owner (id INTEGER PRIMARY KEY, once INTEGER NOT NULL, "
        "hash TEXT NOT NULL UNIQUE, label TEXT NOT NULL, created TEXT NOT NULL, "
        "ends TEXT NOT NULL, used TEXT, revoked TEXT)",
        # The answers of an owner who is being asked for a new lawn.
        "CREATE TABLE draft (owner INTEGER PRIMARY KEY REFERENCES owner(id), "
        "answers TEXT NOT NULL)",
    ),
    (
        # Which part of the calendar an address shows, and of which days.
        "ALTER TABLE token ADD COLUMN part TEXT NOT NULL DEFAULT 'all' "
        "CHECK (part IN ('all', 'work', 'water'))",
        "ALTER TABLE token ADD COLUMN first_day TEXT",
        "ALTER TABLE token ADD COLUMN last_day TEXT",
        # The bytes of each part, and of each stretch of days, that somebody reads.
        "CREATE TABLE shown (lawn INTEGER NOT NULL REFERENCES lawn(id), part TEXT NOT NULL, "
        "stamp TEXT NOT NULL, bytes BLOB NOT NULL, at TEXT NOT NULL, PRIMARY KEY (lawn, part))",
        "INSERT INTO shown SELECT lawn, 'all', stamp, bytes, at FROM published",
        "DROP TABLE published",
        "ALTER TABLE shown RENAME TO published",
    ),
    (
        # Addresses that open all lawns of a house, by its folder, and the bytes that they show.
        "CREATE TABLE house_token (id INTEGER PRIMARY KEY, house TEXT NOT NULL, "
        "page INTEGER REFERENCES house_token(id), kind TEXT NOT NULL "
        "CHECK (kind IN ('feed', 'read', 'edit')), hash TEXT NOT NULL UNIQUE, "
        "label TEXT NOT NULL, created TEXT NOT NULL, revoked TEXT, read TEXT, "
        "part TEXT NOT NULL DEFAULT 'all' CHECK (part IN ('all', 'work', 'water')))",
        "CREATE TABLE house_published (house TEXT NOT NULL, part TEXT NOT NULL, "
        "stamp TEXT NOT NULL, bytes BLOB NOT NULL, at TEXT NOT NULL, PRIMARY KEY (house, part))",
    ),
    (
        # An address of a house that came back with a copy is closed until it is opened, too.
        "ALTER TABLE house_token ADD COLUMN closed TEXT",
    ),
    (
        # What the owner has opened on the page, and opens again when the server starts.
        "CREATE TABLE opened (what TEXT PRIMARY KEY, since TEXT NOT NULL)",
    ),
)
