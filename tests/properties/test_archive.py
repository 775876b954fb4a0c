"""Laws of the archive: whatever is filed in whatever order, every version stays as it was given."""

from collections.abc import Iterable
from hashlib import sha512
from pathlib import Path
from tempfile import TemporaryDirectory

from hypothesis import given, settings
from hypothesis import strategies as st
from tests.archive.archives import WHEN, content_of, outside_objections

from revealbook.archive.chain import heads
from revealbook.archive.names import ContentNames, check_paths
from revealbook.archive.refusal import Refused
from revealbook.archive.store import Archive

_SIGN = st.sampled_from("aAbB .~%:-") | st.characters(
    exclude_categories=["Cc", "Cs"], exclude_characters="/\\"
)
_PART = st.text(_SIGN, min_size=1, max_size=6).filter(lambda part: part not in {".", ".."})
_PATH = st.lists(_PART, min_size=1, max_size=3).map("/".join)
_CONTENT = st.sampled_from([b"", b"one", b"two", b"three"])


def _possible(paths: Iterable[str]) -> bool:
    try:
        check_paths(list(paths))
    except Refused:
        return False
    return True


_FILES = st.dictionaries(_PATH, _CONTENT, min_size=1, max_size=5).filter(_possible)
_FILING = st.tuples(st.sampled_from(["s", "larch-court"]), _FILES, st.booleans())


@settings(max_examples=10, deadline=None)
@given(st.lists(_FILING, min_size=1, max_size=6))
def test_every_version_ever_filed_stays_readable_byte_for_byte(
    filings: list[tuple[str, dict[str, bytes], bool]],
) -> None:
    with TemporaryDirectory() as name:
        archive = Archive.create(Path(name, "archive"))
        expected: dict[str, list[dict[str, bytes]]] = {}
        for site, files, carry in filings:
            known = expected.setdefault(site, [])
            held = {**known[-1], **files} if carry and known else files
            if not _possible(held):
                continue
            filed = archive.add(
                site, files, user="ada", message="m", created=WHEN, keep=("",) if carry else ()
            )  # fmt: skip
            assert filed.new == (not known or known[-1] != held)
            if filed.new:
                known.append(held)
        for site, versions in expected.items():
            found = [content_of(archive, site, number) for number in range(1, len(versions) + 1)]
            assert found == versions
            assert len(archive.versions(site)) == len(versions)
        assert outside_objections(archive.path) == []


@settings(max_examples=50)
@given(st.lists(_PATH, max_size=12, unique=True))
def test_content_paths_never_meet_on_any_file_system(paths: list[str]) -> None:
    names = ContentNames()
    given_out = [names.give("v1/content", path) for path in paths]
    assert len({path.casefold() for path in given_out}) == len(paths)
    assert all(not set(part) & set('<>:"|?*\\') for path in given_out for part in path.split("/"))
    assert all(part and part[-1] not in ". " for path in given_out for part in path.split("/"))


_STATE = st.dictionaries(_PATH, _CONTENT.map(lambda raw: sha512(raw).hexdigest()), min_size=1, max_size=4)


@settings(max_examples=50)
@given(st.lists(_STATE, min_size=1, max_size=5), st.data())
def test_a_change_in_one_version_changes_its_head_and_all_later_ones_and_no_earlier(
    states: list[dict[str, str]], data: st.DataObject
) -> None:
    where = data.draw(st.integers(0, len(states) - 1))
    path = data.draw(st.sampled_from(sorted(states[where])))
    changed = [dict(state) for state in states]
    changed[where][path] = sha512(b"changed").hexdigest()
    before, after = heads("s", states), heads("s", changed)
    assert before[:where] == after[:where]
    assert not set(before[where:]) & set(after[where:])


@settings(max_examples=50)
@given(st.lists(_STATE, min_size=2, max_size=5))
def test_a_history_that_was_taken_back_has_another_head(states: list[dict[str, str]]) -> None:
    whole = heads("s", states)
    assert all(heads("s", states[:number])[-1] != whole[-1] for number in range(1, len(states)))
