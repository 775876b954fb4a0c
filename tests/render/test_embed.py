import io
from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pikepdf
import pytest

from revealbook.render.embed import Attachment, in_order
from revealbook.render.pdf import typeset

MADE = datetime.fromisoformat("2026-11-20T00:30:00+01:00")
ONE = Attachment("record.yaml", b"a: 1\n", "The record, naïve", "application/yaml", "Source", MADE)


def embedded(*attachments: Attachment, root: Path) -> Iterator[Any]:
    page = '<html lang="en"><title>t</title><p style="font-family: Fira Sans">a'
    pdf = typeset(page, roots=(root,), attachments=attachments, made=datetime(2020, 1, 1, tzinfo=UTC)).pdf
    with pikepdf.open(io.BytesIO(pdf)) as document:
        names = list(document.Root.Names.EmbeddedFiles.Names)
        listed = [str(one.UF) for one in document.Root.AF]
        assert [str(name) for name in names[::2]] == listed, "each listed once"
        yield from document.Root.AF


def test_a_file_comes_out_as_it_went_in_with_all_that_was_said_of_it(tmp_path: Path) -> None:
    files = embedded(ONE, root=tmp_path)
    found = next(files)
    assert found.EF.F.read_bytes() == ONE.content
    assert str(found.Desc) == "The record, naïve"
    assert str(found.AFRelationship) == "/Source"
    assert str(found.EF.F.Subtype) == "/application/yaml"
    assert str(found.EF.F.Params.ModDate) == "D:20261119233000Z"
    assert str(found.EF.F.Params.CreationDate) == "D:20261119233000Z"


def test_two_files_of_equal_bytes_keep_their_own_relationship(tmp_path: Path) -> None:
    two = replace(ONE, name="again.json", relationship="Data", media_type="application/json")
    found = embedded(ONE, two, root=tmp_path)
    assert [(str(one.UF), str(one.AFRelationship), str(one.EF.F.Subtype)) for one in found] == [
        ("again.json", "/Data", "/application/json"),
        ("record.yaml", "/Source", "/application/yaml"),
    ]


def test_files_are_sorted_by_the_bytes_of_their_names() -> None:
    names = ["ä.txt", "b.txt", "Z.txt", "W-10.yaml", "W-1.yaml"]
    ordered = in_order([replace(ONE, name=name) for name in names])
    assert [one.name for one in ordered] == ["W-1.yaml", "W-10.yaml", "Z.txt", "b.txt", "ä.txt"]


def test_two_files_of_one_name_are_refused() -> None:
    with pytest.raises(ValueError, match=r"Two embedded files are called record\.yaml"):
        in_order([ONE, replace(ONE, content=b"")])


@pytest.mark.parametrize("name", ["", ".", "..", "a/b.yaml", "/a", "a\\b", "a\nb", "  "])
def test_a_name_is_flat_and_printable(name: str) -> None:
    with pytest.raises(ValueError, match="no name for an embedded file"):
        replace(ONE, name=name)


@pytest.mark.parametrize("media_type", ["yaml", "a/b/c", "", "text/yäml"])
def test_a_media_type_has_two_parts(media_type: str) -> None:
    with pytest.raises(ValueError, match="no media type"):
        replace(ONE, media_type=media_type)


def test_a_time_without_zone_is_refused() -> None:
    with pytest.raises(ValueError, match="has no zone"):
        replace(ONE, modified=datetime(2026, 11, 20))  # noqa: DTZ001 - that is the point
