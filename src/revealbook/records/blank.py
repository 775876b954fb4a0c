"""Blank records and site files: every key with what to enter, ready to be filled in at the scaffold."""

import json
from collections.abc import Iterator, Mapping
from datetime import date, datetime
from typing import Any, NamedTuple

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from revealbook.records.example import inner_model
from revealbook.source.scalars import meaning

_COMMENT_COLUMN = 36
_INDENT = "  "


Path = tuple[str, ...]


class _Beside(NamedTuple):
    """What is planned, and where in the file a line stands."""

    planned: Mapping[Path, str]
    path: Path = ()

    def below(self, name: str) -> "_Beside":
        return self._replace(path=(*self.path, name))


def blank(
    model: type[BaseModel],
    known: Mapping[str, Any] | None = None,
    planned: Mapping[Path, str] | None = None,
) -> str:
    """Write a model out as commented YAML, with what is known filled in.

    Keys that are not known stay empty, which reads as *not shown*; lists stand there behind a # each.

    Args:
        model: the model of the file or section.
        known: plain values by key, nested as the model is.
        planned: what is planned for a key, by its path. It stands in the comment and never as a value: a plan
            is no evidence.
    """
    return "\n".join(_keys(model, known or {}, "", _Beside(planned or {}))) + "\n"


def _keys(model: type[BaseModel], known: Mapping[str, Any], indent: str, beside: _Beside) -> Iterator[str]:
    for name, field in model.model_fields.items():
        here = beside.below(name)
        value = known.get(name, _default(field))
        inner, many = inner_model(field.annotation)
        if inner is None:
            yield _commented(f"{indent}{name}:{_scalar(value)}", field, here)
        elif many:
            yield from _list(field, inner, value, indent, here)
        else:
            below = list(_keys(inner, value or {}, indent + _INDENT, here))
            unused = all(line.lstrip().startswith("#") for line in below)
            yield _commented(f"{indent}{'# ' if unused else ''}{name}:", field, here, example=False)
            yield from below


def _default(field: FieldInfo) -> Any:
    """Give what a key says that is left out, where it is a plain value."""
    return field.default if isinstance(field.default, str | int) else None


def _list(field: FieldInfo, inner: type[BaseModel], value: Any, indent: str, here: _Beside) -> Iterator[str]:
    """Write a list; one that is not known stands there as a comment with one item, for taking the # away."""
    name = here.path[-1]
    if value is None:
        yield _commented(f"{indent}# {name}:", field, here, example=False)
        examples = {key: (known.examples or [None])[0] for key, known in inner.model_fields.items()}
        plain = [(key, given) for key, given in examples.items() if not _has_keys(given)]
        for number, (key, given) in enumerate(plain):
            yield f"{indent}#   {'-' if number == 0 else ' '} {key}:{_scalar(given)}"
        return
    yield _commented(f"{indent}{name}:" + ("" if value else " []"), field, here, example=False)
    for item in value:
        lines = _keys(inner, item, indent + _INDENT * 2, here)
        yield f"{indent}{_INDENT}- {next(lines).lstrip()}"
        yield from lines


def _has_keys(given: Any) -> bool:
    return isinstance(given, dict) or (
        isinstance(given, list) and any(isinstance(one, dict) for one in given)
    )


def _commented(line: str, field: FieldInfo, here: _Beside, *, example: bool = True) -> str:
    said, plan = field.description or "", here.planned.get(here.path)
    if plan is not None:
        said = f"planned {plan}. {said}"
    elif example and field.examples and not line.rstrip().endswith(("true", "false")):
        said += f" e.g. {_scalar(field.examples[0]).strip()}"
    return f"{line:<{_COMMENT_COLUMN - 1}} # {said}" if said else line


def _scalar(value: Any) -> str:
    """Write a plain value after its colon; nothing for None."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return f" {str(value).lower()}"
    if isinstance(value, datetime | date):
        return f" {value.isoformat()}"
    if isinstance(value, float) and value.is_integer():
        return f" {value:.0f}"
    if isinstance(value, str):
        return f" {value}" if _plain(value) else f" {json.dumps(value, ensure_ascii=False)}"
    return f" {json.dumps(value, ensure_ascii=False)}"


def _plain(text: str) -> bool:
    """Whether a text needs no quotes to stay text."""
    signs = all(sign.isalnum() or sign in " -_./+" for sign in text)
    return text[:1].isalpha() and signs and text == text.strip() and meaning(text) is text
