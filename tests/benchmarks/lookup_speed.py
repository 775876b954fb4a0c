"""How fast openings are found and traced in an index of a million, against the bare statement beside it.

    python tests/benchmarks/lookup_speed.py [--openings 1000000] [--index FILE_OR_ADDRESS] [--asked 500]

Taken on two cores while other work loaded one of them, a million openings: SQLite built in 395 s (2,533 a
second, 1,418 MB), PostgreSQL 15 in 546 s (1,831 a second, 2,917 MB). p99 by mark, batch and text: 0.12,
0.75 and 12.3 ms in SQLite (1.50, 1.52 and 1.80 times the bare statement), 0.20, 2.84 and 8.58 ms in
PostgreSQL (1.18, 1.84 and 1.37 times). Longest trace of a batch 4 and 5 ms, of an opening 81 and 446 ms.

The openings are generated: sites of 200 openings, batches that about 100 openings share, fitters with their
days, rules not met, notes of common words. They go straight to the index as filed openings do.
"""

# ruff: noqa: S608 - statements are put together from this module's own texts and place holders alone

import argparse
import random
import statistics
import sys
import time
from collections.abc import Callable, Iterator, Sequence
from datetime import UTC, date, datetime, timedelta
from functools import partial
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from revealbook.lookup.database import Database
from revealbook.lookup.filed import Entry, FiledOpenings
from revealbook.lookup.find import MOST, find
from revealbook.lookup.index import fill, open_database
from revealbook.lookup.keys import key, words
from revealbook.lookup.question import Question
from revealbook.lookup.trace import trace_batch, trace_opening
from revealbook.present.facts_record import (
    DatedEvent,
    OpeningFacts,
    PersonDid,
    RuleOutcome,
    UsedFixing,
    UsedProduct,
)
from revealbook.rules.finding import Outcome

ON_A_SITE, OF_A_BATCH = 200, 100
ROOMS = ("bedroom", "living room", "kitchen", "bathroom", "office", "hall", "children's room", "stairs")
WEATHER = ("air-in-range", "surface-in-range", "humidity-in-range", "surface-above-dew-point")
RULES = tuple(f"rule-{one}-{two}" for one in ("frame", "seal", "window", "support") for two in range(20))
SAID = (
    "bead", "continuous", "along", "bottom", "packer", "beside", "bracket", "screwed", "level", "checked",
    "scaffold", "board", "removed", "rain", "stopped", "foam", "trimmed", "tape", "lapped", "corner", "gas",
    "pipe", "moved", "lintel", "chipped", "plaster", "loose", "brushed", "dust", "primer", "dried", "surface",
    "damp", "masonry", "raked", "insulation", "drip", "edge", "gap", "closed", "torque", "noted",
)  # fmt: skip
FIRST = date(2026, 3, 2)


