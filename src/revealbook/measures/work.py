"""The work as measures see it: an opening, its site, and the method; and how to look into it."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from math import sqrt
from typing import Any

from revealbook.measures.air import Air, air_read
from revealbook.measures.method import Method
from revealbook.measures.reading import Missing, Outcome, Path, Reading, Subject
from revealbook.records.opening import Opening
from revealbook.records.products import Product, Products
from revealbook.records.site import Site


def look(thing: Any, path: Path) -> Any:
    """Follow a path of keys and list positions into a record; None as soon as something is missing."""
    for part in path:
        if thing is None:
            return None
        thing = thing[part] if isinstance(part, int) else getattr(thing, part)
    return thing


@dataclass(frozen=True, slots=True)
class Surroundings:
    """What is the same for every opening of a site, looked up once.

    Attributes:
        site: the site.
        method: the method parameters of the rule set in force.
        products: products by kind and id.
        uncertainties: expanded uncertainty by instrument id, with what the instrument measures.
        unstated: the same by kind where no instrument is named: the method's, or that of the site's coarsest
            instrument of the kind, so that leaving an instrument out never helps.
        air: the air as read at every opening of the site, by building, as (mark, reading).
    """

    site: Site
    method: Method = field(default_factory=Method)
    products: Mapping[tuple[str, str], Product] = field(default_factory=dict)
    uncertainties: Mapping[str, tuple[str, float]] = field(default_factory=dict)
    unstated: Mapping[str, float] = field(default_factory=dict)
    air: Mapping[str | None, frozenset[tuple[str, Air]]] = field(default_factory=dict)

    @classmethod
    def of(cls, site: Site, method: Method, openings: Iterable[Opening] = ()) -> "Surroundings":
        """Look up what measures ask for again and again.

        Args:
            site: the site.
            method: the method parameters in force.
            openings: all openings of the site; their readings bound weather that was not read at one of them.
        """
        kinds = Products.model_fields
        products = {(kind, product.id): product for kind in kinds for product in getattr(site.products, kind)}
        uncertainties = {tool.id: (tool.measures, tool.uncertainty) for tool in site.instruments}
        air: dict[str | None, set[tuple[str, Air]]] = {}
        for one in openings:
            air.setdefault(one.opening.building, set()).update((one.mark, read) for read in air_read(one))
        held = {building: frozenset(read) for building, read in air.items()}
        return cls(site, method, products, uncertainties, dict(_unstated(site, method)), held)

    def neighbours(self, opening: Opening) -> frozenset[Air]:
        """Give the air as read at the other openings of the same building, what two of them share once."""
        known = self.air.get(opening.opening.building, ())
        return frozenset(read for mark, read in known if mark != opening.mark)


def _unstated(site: Site, method: Method) -> Iterator[tuple[str, float]]:
    for name in type(method.default_uncertainty).model_fields:
        kind = name.partition("_")[0]
        default = getattr(method.default_uncertainty, name)
        if default is not None:
            listed = (tool.uncertainty for tool in site.instruments if tool.measures == kind)
            yield kind, max((default, *listed))


@dataclass(frozen=True, slots=True)
class Work:
    """One opening and what surrounds it: the only argument that a measure takes."""

    opening: Opening
    around: Surroundings

    @property
    def method(self) -> Method:
        """The method parameters in force."""
        return self.around.method

    def look(self, *path: str | int) -> Any:
        """Give the value at a path of the record, or None."""
        return look(self.opening, path)

    def product(self, kind: str, name: str | None) -> Any:
        """Give a product of the site, or None if none is named."""
        return None if name is None else self.around.products.get((kind, name))

    def uncertainty(self, section: str | Path, measures: str, readings: int = 1) -> float | None:
        """Give the expanded uncertainty (k = 2) of a difference or sum of readings in a section.

        Args:
            section: the record's section, or the path of a test, whose `instruments` were used.
            measures: what kind of instrument took the reading.
            readings: how many independent readings enter with weight 1 (adds in quadrature).

        Returns:
            The uncertainty of the coarsest such instrument named there; without one, that of a reading whose
            instrument is not stated; None if the method takes none for its kind.
        """
        path = (section,) if isinstance(section, str) else section
        named = look(self.opening, (*path, "instruments")) or ()
        found = [self.around.uncertainties[name] for name in named]
        fitting = [value for kind, value in found if kind == measures]
        coarsest = max(fitting) if fitting else self.around.unstated.get(measures)
        return None if coarsest is None else coarsest * sqrt(readings)

    def sloping_over(self, length_mm: float) -> float:
        """Give the length over which a slope is reckoned: no shorter than a fitter can read it over."""
        return max(length_mm, self.method.slope_over_at_least_mm)


def one(work: Work, subject: Subject, path: Path, measures: str | None = None) -> Outcome:
    """Read the value that stands at `path`; with its instrument's uncertainty if it is measured."""
    value = look(work.opening, path)
    if value is None:
        return Missing(subject, str(path[-1]), path)
    return Reading(subject, value, path, work.uncertainty(str(path[0]), measures) if measures else None)


def lacking(work: Work, subject: Subject, *paths: Path) -> tuple[Missing, ...]:
    """Name every one of some paths at which nothing is recorded, so that all can be put right at once."""
    return tuple(Missing(subject, str(path[-1]), path) for path in paths if look(work.opening, path) is None)


def each(work: Work, *path: str | int) -> Iterator[tuple[int, Any]] | Missing:
    """Go through the list at `path`; `Missing` if the list itself was not recorded."""
    items = look(work.opening, path)
    if items is None:
        return Missing((), str(path[-1]), path)
    return enumerate(items)
