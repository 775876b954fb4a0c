"""The site's cutting list: bars, what to cut from each, and how good the list is."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from revealbook.present.refusals import refusal
from revealbook.present.words import N_, Words
from revealbook.setting_out.cutting import Bar, CuttingList
from revealbook.setting_out.refusal import NotPossible
from revealbook.setting_out.site import SetOutSite
from revealbook.setting_out.site_cuts import ProfileCuts, Saw

_METHODS = (
    N_("first fit decreasing"),
    N_("fullest bar first"),
    N_("column generation, rounded"),
    N_("column generation and an integer programme"),
)
"""What the cutting calls its methods; a note on a search that was cut short may follow."""
_PIECE = re.compile(r" (bottom|left|right|top|support|plinth)((?: \d+(?:/\d+)?)?)$")
_PIECES = {
    "bottom": N_("bottom"),
    "left": N_("left"),
    "right": N_("right"),
    "top": N_("top"),
    "support": N_("support"),
    "plinth": N_("plinth profile"),
}


@dataclass(frozen=True, slots=True)
class BarLine:
    """One bar.

    Attributes:
        number: its number in the list.
        stock: its length, and whether it comes from the store.
        cuts: what to cut from it, as (length, label), longest first.
        offcut: what is left.
        kept: whether that goes back to the store.
    """

    number: int
    stock: str
    cuts: tuple[tuple[str, str], ...]
    offcut: str
    kept: bool


@dataclass(frozen=True, slots=True)
class ProfileSheet:
    """The cutting list of one profile.

    Attributes:
        profile: its id.
        refused: why there is no list; then nothing else is there.
        facts: totals, bound, waste, method, as (name, value).
        bars: the bars.
    """

    profile: str
    refused: str = ""
    facts: tuple[tuple[str, str], ...] = ()
    bars: tuple[BarLine, ...] = ()


@dataclass(frozen=True, slots=True)
class CuttingSheets:
    """The cutting list of a site.

    Attributes:
        name: the project.
        facts: openings, saw, as (name, value).
        nominal: openings that were set out from nominal sizes.
        refused: openings that could not be set out, with the reason.
        profiles: one list per profile.
    """

    name: str
    facts: tuple[tuple[str, str], ...]
    nominal: tuple[str, ...]
    refused: tuple[tuple[str, str], ...]
    profiles: tuple[ProfileSheet, ...]


def cutting_sheets(
    site: SetOutSite, profiles: tuple[ProfileCuts, ...], saw: Saw, words: Words
) -> CuttingSheets:
    """Give the pages of a site's cutting list."""
    plans = [(one.mark, one.plan) for one in site.openings]
    refused = tuple((mark, refusal(plan, words)) for mark, plan in plans if isinstance(plan, NotPossible))
    nominal = [mark for mark, plan in plans if not isinstance(plan, NotPossible) and not plan.sizes.surveyed]
    facts = (
        (words.say(N_("Project")), site.site.site.name),
        (words.say(N_("Openings")), words.number(len(plans) - len(refused), "number")),
        (words.say(N_("Saw's cut")), words.quantity(saw.kerf_mm, "mm")),
        (words.say(N_("Offcuts kept from")), words.quantity(saw.usable_offcut_mm, "mm")),
    )
    sheets = tuple(_profile(one, saw, words) for one in profiles)
    return CuttingSheets(site.site.site.name, facts, tuple(nominal), refused, sheets)


def _profile(one: ProfileCuts, saw: Saw, words: Words) -> ProfileSheet:
    if isinstance(one.cuts, NotPossible):
        return ProfileSheet(one.profile, refused=refusal(one.cuts, words))
    bars = tuple(_bar(number, bar, saw, words) for number, bar in enumerate(one.cuts.bars, start=1))
    return ProfileSheet(one.profile, facts=tuple(_facts(one, one.cuts, words)), bars=bars)


def _facts(one: ProfileCuts, cuts: CuttingList, words: Words) -> Iterator[tuple[str, str]]:
    new = sum(not bar.from_store for bar in cuts.bars)
    metres = words.quantity(cuts.bought_mm / 1000, "m")
    stock = words.quantity(one.stock_mm, "mm")
    yield (
        words.say(N_("To order")),
        words.say(N_("{number} of {stock} ({metres})"), number=new, stock=stock, metres=metres),
    )
    yield words.say(N_("Pieces")), words.number(one.pieces, "number")
    bound = words.quantity(cuts.bound_mm / 1000, "m")
    gap = words.quantity(cuts.gap_pct, "%")
    proved = (
        words.say(N_("{bound}; no list orders less"), bound=bound)
        if not cuts.gap_pct
        else words.say(N_("{bound}; this list orders {gap} more"), bound=bound, gap=gap)
    )
    yield words.say(N_("Proved least order")), proved
    yield words.say(N_("Waste, saw's cuts included")), words.quantity(cuts.waste_pct, "%")
    kept = " · ".join(words.number(length) for length in cuts.returned_mm)
    yield words.say(N_("Back to the store, mm")), kept or words.say(N_("nothing"))
    method = next((known for known in _METHODS if cuts.method.startswith(known)), "")
    yield words.say(N_("Method")), words.say(method) + cuts.method.removeprefix(method)


def _bar(number: int, bar: Bar, saw: Saw, words: Words) -> BarLine:
    stock = words.number(bar.stock_mm)
    kept = bar.offcut_mm >= max(saw.usable_offcut_mm, 1)
    return BarLine(
        number=number,
        stock=words.say(N_("{length}, from the store"), length=stock) if bar.from_store else stock,
        cuts=tuple((words.number(cut.length_mm), _label(cut.label, words)) for cut in bar.cuts),
        offcut=words.number(bar.offcut_mm),
        kept=kept,
    )


def _label(label: str, words: Words) -> str:
    """Say a piece's name in the reader's language behind the opening's mark."""
    return _PIECE.sub(lambda found: f" {words.say(_PIECES[found[1]])}{found[2]}", label)
