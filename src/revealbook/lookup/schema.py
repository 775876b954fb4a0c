"""The tables of the index, the same in SQLite and PostgreSQL but for the search in texts."""

from hashlib import sha256

OPENING = (
    "id", "site", "mark", "mark_key", "serial", "serial_key", "building", "building_key", "floor",
    "floor_key", "room", "elevation", "outcome", "first", "last", "since", "until", "latest", "pack", "terms",
    "later",
)  # fmt: skip
"""Columns of an opening: its facts where they are shown, `..._key` as they are compared.

`since` and `until` are the versions in which its facts were these, `latest` is 1 if they are the last that
were filed of it. `terms` are the numbers of its terms as JSON: `held` leads from a term to openings, not
back. `later` are claims and repairs as JSON, or empty.
"""
COLUMNS = {
    "opening": OPENING,
    "term": ("id", "kind", "name", "key"),
    "term_key": ("key", "kind", "term"),
    "held": ("term", "opening"),
    "word": ("word", "begins"),
    "site": ("site", "name", "digest", "versions", "openings"),
    "meta": ("name", "value"),
}

_TEXT = ", ".join(f"{name} TEXT NOT NULL" for name in OPENING[1:15])
TABLES = (
    "CREATE TABLE meta (name TEXT PRIMARY KEY, value TEXT NOT NULL)",
    """CREATE TABLE site (
        site TEXT PRIMARY KEY, name TEXT NOT NULL, digest TEXT NOT NULL, versions INTEGER NOT NULL,
        openings INTEGER NOT NULL)""",
    f"""CREATE TABLE opening (
        id INTEGER PRIMARY KEY, {_TEXT}, since INTEGER NOT NULL, until INTEGER NOT NULL,
        latest INTEGER NOT NULL, pack TEXT NOT NULL, terms TEXT NOT NULL, later TEXT NOT NULL)""",
    """CREATE TABLE term (
        id INTEGER PRIMARY KEY, kind TEXT NOT NULL, name TEXT NOT NULL, key TEXT NOT NULL,
        UNIQUE (kind, key))""",
    """CREATE TABLE term_key (
        key TEXT NOT NULL, kind TEXT NOT NULL, term INTEGER NOT NULL, PRIMARY KEY (key, kind, term))""",
    "CREATE TABLE word (word TEXT PRIMARY KEY, begins TEXT NOT NULL)",
)
"""What every index has; `held` (openings by term) and `said` (texts) are each database's own."""
INDEXES = (
    "CREATE INDEX word_begins ON word (begins)",
    "CREATE INDEX opening_of_site ON opening (site, mark_key)",
    "CREATE INDEX opening_mark ON opening (mark_key)",
    "CREATE INDEX opening_serial ON opening (serial_key)",
    "CREATE INDEX opening_place ON opening (building_key, floor_key)",
)
"""Made after the rows when an index is built as a whole."""
_CONTENT = 1
"""Counted up whenever other terms or words are made of the same facts."""
FORMAT = sha256("".join((*TABLES, *INDEXES, str(_CONTENT))).encode()).hexdigest()[:16]
"""Another one for other tables or content: an index of another format is built anew."""
