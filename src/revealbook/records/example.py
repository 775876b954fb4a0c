"""A record that states every key: made from the models' own examples, to look at what is done with each."""

from typing import Any, Literal, NamedTuple, get_args, get_origin

from pydantic import BaseModel

_MOST_ITEMS = 8


class Variant(NamedTuple):
    """Which of several examples is made.

    Attributes:
        turn: which of the allowed words a key gets; items of a list get one word further each.
        opposite: whether every yes is a no.
        without: keys that are left out.
    """

    turn: int = 0
    opposite: bool = False
    without: frozenset[str] = frozenset()


FIRST = Variant()


def full_example(model: type[BaseModel], variant: Variant = FIRST) -> dict[str, Any]:
    """Give plain data that states every key of a model and of all models inside it.

    Args:
        model: the model of a record or site file.
        variant: which words and truth values stand there.
    """
    data: dict[str, Any] = {}
    for name, field in model.model_fields.items():
        inner, many = inner_model(field.annotation)
        if name in variant.without and not field.is_required():
            continue
        if inner is None:
            example = field.examples[0] if field.examples else field.default
            data[name] = _scalar(example, _words(field.annotation), variant)
        elif many:
            turns = range(variant.turn, variant.turn + _items(inner))
            data[name] = [full_example(inner, variant._replace(turn=turn)) for turn in turns]
        else:
            data[name] = full_example(inner, variant)
    return data


def inner_model(annotation: Any) -> tuple[type[BaseModel] | None, bool]:
    """Give the model that an annotation holds, and whether it holds many of them."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation, False
    many = get_origin(annotation) is tuple
    for part in get_args(annotation):
        found, deeper = inner_model(part)
        if found is not None:
            return found, many or deeper
    return None, False


def _scalar(example: Any, words: tuple[Any, ...], variant: Variant) -> Any:
    if words and not isinstance(example, list | tuple):
        return words[variant.turn % len(words)]
    return (example is not variant.opposite) if isinstance(example, bool) else example


def _items(inner: type[BaseModel]) -> int:
    """Give how many items a list needs to show all words of its items' keys; two at least."""
    words = (len(_words(field.annotation)) for field in inner.model_fields.values())
    return min(max(2, *words), _MOST_ITEMS)


def _words(annotation: Any) -> tuple[Any, ...]:
    if get_origin(annotation) is Literal:
        return get_args(annotation)
    return next(filter(None, map(_words, get_args(annotation))), ())
