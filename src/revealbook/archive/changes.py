"""What changed in a PDF since a signature: everything in it compared with everything in the signed state.

An update appended to a PDF shows only in what it makes of the objects that were there. So the state that was
signed and the state now are both opened and compared object by object. One thing may differ: another
invisible signature. That is stricter than the permission "fill in forms and sign" (DocMDP, ISO 32000-1,
12.8.2.2): a pack has no forms, and `revealbook sign` leaves title, author and dates as they are.
"""

from collections.abc import Iterator
from contextlib import ExitStack
from dataclasses import dataclass
from io import BytesIO
from typing import Any

import pikepdf

_WIDGET_KEYS = {"/Type", "/Subtype", "/FT", "/T", "/Rect", "/F", "/P", "/V", "/Lock"}
_OF_THE_FILE = {"/Size", "/Prev", "/Index", "/Length", "/ID", "/W", "/Filter", "/DecodeParms", "/Type"}


@dataclass(frozen=True, slots=True)
class Changes:
    """What changed.

    Attributes:
        signed_by: fields of the signatures that were added.
        other: everything else that differs, in plain words; nothing of it may.
    """

    signed_by: tuple[str, ...] = ()
    other: tuple[str, ...] = ()

    @property
    def harmless(self) -> bool:
        """Whether nothing but signatures was added."""
        return not self.other


NOTHING = Changes()
"""Nothing changed."""


@dataclass(frozen=True, slots=True)
class _Permitted:
    """What another signature brings along.

    Attributes:
        widgets: references to the added fields.
        added: identities of the added fields and their signatures.
        lists: identities of the lists that added fields may be appended to.
    """

    widgets: frozenset[bytes]
    added: frozenset[tuple[int, int]]
    lists: frozenset[tuple[int, int]]


def changes_since(signed: bytes, now: bytes) -> Changes:
    """Compare a PDF with the state in which it was signed.

    Args:
        signed: the file up to the end of the signed revision.
        now: the whole file.

    Raises:
        pikepdf.PdfError: one of them cannot be read.
    """
    if signed == now:
        return NOTHING
    with ExitStack() as opened:
        old, new = (
            opened.enter_context(pikepdf.open(BytesIO(data), attempt_recovery=False))
            for data in (signed, now)
        )
        fields = tuple(_added_fields(old, new))
        permitted = _permitted(old, fields)
        differing = dict.fromkeys(_differing(old, new, permitted))
        return Changes(tuple(str(field.T) for field in fields), tuple(differing))


def _differing(old: pikepdf.Pdf, new: pikepdf.Pdf, permitted: _Permitted) -> Iterator[str]:
    before = {one.objgen: one for one in old.objects}
    after = {one.objgen: one for one in new.objects}
    for number, one in before.items():
        if number not in after or not _same(one, after[number], permitted):
            yield _named(old, number)
    for number in after.keys() - before.keys() - permitted.added:
        if not _is_index(after[number]):
            yield f"object {number[0]}, which was added"
    if _trailer(old) != _trailer(new):
        yield "the file's root"


def _added_fields(old: pikepdf.Pdf, new: pikepdf.Pdf) -> Iterator[Any]:
    """Give the signature fields that are new, each one invisible and with nothing else to it."""
    most = max(one.objgen[0] for one in old.objects)
    for field in new.Root.get("/AcroForm", pikepdf.Dictionary()).get("/Fields", pikepdf.Array()):
        if _is_invisible_signature(field, most):
            yield field


def _is_invisible_signature(field: Any, most: int) -> bool:
    return (
        isinstance(field, pikepdf.Dictionary)
        and field.objgen[0] > most
        and set(field.keys()) <= _WIDGET_KEYS
        and field.get("/FT") == "/Sig"
        and field.get("/Subtype") == "/Widget"
        and [float(side) for side in field.get("/Rect", ())] == [0, 0, 0, 0]
        and isinstance(field.get("/V"), pikepdf.Dictionary)
        and field.V.get("/Type") == "/Sig"
    )


