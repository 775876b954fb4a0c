"""Sentences that tell what was recorded, and name what was not."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from itertools import pairwise
from typing import Any, NamedTuple

from revealbook.measures.physics.dew_point import dew_point_c
from revealbook.present import labels
from revealbook.present.words import N_, Words
from revealbook.records.products import Products
from revealbook.records.site import Site


class Phrase(NamedTuple):
    """Something a sentence tells: in words if it was recorded, and what it is called if it was not."""

    said: str
    missing: str


@dataclass(frozen=True, slots=True)
class Teller:
    """How a site's records are told.

    Attributes:
        words: the reader's language.
        people: names by id.
        products: names by kind and id.
    """

    words: Words
    people: Mapping[str, str]
    products: Mapping[tuple[str, str], str]

    @classmethod
    def of(cls, site: Site, words: Words) -> "Teller":
        """Tell of a site in a language."""
        names = {
            (kind, product.id): product.name or product.id
            for kind in Products.model_fields
            for product in getattr(site.products, kind)
        }
        return cls(words, {person.id: person.name for person in site.people}, names)

    def sentence(self, head: str, phrases: Iterable[Phrase]) -> str:
        """Say phrases after a heading, then what was not recorded: it is not shown."""
        told = list(phrases)
        said = ", ".join(phrase.said for phrase in told if phrase.said)
        lacking = ", ".join(dict.fromkeys(phrase.missing for phrase in told if not phrase.said))
        if not lacking:
            return f"{head}: {said}."
        if not said:
            return self.words.say(N_("{what}: not shown ({lacking})."), what=head, lacking=lacking)
        return self.words.say(
            N_("{what}: {said}. Not shown: {lacking}."), what=head, said=said, lacking=lacking
        )

    def reading(self, part: Any, key: str, unit: str) -> Phrase:
        """Tell a number by what its key is called."""
        name, value = labels.key(key, self.words), getattr(part, key)
        return Phrase("" if value is None else f"{name} {self.words.quantity(value, unit)}", name)

    def fact(self, key: str, value: bool | None, yes: str, no: str) -> Phrase:
        """Tell what is or is not so by two texts, marked for translation."""
        said = "" if value is None else self.words.say(yes if value else no)
        return Phrase(said, labels.key(key, self.words))

    def named(self, what: str, name: str | None) -> Phrase:
        """Tell a name that stands for itself, as a product's."""
        return Phrase(name or "", what)

    def product(self, kind: str, id_: str | None) -> Phrase:
        """Tell a product by the name on its label, or by its id where site.yaml has no name for it."""
        return self.named(self.words.say(N_("product")), self.products.get((kind, id_ or ""), id_))

    def batch(self, batch: str | None) -> Phrase:
        """Tell a batch."""
        said = self.words.say(N_("batch {batch}"), batch=batch) if batch else ""
        return Phrase(said, self.words.say(N_("batch")))

    def moment(self, at: datetime | None, what: str, missing: str) -> Phrase:
        """Tell when something was done; `what` names `{moment}`."""
        return Phrase(self.words.say(what, moment=self.words.moment(at)) if at else "", missing)

    def span(self, values: Sequence[float], unit: str) -> str:
        """Give the smallest and largest of some numbers: `515 - 540 mm`; empty if there is none."""
        if not values:
            return ""
        low, high = self.words.quantity(min(values), unit), self.words.quantity(max(values), unit)
        if low == high:
            return low
        return self.words.say(N_("{low} to {high}"), low=self.words.number(min(values), unit), high=high)

    def weather(self, part: Any) -> Iterator[Phrase]:
        """Tell air, humidity and surface, and how far the surface stood above dew point."""
        yield self.reading(part, "air_c", "degC")
        yield self.reading(part, "rh_pct", "%")
        yield self.reading(part, "surface_c", "degC")
        margin = dew_margin_k(part)
        text = N_("surface {margin} above dew point")
        if margin is not None and margin < 0:
            text = N_("surface {margin} below dew point")
        said = "" if margin is None else self.words.quantity(abs(margin), "K")
        yield Phrase(
            self.words.say(text, margin=said) if said else "", self.words.say(N_("distance from dew point"))
        )


def dew_margin_k(part: Any) -> float | None:
    """Give how far a surface stood above dew point, K; None where a reading lacks.

    Args:
        part: something with `air_c`, `rh_pct` and `surface_c`.
    """
    air, rh, surface = part.air_c, part.rh_pct, part.surface_c
    if air is None or rh is None or surface is None:
        return None
    return float(surface - dew_point_c(air, rh, over="water"))


def centres_mm(positions: Iterable[float]) -> tuple[float, ...]:
    """Give the distances between neighbouring positions, mm."""
    ordered = sorted(positions)
    return tuple(after - before for before, after in pairwise(ordered))
