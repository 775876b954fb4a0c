"""The weather at every bonding, taping and foaming: air, surface and dew point with the margin asked for.

Lengths are in mm on paper; one column for each use of a product.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from revealbook.present import labels
from revealbook.present.words import N_, Words
from revealbook.rules.finding import Finding, Judgement, Outcome
from revealbook.rules.judged import JudgedOpening

WIDTH_MM = 169.0
_HEIGHT_MM = 46.0
_TOP_MM, _BOTTOM_MM, _LEFT_MM = 4.0, 9.0, 12.0
_MOST_COLUMN_MM = 42.0
_VALUES_MM = 19.0
"""Room that the values of a use take; narrower columns go without, the list of events has them."""
_MEASURES = ("dew_point_margin", "products_dew_point_margin")
_CAPTION = N_(
    "Air (ring), surface (square) and dew point (line) in °C at each use; the surface must stand above the "
    "hatched margin over the dew point."
)


@dataclass(frozen=True, slots=True)
class Column:
    """The weather at one use.

    Attributes:
        x: middle of the column.
        label: which product.
        air, surface, dew, wanted: heights on paper of the temperatures; `wanted` is dew point plus margin.
        values: the readings in words; empty if there is no room.
        outcome: whether the surface was warm enough.
    """

    x: float
    label: str
    air: float
    surface: float
    dew: float
    wanted: float
    values: str
    outcome: Outcome


@dataclass(frozen=True, slots=True)
class ConditionsChart:
    """Everything that the chart draws."""

    width: float
    height: float
    left: float
    grid: tuple[tuple[float, str], ...]
    columns: tuple[Column, ...]
    half_column: float
    title: str
    caption: str


def conditions_chart(judged: JudgedOpening, words: Words) -> ConditionsChart | None:
    """Give the chart of the weather at each use; None if it was never read in full."""
    uses = list(_uses(judged))
    if not uses:
        return None
    temperatures = [value for use in uses for value in use[1:5]]
    low, high = _rounded_down(min(temperatures)), _rounded_up(max(temperatures))
    scale = (_HEIGHT_MM - _TOP_MM - _BOTTOM_MM) / (high - low)

    def height(value: float) -> float:
        return _TOP_MM + (high - value) * scale

    pitch = min(_MOST_COLUMN_MM, (WIDTH_MM - _LEFT_MM) / len(uses))
    columns = tuple(
        Column(
            x=_LEFT_MM + pitch * (number + 0.5),
            label=labels.subject(finding.subject, words),
            air=height(air),
            surface=height(surface),
            dew=height(dew),
            wanted=height(wanted),
            values=_values(surface, dew, words) if pitch >= _VALUES_MM else "",
            outcome=finding.outcome,
        )
        for number, (finding, air, surface, dew, wanted) in enumerate(uses)
    )
    step = 5 if high - low <= 25 else 10  # noqa: PLR2004 - how many lines a grid of this height bears
    grid = tuple((height(value), words.number(value, "degC")) for value in range(low, high + 1, step))
    cold = sum(column.outcome is Outcome.DOES_NOT_CONFORM for column in columns)
    title = words.say(
        N_("Weather at {uses} uses of products: air, surface, dew point; {cold} with too cold a surface"),
        uses=len(columns), cold=cold,
    )  # fmt: skip
    caption = words.say(_CAPTION)
    return ConditionsChart(WIDTH_MM, _HEIGHT_MM, _LEFT_MM, grid, columns, pitch * 0.36, title, caption)


def _values(surface: float, dew: float, words: Words) -> str:
    facts = {"surface": words.number(surface, "degC"), "dew": words.quantity(dew, "degC")}
    return words.say(N_("{surface} over {dew}"), **facts)


def _uses(judged: JudgedOpening) -> Iterator[tuple[Finding, float, float, float, float]]:
    """Give every use with its temperatures, in the order of the record, whichever rule judges it."""
    asked = [one for one in judged.judgements if one.held.rule.measure in _MEASURES]
    found = [use for judgement in asked for use in _read_in_full(judgement)]
    yield from sorted(found, key=lambda use: use[0].reading.path)


def _read_in_full(judgement: Judgement) -> Iterator[tuple[Finding, float, float, float, float]]:
    for finding in judgement.findings:
        known = {detail.name: detail.value for detail in finding.details}
        asked = known.get("dew_margin_k", 0.0)
        wanted = ((finding.limit or judgement.held.rule.limit).low or 0.0) + float(asked)
        values: Sequence[object] = [known.get(key) for key in ("air_c", "surface_c", "dew_point_c")]
        numbers = [float(value) for value in values if isinstance(value, float | int)]
        if len(numbers) == len(values):
            air, surface, dew = numbers
            yield finding, air, surface, dew, dew + wanted


def _rounded_down(value: float) -> int:
    return int(value // 5) * 5


def _rounded_up(value: float) -> int:
    return int(-(-value // 5)) * 5 + (5 if value % 5 == 0 else 0)