def _permitted(old: pikepdf.Pdf, fields: tuple[Any, ...]) -> _Permitted:
    lists = {page.obj.Annots.objgen for page in old.pages if "/Annots" in page.obj}
    lists.add(old.Root.AcroForm.Fields.objgen)
    return _Permitted(
        widgets=frozenset(b"%d %d R" % field.objgen for field in fields),
        added=frozenset(one.objgen for field in fields for one in (field, field.V)),
        lists=frozenset(lists - {(0, 0)}),
    )


def _is_index(found: Any) -> bool:
    """Whether an object only tells where others lie in the file."""
    return isinstance(found, pikepdf.Stream) and found.get("/Type") in {"/XRef", "/ObjStm"}


def _same(old: Any, new: Any, permitted: _Permitted) -> bool:
    if isinstance(old, pikepdf.Stream) or isinstance(new, pikepdf.Stream):
        return _same_stream(old, new)
    if old.unparse(resolved=True) == new.unparse(resolved=True):
        return True
    if old.objgen in permitted.lists:
        return _same_list(old, new, permitted)
    if not isinstance(old, pikepdf.Dictionary) or not isinstance(new, pikepdf.Dictionary):
        return False
    return all(_same_entry(key, old, new, permitted) for key in {*old.keys(), *new.keys()})


def _same_entry(key: str, old: Any, new: Any, permitted: _Permitted) -> bool:
    before, after = old.get(key), new.get(key)
    if key == "/Fields" or (key == "/Annots" and old.get("/Type") == "/Page"):
        return _same_list(pikepdf.Array() if before is None else before, after, permitted)
    return _written(before) == _written(after)


def _same_list(old: Any, new: Any, permitted: _Permitted) -> bool:
    """Whether a list of references is as it was, with nothing but added signatures behind it."""
    if not isinstance(old, pikepdf.Array) or not isinstance(new, pikepdf.Array):
        return _written(old) == _written(new)
    before, after = [_written(one) for one in old], [_written(one) for one in new]
    return after[: len(before)] == before and set(after[len(before) :]) <= permitted.widgets


def _written(found: Any) -> bytes:
    if found is None:
        return b"absent"
    return bytes(found.unparse()) if isinstance(found, pikepdf.Object) else repr(found).encode()


def _same_stream(old: Any, new: Any) -> bool:
    return (
        isinstance(old, pikepdf.Stream)
        and isinstance(new, pikepdf.Stream)
        and old.stream_dict.unparse() == new.stream_dict.unparse()
        and old.read_raw_bytes() == new.read_raw_bytes()
    )


def _trailer(pdf: pikepdf.Pdf) -> dict[str, bytes]:
    keys = {str(key) for key in pdf.trailer.keys()} - _OF_THE_FILE  # noqa: SIM118 - not a dict
    kept = {key: _written(pdf.trailer.get(key)) for key in keys}
    return kept | {"first id": _written(pdf.trailer.ID[0]) if "/ID" in pdf.trailer else b""}


def _named(pdf: pikepdf.Pdf, number: tuple[int, int]) -> str:
    """Say what an object is to the reader of the pack."""
    return next((what for what, known in _places(pdf) if known == number), f"object {number[0]}")


def _places(pdf: pikepdf.Pdf) -> Iterator[tuple[str, tuple[int, int]]]:
    yield "the file's root", pdf.Root.objgen
    for number, page in enumerate(pdf.pages, start=1):
        yield f"page {number}", page.obj.objgen
        contents = page.obj.get("/Contents", pikepdf.Array())
        for part in contents if isinstance(contents, pikepdf.Array) else [contents]:
            yield f"page {number}", part.objgen
    for name, file in pdf.attachments.items():
        yield f"the file {name} inside", file.obj.objgen
        yield f"the file {name} inside", file.obj.EF.F.objgen
    for kind, holder in (("/Info", pdf.trailer), ("/Metadata", pdf.Root)):
        if kind in holder:
            yield "the properties of the file", holder[kind].objgen
