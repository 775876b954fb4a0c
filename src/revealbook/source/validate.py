"""A document held against its model: the model, or every fault with its place."""

from typing import Any, TypeVar, get_args

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from revealbook.source.follow import at
from revealbook.source.nearest import nearest
from revealbook.source.problem import Problem
from revealbook.source.read import Document

Model = TypeVar("Model", bound=BaseModel)

_LONGEST_MM = 15_000
_CODES = {
    "extra_forbidden": "unknown_key",
    "missing": "missing_key",
    "greater_than_equal": "too_small",
    "less_than_equal": "too_large_value",
    "greater_than": "too_small",
    "less_than": "too_large_value",
    "float_type": "not_a_number",
    "finite_number": "not_a_number",
    "int_type": "not_a_whole_number",
    "int_from_float": "not_a_whole_number",
    "bool_type": "not_yes_or_no",
    "string_type": "not_text",
    "literal_error": "not_one_of",
    "model_type": "not_a_section",
    "model_attributes_type": "not_a_section",
    "tuple_type": "not_a_list",
    "string_too_short": "empty_text",
    "string_too_long": "text_too_long",
    "string_pattern_mismatch": "not_a_name",
    "time_without_zone": "time_without_zone",
    "not_a_time": "not_a_time",
    "no_such_time": "no_such_time",
    "not_a_date": "not_a_date",
    "limit_kinds": "limit_kinds",
}


def validate(model: type[Model], document: Document) -> Model | tuple[Problem, ...]:
    """Hold a document against `model`.

    Returns:
        The frozen model, or all that is wrong, in the order of the file.
    """
    try:
        return model.model_validate(document.data)
    except ValidationError as error:
        found = (_problem(model, document, details) for details in error.errors(include_url=False))
        return tuple(sorted(found, key=lambda problem: problem.place))


def _problem(model: type[BaseModel], document: Document, details: ErrorDetails) -> Problem:
    loc = details["loc"]
    place = at(document.marks, loc, document.file)
    code = _CODES.get(details["type"], "refused")
    names = [part for part in loc if isinstance(part, str)]
    facts: dict[str, Any] = {"key": names[-1] if names else "", "value": details["input"]}
    facts.update(details.get("ctx", {}))
    if code == "unknown_key":
        known = keys_known_at(model, loc[:-1])
        facts |= {"nearest": nearest(str(loc[-1]), known), "known": known}
    elif code in {"too_small", "too_large_value"}:
        facts["slip"] = _slip(facts, in_mm=any(name.endswith("_mm") for name in names))
    elif code == "refused":
        facts["pydantic_says"] = details["msg"]
    return Problem(place, code, facts)


def _slip(facts: dict[str, Any], *, in_mm: bool) -> str | None:
    """Name the unit that was probably typed, if the value makes sense in it; `ten` is a digit too many."""
    value = facts["value"]
    if not in_mm or isinstance(value, bool) or not isinstance(value, int | float) or value <= 0:
        return None
    low, high = facts.get("ge", 0), facts.get("le", _LONGEST_MM)
    if value > high:
        return "ten" if low <= value / 10 <= high else None
    if low <= value * 1000 <= _LONGEST_MM:
        return "m"
    return "cm" if low <= value * 10 else None


def keys_known_at(model: type[BaseModel], loc: tuple[int | str, ...]) -> tuple[str, ...]:
    """Give the keys that the model knows where `loc` leads to; none if it leads to no section."""
    here: Any = model
    for part in loc:
        if isinstance(part, str):
            fields = here.model_fields
            if part not in fields:
                continue
            here = _section_in(fields[part].annotation)
            if here is None:
                return ()
    return tuple(here.model_fields)


def _section_in(annotation: Any) -> type[BaseModel] | None:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    for inner in get_args(annotation):
        found = _section_in(inner)
        if found is not None:
            return found
    return None
