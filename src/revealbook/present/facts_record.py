"""The facts of an opening as they are filed for looking up: plain values, read tolerantly.

A later version of this program may add keys; whoever reads an older or newer file takes what it knows.
"""

from collections.abc import Mapping
from datetime import date, datetime
from typing import NamedTuple

from pydantic import BaseModel, ConfigDict, Field

from revealbook.rules.finding import Outcome

FORMAT = "revealbook-facts-1"


class Fact(BaseModel):
    """The base of all facts: frozen, and blind to keys that it does not know."""

    model_config = ConfigDict(frozen=True, extra="ignore")


class UsedProduct(Fact):
    """A product that was used.

    Attributes:
        use: what for: `adhesive`, `foam`, `inner tape`, `outer tape`, `frame profile`, `plinth profile`.
        id: its id in site.yaml, if recorded.
        name: the name on its label; empty if site.yaml has none.
        batch: the batch as printed, if recorded.
    """

    use: str
    id: str | None = None
    name: str = ""
    batch: str | None = None


class UsedFixing(Fact):
    """A fixing that was used.

    Attributes:
        what: what it holds: `frame`, `supports`, `brackets` or `window`.
        id: its id in site.yaml, if recorded.
        name: the name on its label; empty if site.yaml has none.
        number: at how many recorded positions.
    """

    what: str
    id: str | None = None
    name: str = ""
    number: int = 0


class PersonDid(Fact):
    """What a named person did; when, is in the events.

    Attributes:
        id: the person's id in site.yaml.
        name: the full name; the id if site.yaml has none.
        roles: what the person may sign as on this site.
        did: what, in the order of the work: the steps of events, and sections of the record.
    """

    id: str
    name: str
    roles: tuple[str, ...] = ()
    did: tuple[str, ...] = ()


class DatedEvent(Fact):
    """Something that happened at a moment; the readings are in degC and % as recorded."""

    step: str
    at: datetime
    by: str | None = None
    product: str | None = None
    batch: str | None = None
    air_c: float | None = None
    surface_c: float | None = None
    rh_pct: float | None = None


class RuleOutcome(Fact):
    """A rule that an opening does not simply meet.

    Attributes:
        rule: its id.
        outcome: does not conform, undecided or not shown.
        grade: critical, major or minor.
        weather: whether it is about the weather in which a product was used.
    """

    rule: str
    outcome: Outcome
    grade: str = ""
    weather: bool = False


class Conceded(Fact):
    """A concession: who accepted which rule not being met, why, when and until when."""

    rule: str
    reason: str = ""
    by: str | None = None
    at: datetime | None = None
    until: datetime | None = None


class Later(NamedTuple):
    """A claim or repair that joined an opening, in a few words.

    Attributes:
        kind: `claim` or `repair`.
        id: its id.
        day: the day it is about, as ISO 8601 writes it.
        said: what was found or done, its cause, with what and by whom.
    """

    kind: str
    id: str
    day: str
    said: str


class OpeningFacts(Fact):
    """What is looked up about one opening.

    Attributes:
        site: id of its site.
        site_name: name of its site.
        mark: its mark.
        serial: serial number of the window.
        building: as recorded; so are `floor`, `elevation` and `room`.
        width_mm: nominal width of the opening, mm.
        height_mm: nominal height of the opening, mm.
        outcome: the worst outcome of any rule.
        counts: number of rules by outcome.
        products: products with their batches, in the order of the work.
        fixings: kinds of fixings.
        fixed_by: how the window itself is held.
        people: who did what.
        events: what was done when, and the weather then, in order of time; the weather between is left out.
        first: day of the first dated event.
        last: day of the last dated event.
        rules: rules that do not conform, are undecided or not shown.
        conforms: ids of the rules that it meets.
        does_not_apply: ids of the rules that do not apply.
        nonconformities: a sentence for each rule that does not conform.
        concessions: what was accepted all the same.
        texts: notes, what photographs show, nonconformities found on site and their corrections.
    """

    site: str
    mark: str
    site_name: str = ""
    serial: str | None = None
    building: str | None = None
    floor: str | None = None
    elevation: str | None = None
    room: str | None = None
    width_mm: float | None = None
    height_mm: float | None = None
    outcome: Outcome
    counts: Mapping[Outcome, int] = Field(default_factory=dict)
    products: tuple[UsedProduct, ...] = ()
    fixings: tuple[UsedFixing, ...] = ()
    fixed_by: str | None = None
    people: tuple[PersonDid, ...] = ()
    events: tuple[DatedEvent, ...] = ()
    first: date | None = None
    last: date | None = None
    rules: tuple[RuleOutcome, ...] = ()
    conforms: tuple[str, ...] = ()
    does_not_apply: tuple[str, ...] = ()
    nonconformities: tuple[str, ...] = ()
    concessions: tuple[Conceded, ...] = ()
    texts: tuple[str, ...] = ()

    @property
    def below_limit(self) -> tuple[str, ...]:
        """Rules about the weather that do not conform."""
        breached = Outcome.DOES_NOT_CONFORM
        return tuple(one.rule for one in self.rules if one.weather and one.outcome is breached)
