"""An opening judged again with an inspector's values in the place of the fitter's."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from revealbook.measures.measure import measure
from revealbook.measures.reading import Path, Reading
from revealbook.measures.work import Surroundings, Work
from revealbook.records.opening import Opening
from revealbook.records.remeasurement import Remeasurement
from revealbook.rules.finding import Finding, Judgement
from revealbook.rules.judge import judge
from revealbook.rules.rule_set import RuleSet

Values = Mapping[Path, Any]


def judged_again(work: Work, read: Remeasurement, new: Values, rules: RuleSet) -> tuple[Judgement, ...]:
    """Judge an opening by the rules in force with what was read again.

    In a section in which anything was read again, the inspector's instruments take the place of the fitter's:
    whoever measures again with a finer instrument wants to decide what was undecided.

    Args:
        work: the opening as recorded.
        read: the re-measurement.
        new: its readings by their place.
        rules: the rules in force.
    """
    tools = {f"again-{number}": tool for number, tool in enumerate(read.instruments, start=1)}
    uncertainties = {name: (tool.measures, tool.uncertainty) for name, tool in tools.items()}
    around: Surroundings = replace(work.around, uncertainties={**work.around.uncertainties, **uncertainties})
    opening = put_in(work.opening, new, tuple(tools))
    return judge(rules, measure(Work(opening, around), rules.measures))


def put_in(opening: Opening, new: Values, instruments: tuple[str, ...]) -> Opening:
    """Give a record with values put in their places, and their sections' instruments with them.

    A list of positions is replaced as a whole; a part that the record lacks is made.
    """
    data = opening.model_dump()
    cleared: set[Path] = set()
    for path, value in new.items():
        here: Any = data
        for number, part in enumerate(path[:-1]):
            here = _below(here, part, listed=isinstance(path[number + 1], int))
        if isinstance(path[-1], int) and path[:-1] not in cleared:
            cleared.add(path[:-1])
            here.clear()
        if isinstance(path[-1], int):
            here.append(value)
        else:
            here[path[-1]] = value
        data[str(path[0])]["instruments"] = list(instruments) or None
    return Opening.model_validate(data)


def _below(here: Any, part: str | int, *, listed: bool) -> Any:
    """Give what lies below a part, made if it is not there, with lists that can grow."""
    if isinstance(part, int):
        while len(here) <= part:
            here.append({})
        return here[part]
    found = here.get(part)
    here[part] = list(found or ()) if listed else found or {}
    return here[part]


def touched(finding: Finding, before: Finding | None, new: Values) -> bool:
    """Whether a finding rests on a value that was read again: it names it, or it has another value by it."""
    reading = finding.reading
    rests_on = {reading.path, *(detail.path for detail in reading.details if detail.path)}
    beside = {path[:-1] for path in new if isinstance(path[-1], int)}
    if rests_on & (new.keys() | beside):
        return True
    return before is None or _value(before) != _value(finding)


def _value(finding: Finding) -> object:
    return finding.reading.value if isinstance(finding.reading, Reading) else None