def openings(number: int, random_: random.Random) -> Iterator[FiledOpenings]:
    """Generate sites."""
    for site in range(max(1, number // ON_A_SITE)):
        name = _site(site)
        begins = FIRST + timedelta(days=random_.randrange(3000))
        people = _people(name)
        entries = tuple(
            Entry(_facts(name, begins, people, at, random_), 1, 1, latest=True, pack=f"{name}.pdf")
            for at in range(ON_A_SITE)
        )
        yield FiledOpenings(name, f"Invented Yard {site}", f"{site:0128x}", 1, entries)


def _site(number: int) -> str:
    return f"site-{number:05}"


def _people(site: str) -> list[str]:
    """Give the five people of a site, each of whom works on six sites or so."""
    chosen = random.Random(site)
    return [f"Person{chosen.randrange(4000)} Example" for _ in range(5)]


def _mark(at: int) -> str:
    return f"{'ABCD'[at // 50]}-{at // 20 % 6}.{at % 20 + 1:02}"


def _facts(site: str, begins: date, people: Sequence[str], at: int, random_: random.Random) -> OpeningFacts:
    day, fitter, batch = (
        begins + timedelta(days=at // 4),
        people[at % 3],
        int(site[5:]) * 2 + at // OF_A_BATCH,
    )
    used = {"adhesive": "Bond", "foam": "Foam", "inner tape": "Inner Tape", "outer tape": "Outer Tape"}
    return OpeningFacts.model_construct(
        site=site, site_name=f"Invented Yard {int(site[5:])}", mark=_mark(at), serial=f"{site[5:]}-{at:03}",
        building="ABCD"[at // 50], floor=str(at // 20 % 6), elevation="south", room=ROOMS[at % len(ROOMS)],
        outcome=Outcome.CONFORMS, first=day, last=day + timedelta(days=9),
        products=tuple(
            UsedProduct.model_construct(use=use, name=f"Example {name}", batch=f"{name[0]}{batch:05}")
            for use, name in used.items()
        ),
        fixings=(UsedFixing.model_construct(what="frame", id="fix", name="Example Wall Screw", number=12),),
        fixed_by="screws through the frame",
        people=tuple(PersonDid.model_construct(id=name, name=name, did=("bonding",)) for name in set(people)),
        events=tuple(
            DatedEvent.model_construct(step=step, at=_noon(day, later), by=fitter)
            for step, later in (("bonding", 0), ("window set", 3), ("foam", 4), ("outer tape", 7))
        ),
        rules=tuple(_rules(random_)), conforms=(), does_not_apply=(), counts={}, concessions=(),
        nonconformities=(), texts=tuple(" ".join(random_.choices(SAID, k=10)) for _ in range(4)),
    )  # fmt: skip


def _noon(day: date, later: int) -> datetime:
    return datetime(day.year, day.month, day.day, 12, tzinfo=UTC) + timedelta(days=later)


def _rules(random_: random.Random) -> Iterator[RuleOutcome]:
    for share, outcome, weather in (
        (0.05, Outcome.DOES_NOT_CONFORM, True),
        (0.3, Outcome.DOES_NOT_CONFORM, False),
        (0.6, Outcome.NOT_SHOWN, False),
    ):
        if random_.random() < share:
            rule = random_.choice(WEATHER if weather else RULES)
            yield RuleOutcome.model_construct(rule=rule, outcome=outcome, grade="major", weather=weather)


class Stopwatch:
    """Counts how long the generator itself took, which is no part of building an index."""

    def __init__(self, made: Iterator[FiledOpenings], number: int) -> None:
        self._made, self._number = made, number
        self.took = 0.0

    def __iter__(self) -> Iterator[FiledOpenings]:
        began = time.perf_counter()
        for sites, one in enumerate(self._made, 1):
            self.took += time.perf_counter() - began
            yield one
            if sites % 250 == 0:
                print(f"\r{sites * ON_A_SITE} of {self._number}", end="", file=sys.stderr)
            began = time.perf_counter()


_ORDER = "AND o.latest = 1 ORDER BY o.site, o.mark LIMIT 50"
BY_MARK = f"SELECT * FROM opening o WHERE o.site = ? AND o.mark_key = ? {_ORDER}"
BY_BATCH = (
    "SELECT * FROM opening o WHERE o.id IN (SELECT h.opening FROM held h JOIN term_key k ON k.term = h.term"
    f" WHERE k.key = ? AND k.kind = 'adhesive batch') {_ORDER}"
)


def questions(database: Database, number: int, asked: int, random_: random.Random) -> None:
    """Ask by mark, batch and text, and the bare statement for the same beside it."""
    sites, batches_made = max(1, number // ON_A_SITE), max(2, number // OF_A_BATCH)
    marks = [(_site(random_.randrange(sites)), _mark(random_.randrange(ON_A_SITE))) for _ in range(asked)]
    compare(
        "site and mark",
        [partial(find, database, Question(site=site, mark=mark)) for site, mark in marks],
        [partial(database.rows, BY_MARK, (site, key(mark))) for site, mark in marks],
    )
    batches = [f"B{random_.randrange(batches_made):05}" for _ in range(asked)]
    compare(
        "batch",
        [partial(find, database, Question(batch=batch)) for batch in batches],
        [partial(database.rows, BY_BATCH, (key(batch),)) for batch in batches],
    )
    people = [_people(_site(random_.randrange(sites)))[0] for _ in range(asked)]
    texts = [f"{random_.choice(ROOMS)} {who} {random_.choice(SAID)}" for who in people]
    compare(
        "text of three words",
        [partial(find, database, Question(words=text)) for text in texts],
        [partial(bare_text, database, text) for text in texts],
    )


def bare_text(database: Database, text: str) -> list[Any]:
    """Ask for words as one would by hand."""
    statement, match = database.said([[[[word]]] for word in words(text)])
    return database.rows(f"SELECT * FROM opening o WHERE o.id IN ({statement}) {_ORDER}", (match,))


def compare(what: str, ours: Sequence[Callable[[], Any]], bare: Sequence[Callable[[], Any]]) -> None:
    """Time both in turn, so that neither finds a warmer machine; print percentiles and the ratio."""
    for one, other in zip(ours[:50], bare[:50], strict=True):  # warm
        one(), other()
    times: tuple[list[float], list[float]] = ([], [])
    found = []
    for one, other in zip(ours, bare, strict=True):
        for call, kept in ((other, times[1]), (one, times[0])):
            began = time.perf_counter()
            given = call()
            kept.append((time.perf_counter() - began) * 1000)
        found.append(given.number)
    mine, plain = (statistics.quantiles(kept, n=100) for kept in times)
    print(
        f"{what:20} p50 {mine[49]:7.2f} ms  p99 {mine[98]:7.2f} ms"
        f"   bare p50 {plain[49]:7.2f}  p99 {plain[98]:7.2f}"
        f"   ratio p50 {mine[49] / plain[49]:.2f}  p99 {mine[98] / plain[98]:.2f}"
        f"   openings found: median {statistics.median(found):.0f}, most {max(found)}"
    )


def traces(database: Database, number: int, random_: random.Random) -> None:
    """Trace batches and openings."""
    pool, sites = max(1, number // OF_A_BATCH), max(1, number // ON_A_SITE)
    batches = [f"B{one:05}" for one in random_.sample(range(pool), min(pool, 30))]
    chosen = [_site(one) for one in random_.sample(range(sites), min(sites, 20))]
    for what, calls in (
        ("trace of a batch", [partial(trace_batch, database, batch, 20) for batch in batches]),
        ("trace of an opening", [partial(trace_opening, database, site, _mark(77), 20) for site in chosen]),
    ):
        took = []
        for call in calls:
            began = time.perf_counter()
            traced = call()
            took.append((time.perf_counter() - began) * 1000)
        print(f"{what:20} p50 {statistics.median(took):7.1f} ms  longest {max(took):7.1f} ms"
              f"   last one shared with {traced.number} openings")  # fmt: skip


def main() -> None:
    """Build, ask, trace."""
    options = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    options.add_argument("--openings", type=int, default=1_000_000)
    options.add_argument("--index", help="file or address; a temporary file if left out")
    options.add_argument("--keep", action="store_true", help="ask an index that is there")
    options.add_argument("--asked", type=int, default=500)
    given = options.parse_args()
    with TemporaryDirectory() as folder:
        database = open_database(Path(folder), given.index or str(Path(folder) / "index.sqlite"))
        random_ = random.Random(7)
        if not given.keep:
            made = Stopwatch(openings(given.openings, random_), given.openings)
            began = time.perf_counter()
            fill(database, "generated", made)
            took = time.perf_counter() - began - made.took
            print(
                f"\rbuilt: {given.openings} openings in {took:.0f} s, {given.openings / took:.0f} a second,"
                f" {database.size_bytes() / 1e6:.0f} MB ({MOST} shown at most)"
            )
        questions(database, given.openings, given.asked, random_)
        traces(database, given.openings, random_)
        database.close()


if __name__ == "__main__":
    main()
