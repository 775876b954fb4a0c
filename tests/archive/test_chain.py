"""Heads: each stands for its version and all before it."""

from hashlib import sha256

from revealbook.archive.chain import BEFORE_THE_FIRST, head, head_text, heads

ONE = {"b.txt": "22", "a.txt": "11", "Z": "33"}
TWO = {"a.txt": "11"}


def test_the_text_behind_a_head_can_be_written_by_hand() -> None:
    assert head_text("ab12", "larch-court", 3, ONE) == "ab12\nlarch-court\n3\n33  Z\n11  a.txt\n22  b.txt\n"


def test_a_head_is_the_sha_256_of_that_text() -> None:
    assert head("ab12", "s", 3, TWO) == sha256(b"ab12\ns\n3\n11  a.txt\n").hexdigest()


def test_a_head_of_a_path_beyond_ascii_counts_utf_8() -> None:
    assert head("0", "s", 1, {"ü": "11"}) == sha256("0\ns\n1\n11  ü\n".encode()).hexdigest()


def test_heads_begin_at_64_zeros_and_each_holds_the_one_before() -> None:
    first, second = heads("s", [ONE, TWO])
    assert first == head("0" * 64, "s", 1, ONE)
    assert second == head(first, "s", 2, TWO)
    assert BEFORE_THE_FIRST == "0" * 64


def test_a_change_in_any_version_changes_every_later_head() -> None:
    before, after = heads("s", [ONE, TWO, TWO]), heads("s", [ONE | {"Z": "34"}, TWO, TWO])
    assert all(one != other for one, other in zip(before, after, strict=True))


def test_the_same_content_in_another_site_or_place_has_another_head() -> None:
    found = [head("0", "s", 1, TWO), head("0", "t", 1, TWO), head("0", "s", 2, TWO), head("1", "s", 1, TWO)]
    assert len(set(found)) == 4
