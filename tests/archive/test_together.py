"""Packs of one site put together: what contradicts is refused by name."""

from hashlib import sha256
from pathlib import Path

import pytest
from tests.archive.plain_packs import in_volumes, typeset, variants, whole_pack
from tests.made import judged
from tests.site_folders import change, small_site

from revealbook.archive.given import GivenPack, read_pack
from revealbook.archive.refusal import Refused
from revealbook.archive.together import by_site, differing, put_together
from revealbook.making.pack import pack_of
from revealbook.present.volumes import VolumeLine, index_of
from revealbook.present.words import words_in

PLACES = {"A-1": ("A", "1"), "B-1": ("B", "1")}


@pytest.fixture
def site(tmp_path: Path) -> Path:
    return small_site(tmp_path / "site", PLACES)


def refused(*packs: Path) -> str:
    with pytest.raises(Refused) as reason:
        put_together([read_pack(pack) for pack in packs])
    return str(reason.value)


def moved(pack: Path, to: str) -> Path:
    """Put a pack aside under another name."""
    return pack.rename(pack.parent / to)


def test_a_whole_pack_gives_its_openings_files_and_photographs(site: Path) -> None:
    together = put_together([read_pack(whole_pack(site))])
    assert together.site == "alder-yard"
    assert [opening.mark for opening in together.judged.openings] == ["A-1", "B-1"]
    assert together.photos == ("A-1.jpg", "B-1.jpg")
    assert {"site.yaml", "openings/A-1.yaml", "rules/few.yaml"} <= together.carried.keys()
    assert not {"findings.json", "volumes.json"} & together.carried.keys()


def test_volumes_with_their_index_give_every_opening_once(site: Path) -> None:
    together = put_together([read_pack(pack) for pack in in_volumes(site)])
    assert sorted(opening.mark for opening in together.judged.openings) == ["A-1", "B-1"]
    assert "volumes.json" not in together.carried


def test_volumes_without_an_index_give_all_their_openings(site: Path) -> None:
    *volumes, _ = in_volumes(site)
    together = put_together([read_pack(pack) for pack in volumes])
    assert [opening.mark for opening in together.judged.openings] == ["A-1", "B-1"]


def test_a_volume_that_the_index_names_and_nobody_gave_is_named(site: Path) -> None:
    first, _, index = in_volumes(site)
    assert refused(first, index) == (
        "alder-yard-index.pdf names the volume alder-yard-building-B.pdf, which was not given."
    )


def test_a_volume_that_is_not_the_one_of_the_index_is_named(site: Path, tmp_path: Path) -> None:
    first, second, index = in_volumes(site)
    (other,) = variants(second, tmp_path / "other", 1)
    other.replace(second)
    assert "alder-yard-building-B.pdf is not the volume that alder-yard-index.pdf names" in refused(
        first, second, index
    )


def test_a_pack_that_the_index_does_not_name_is_named(site: Path) -> None:
    *volumes, index = in_volumes(site)
    assert refused(*volumes, index, whole_pack(site)) == (
        "alder-yard-index.pdf does not name the volume alder-yard.pdf."
    )


def test_a_record_that_the_index_carries_and_no_volume_shows_is_named(site: Path) -> None:
    first, _, _ = in_volumes(site)
    given, found = read_pack(first), judged(site)
    line = VolumeLine("A", first.name, 1, 1, given.fingerprint, sha256(first.read_bytes()).hexdigest())
    short = typeset(index_of(pack_of(found), [line], words_in("en")), site / "pack" / "short.pdf")
    assert refused(first, short) == "short.pdf carries records that stand in no volume: openings/B-1.yaml."


def test_two_packs_with_another_record_of_one_opening_contradict(site: Path) -> None:
    first = moved(whole_pack(site), "first.pdf")
    change(site / "openings" / "A-1.yaml", "overlap_left_mm: 82", "overlap_left_mm: 83")
    assert refused(first, whole_pack(site)) == (
        "alder-yard.pdf carries another openings/A-1.yaml than the packs given with it."
    )


def test_two_packs_with_another_site_file_contradict(site: Path) -> None:
    first = moved(whole_pack(site), "first.pdf")
    text = (site / "site.yaml").read_text(encoding="utf-8")
    (site / "site.yaml").write_text(f"{text}# more\n", encoding="utf-8")
    assert "carries another site.yaml" in refused(first, whole_pack(site))


def test_two_packs_judged_by_different_rules_contradict(site: Path) -> None:
    first = moved(whole_pack(site), "first.pdf")
    overlay = (
        "overlay: a rule more\nadd:\n  - {id: own, stage: frame, requirement: Wider., measure: frame_overlap,"
    )
    overlay += " at_least: 90, unit: mm, grade: minor, why: w, remedy: r, basis: {kind: common practice}}\n"
    (site / "rules" / "more.yaml").write_text(overlay, encoding="utf-8")
    assert refused(first, whole_pack(site)) == (
        "first.pdf and alder-yard.pdf were judged by different rules: rules/more.yaml."
    )


def test_one_opening_in_two_records_contradicts(site: Path) -> None:
    first = moved(whole_pack(site), "first.pdf")
    (site / "openings" / "west").mkdir()
    (site / "openings" / "A-1.yaml").rename(site / "openings" / "west" / "A-1.yaml")
    assert refused(first, whole_pack(site)) == (
        "Two records are of opening A-1: openings/A-1.yaml and openings/west/A-1.yaml."
    )


def test_two_packs_of_one_name_cannot_lie_beside_one_another(site: Path, tmp_path: Path) -> None:
    pack = whole_pack(site)
    (other,) = variants(pack, tmp_path / "other", 1)
    other = other.rename(other.parent / "Alder-Yard.pdf")
    assert refused(pack, other) == f"{pack} and {other} have one name; give one of them another."


def test_packs_of_two_sites_are_no_one_version_but_can_be_divided(site: Path) -> None:
    first = read_pack(whole_pack(site))
    change(site / "site.yaml", "id: alder-yard", "id: acer-yard")
    second = read_pack(whole_pack(site))
    with pytest.raises(Refused, match=r"several sites .*: acer-yard, alder-yard"):
        put_together([first, second])
    divided: tuple[tuple[GivenPack, ...], ...] = by_site([first, second, first])
    assert divided == ((second,), (first, first))


def test_files_that_differ_from_the_folder_are_told_with_how(site: Path) -> None:
    together = put_together([read_pack(pack) for pack in in_volumes(site)])
    assert differing(site, together) == ()
    change(site / "openings" / "A-1.yaml", "overlap_left_mm: 82", "overlap_left_mm: 83")
    (site / "openings" / "B-1.yaml").rename(site / "openings" / "B-2.yaml")
    assert differing(site, together) == (
        "openings/A-1.yaml: changed since",
        "openings/B-1.yaml: only in the pack",
        "openings/B-2.yaml: not in the pack",
    )


def test_what_is_no_site_folder_differs_from_nothing(site: Path) -> None:
    together = put_together([read_pack(whole_pack(site))])
    with pytest.raises(Refused, match=r"no site\.yaml"):
        differing(site / "photos", together)
