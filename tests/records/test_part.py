from collections.abc import Iterator
from typing import Any, get_args

import pytest
from pydantic import BaseModel, ValidationError, create_model
from tests.builders import full_opening

from revealbook.records.frame import Frame
from revealbook.records.opening import Opening
from revealbook.records.part import Part, Photo, Section, parts, photos_named
from revealbook.records.site import Site


def models_in(model: type[BaseModel], seen: set[type[BaseModel]]) -> Iterator[type[BaseModel]]:
    if model in seen:
        return
    seen.add(model)
    yield model
    for field in model.model_fields.values():
        for inner in held_in(field.annotation):
            yield from models_in(inner, seen)


def held_in(annotation: Any) -> Iterator[type[BaseModel]]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation
    for part in get_args(annotation):
        yield from held_in(part)


SEEN: set[type[BaseModel]] = set()
MODELS = [*models_in(Opening, SEEN), *models_in(Site, SEEN)]
FIELDS = [
    pytest.param(model, name, id=f"{model.__name__}.{name}")
    for model in MODELS
    for name in model.model_fields
]


def test_the_walk_finds_the_models_of_every_section() -> None:
    assert len(MODELS) > 40
    assert {"FixingSet", "Bead", "CurePoint", "JointWidths", "LeakageReading"} <= {
        one.__name__ for one in MODELS
    }


@pytest.mark.parametrize(("model", "name"), FIELDS)
def test_every_field_says_what_it_means_with_an_example_that_holds(model: type[BaseModel], name: str) -> None:
    field = model.model_fields[name]
    assert field.description
    assert field.description.endswith((".", "?")), field.description
    assert field.examples
    fields: dict[str, Any] = {name: (field.rebuild_annotation(), ...)}
    alone = create_model("Alone", __base__=Part, **fields)
    for example in field.examples:
        alone.model_validate({name: example})


@pytest.mark.parametrize("model", MODELS, ids=lambda model: model.__name__)
def test_every_model_is_frozen_strict_and_refuses_unknown_keys(model: type[BaseModel]) -> None:
    assert model.model_config.get("frozen") is True
    assert model.model_config.get("strict") is True
    assert model.model_config.get("extra") == "forbid"
    assert model.__doc__


def test_a_model_cannot_be_changed() -> None:
    photo = Photo(file="a.jpg")
    with pytest.raises(ValidationError):
        photo.file = "b.jpg"  # type: ignore[misc]


def test_every_reading_of_a_section_may_be_missing() -> None:
    assert Section() == Section.model_validate({})
    assert all(value is None for value in Frame().model_dump().values())


def test_lists_in_a_model_cannot_be_changed_either() -> None:
    section = Section.model_validate({"photos": [{"file": "a.jpg"}]})
    assert isinstance(section.photos, tuple)
    assert hash(section)


OPENING = Opening.model_validate(full_opening())


def test_every_photograph_is_given_with_its_place() -> None:
    found = {named.photo.file: named.path for named in photos_named(OPENING)}
    assert found["W-1.01-joint.jpg"] == ("frame", "photos", 1)
    assert len(found) == 5


def test_every_part_is_given_once() -> None:
    paths = [path for path, _ in parts(OPENING)]
    assert len(paths) == len(set(paths))
    assert ("frame", "pieces", "left", "beads") in paths
