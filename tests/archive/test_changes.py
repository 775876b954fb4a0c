"""What was changed since a signature is found, named, and told from another signature."""

from collections.abc import Callable
from io import BytesIO
from typing import Any

import pikepdf
import pytest
from pyhanko.pdf_utils import generic as pdf_objects
from pyhanko.pdf_utils.generic import pdf_name
from tests.archive.packs import appended, appended_raw, signed_once, signed_twice, small_pack

from revealbook.archive.changes import Changes, changes_since

generic: Any = pdf_objects  # typed in part only


def since_signed(change: Callable[[Any], None]) -> Changes:
    return changes_since(signed_once(), appended(signed_once(), change))


def first_page(writer: Any) -> Any:
    return writer.root["/Pages"]["/Kids"][0]


def new_page_content(writer: Any) -> None:
    page = first_page(writer)
    page["/Contents"] = writer.add_object(generic.StreamObject(stream_data=b"BT ET"))
    writer.update_container(page)


def content_in_place(writer: Any) -> None:
    content = first_page(writer)["/Contents"]
    content._data = content.data + b" "
    content._encoded_data = None
    writer.update_container(content)


def content_of_the_same_length(writer: Any) -> None:
    """As long when packed, too: only the bytes tell."""
    content = first_page(writer)["/Contents"]
    packed = content.encoded_data
    content._encoded_data = packed[:-1] + bytes([packed[-1] ^ 1])
    writer.update_container(content)


def content_read_otherwise(writer: Any) -> None:
    """The same bytes, unpacked in another way."""
    content = first_page(writer)["/Contents"]
    packed = content.encoded_data
    content[pdf_name("/DecodeParms")] = generic.DictionaryObject(
        {pdf_name("/Predictor"): generic.NumberObject(2)}
    )
    content._encoded_data = packed
    writer.update_container(content)


def a_note_taken_away(writer: Any) -> None:
    page = first_page(writer)
    notes = page["/Annots"]
    del notes[0]
    writer.update_container(notes)
    writer.update_container(page)


def the_installers_field_taken_away(writer: Any) -> None:
    fields = writer.root["/AcroForm"]["/Fields"]
    del fields[0]
    writer.update_container(fields)


def another_record(writer: Any) -> None:
    names = writer.root["/Names"]["/EmbeddedFiles"]["/Names"]
    assert names[0] == "openings__W-1.01.yaml"
    stream = names[1]["/EF"]["/F"]
    stream._data = b"mark: W-9.99\n"
    stream._encoded_data = None
    writer.update_container(stream)


def note_on_page(writer: Any, **more: Any) -> None:
    page = first_page(writer)
    note = {"/Type": "/Annot", "/Subtype": "/Widget", "/FT": "/Sig", "/Rect": [0, 0, 0, 0], **more}
    made = generic.DictionaryObject({pdf_name(key): _plain(value) for key, value in note.items()})
    page.setdefault(pdf_name("/Annots"), generic.ArrayObject()).append(writer.add_object(made))
    writer.update_container(page["/Annots"])
    writer.update_container(page)


def _plain(value: Any) -> Any:
    if isinstance(value, list):
        return generic.ArrayObject(generic.NumberObject(one) for one in value)
    return generic.pdf_name(value) if value.startswith("/") else generic.TextStringObject(value)


def other_language(writer: Any) -> None:
    writer.root[pdf_name("/Lang")] = generic.TextStringObject("xx")
    writer.update_root()


def unused_object(writer: Any) -> None:
    writer.add_object(generic.DictionaryObject())


def test_nothing_changed_in_the_same_bytes() -> None:
    assert changes_since(signed_once(), signed_once()) == Changes()


def test_another_signature_is_named_and_harmless() -> None:
    changes = changes_since(signed_once(), signed_twice())
    assert changes == Changes(signed_by=("clerk of works",))
    assert changes.harmless


@pytest.mark.parametrize(
    ("change", "named"),
    [
        (new_page_content, "page 1"),
        (content_in_place, "page 1"),
        (content_of_the_same_length, "page 1"),
        (content_read_otherwise, "page 1"),
        (a_note_taken_away, "page 1"),
        (note_on_page, "page 1"),
        (another_record, "the file openings__W-1.01.yaml inside"),
        (other_language, "the file's root"),
    ],
)
def test_what_was_changed_is_named(change: Callable[[Any], None], named: str) -> None:
    changes = since_signed(change)
    assert not changes.harmless
    assert named in changes.other


def test_a_signature_taken_out_of_the_list_is_reported() -> None:
    assert any(one.startswith("object") for one in since_signed(the_installers_field_taken_away).other)


def test_a_file_that_starts_from_elsewhere_is_reported() -> None:
    """No object changed; only the file's own index names another one for its properties."""
    forged = appended_raw(signed_once(), "0 0", Info="1 0 R")
    assert changes_since(signed_once(), forged).other == ("the file's root",)


def test_an_object_that_was_freed_is_reported() -> None:
    with pikepdf.open(BytesIO(signed_once())) as pdf:
        number = pdf.pages[0].obj.Contents.objgen[0]
    forged = appended_raw(signed_once(), f"{number} 1\n0000000000 00001 f ")
    assert "page 1" in changes_since(signed_once(), forged).other


def test_an_object_that_nothing_uses_is_still_reported() -> None:
    assert any("which was added" in one for one in since_signed(unused_object).other)


def test_properties_brought_up_to_date_by_another_tool_are_reported() -> None:
    assert "the properties of the file" in since_signed(unused_object).other


def field(writer: Any, **odd: Any) -> None:
    """Append a signature field as the clerk's is, or with something odd about it."""
    kind = pdf_name(odd.pop("kind", "/Sig"))
    signature = writer.add_object(generic.DictionaryObject({pdf_name("/Type"): kind}))
    plain = {"/Type": "/Annot", "/Subtype": "/Widget", "/FT": "/Sig", "/T": "client", "/Rect": [0, 0, 0, 0]}
    entries = {pdf_name(key): _plain(value) for key, value in plain.items()} | {pdf_name("/V"): signature}
    entries |= {pdf_name(f"/{key}"): _plain(value) for key, value in odd.items() if value}
    for key in (key for key, value in odd.items() if not value):
        del entries[pdf_name(f"/{key}")]
    fields = writer.root["/AcroForm"]["/Fields"]
    fields.append(writer.add_object(generic.DictionaryObject(entries)))
    writer.update_container(fields)


def test_a_plain_signature_field_is_taken_for_a_signature() -> None:
    assert since_signed(field).signed_by == ("client",)


@pytest.mark.parametrize(
    "odd",
    [
        {"Rect": [0, 0, 600, 800]},
        {"AP": "/Looks"},
        {"A": "/Script"},
        {"FT": "/Tx"},
        {"Subtype": "/Link"},
        {"V": None},
        {"V": "/Sig"},
        {"Kids": [0]},
        {"kind": "/Action"},
    ],
    ids=str,
)
def test_a_field_that_shows_or_does_something_is_no_mere_signature(odd: dict[str, Any]) -> None:
    changes = since_signed(lambda writer: field(writer, **odd))
    assert changes.signed_by == ()
    assert any("which was added" in one for one in changes.other)


def test_what_is_no_pdf_is_not_compared() -> None:
    with pytest.raises(pikepdf.PdfError):
        changes_since(small_pack()[:500], small_pack())
