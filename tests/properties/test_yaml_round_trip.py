from io import StringIO
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st
from ruamel.yaml import YAML

from revealbook.source.follow import at
from revealbook.source.problem import Problem
from revealbook.source.read import Document, read_bytes
from revealbook.source.scalars import as_written, meaning

# without what YAML 1.1 takes for a line break and 1.2 does not, and what no keyboard gives
ALPHABET = st.characters(codec="utf-8", exclude_categories=("Cs", "Cc", "Cn", "Co", "Zl", "Zp"))
# libyaml refuses, as a slip, a plain word that begins with a colon or a question mark
TEXT = st.text(ALPHABET, max_size=30).filter(lambda text: not text.startswith((":", "?"))) | st.sampled_from(
    ["no", "on", "Yes", "08:10", "0412", "12E5", "2.50", "null", "~", "2026-11-20", ".nan", "- x", "a: b",
     "# c", "", " ", "'", '"', "[", "{", "*a", "&a", "!a", "<<", "?", "|", ">", "%a", "@a", "`", "\ufeff"]
)  # fmt: skip
SCALARS = (
    TEXT
    | st.booleans()
    | st.none()
    | st.integers(-(10**17) + 1, 10**17)
    | st.floats(allow_nan=False, allow_infinity=False)
)
DATA = st.recursive(
    SCALARS,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(TEXT, inner, max_size=4),
    max_leaves=25,
)


def dumped(data: object) -> str:
    """Write data as YAML 1.2, flow or block as the writer likes."""
    writer = YAML(typ="safe", pure=True)
    writer.allow_unicode = True
    writer.width = 10**6  # keys folded over two lines are refused, as a slip
    writer.representer.ignore_aliases = lambda _data: True
    out = StringIO()
    writer.dump(data, out)
    return out.getvalue()


@given(DATA)
@settings(max_examples=150, deadline=None)
def test_plain_data_written_by_another_library_reads_back_the_same(data: object) -> None:
    document = read_bytes(dumped(data).encode(), "f")
    assert isinstance(document, Document), document
    assert document.data == data


@given(st.dictionaries(st.text("abcdefgh_", min_size=1, max_size=12), DATA, min_size=1, max_size=5))
@settings(max_examples=100, deadline=None)
def test_every_place_points_at_the_text_of_its_key(data: dict[str, Any]) -> None:
    text = dumped(data)
    document = read_bytes(text.encode(), "f")
    assert isinstance(document, Document), document
    lines = text.split("\n")
    for key in data:
        place = at(document.marks, (key,), "f")
        assert lines[place.line - 1][place.column - 1 :].lstrip("\"'? ").startswith(key)


@given(st.binary(max_size=200))
@settings(max_examples=300, deadline=None)
def test_no_bytes_bring_the_reader_down(raw: bytes) -> None:
    assert isinstance(read_bytes(raw, "f"), Document | Problem)


@given(st.text(st.sampled_from("ab:-?[]{},&*!|>'\"%@`# \n\t01.~<=\\\r\x00\x85é"), max_size=60))
@settings(max_examples=500, deadline=None)
def test_no_text_brings_the_reader_down(text: str) -> None:
    found = read_bytes(text.encode(), "f")
    assert isinstance(found, Document | Problem)
    if isinstance(found, Problem):
        assert 0 <= found.place.line <= text.count("\n") + text.count("\r") + text.count("\x85") + 2


@given(st.from_regex(r"[-+]?[0-9.eE+-]{1,30}", fullmatch=True))
@settings(max_examples=300, deadline=None)
def test_whatever_looks_like_a_number_keeps_its_text(text: str) -> None:
    assert as_written(meaning(text)) == text
