"""The example site shows what its README says, opening by opening and rule by rule."""

import subprocess
import sys
from collections.abc import Iterator
from datetime import datetime
from itertools import chain
from pathlib import Path

import pytest
from PIL import ExifTags, Image, ImageChops, ImageOps, ImageStat

from revealbook.measures.measure import measure
from revealbook.measures.work import Surroundings, Work
from revealbook.records.load import Folder, load_records, load_site, look_into
from revealbook.records.part import Photo
from revealbook.records.record import Record, SiteFile
from revealbook.rules.by_building import rules_of_building
from revealbook.rules.finding import Judgement, Outcome
from revealbook.rules.judge import judge
from revealbook.rules.read import read_rules
from revealbook.rules.rule_set import RuleSet, SourceFile

EXAMPLES = Path(__file__).parents[2] / "examples"
SITE = EXAMPLES / "larch-court"
AS_UPLOADED = 2_500_000
BAD, OPEN, ABSENT = Outcome.DOES_NOT_CONFORM, Outcome.UNDECIDED, Outcome.NOT_SHOWN

SHOWN: dict[str, dict[Outcome, set[str]]] = {
    "A-0.01": {},
    "A-0.02": {},
    "A-0.03": {OPEN: {"surface-above-dew-point"}},
    "A-0.04": {BAD: {"fixing-centres"}, OPEN: {"window-square"}},
    "A-0.05": {},
    "A-1.01": {OPEN: {"joint-fixings"}},
    "A-1.02": {},
    "A-1.03": {BAD: {"frame-overlap"}},
    "B-0.01": {BAD: {"foam-set-before-trim"}},
    "B-0.02": {BAD: {"surface-above-dew-point"}},
    "B-1.01": {BAD: {"bond-set-before-load"}, ABSENT: {"photographs-taken"}},
    "B-1.02": {BAD: {"corners-sealed", "ends-sealed", "concessions-entitled"}},
    "B-1.03": {},
    "B-2.01": {BAD: {"products-in-date"}, ABSENT: {"air-in-range", "surface-above-dew-point"}},
    "B-2.02": {BAD: {"fixing-centres", "inner-seal-tighter"}},
}
"""What every finished opening is to show; all other rules conform or do not apply."""
HALF_FILLED = "B-0.03"


def folder() -> Folder:
    found = look_into(SITE)
    assert isinstance(found, Folder)
    return found


def site() -> SiteFile:
    loaded = load_site(folder())
    assert isinstance(loaded, SiteFile), loaded
    return loaded


def records() -> dict[str, Record]:
    loaded = list(load_records(folder(), site().site))
    assert all(isinstance(record, Record) for record in loaded), loaded
    return {record.opening.mark: record for record in loaded if isinstance(record, Record)}


def rules(*, with_overlay: bool = True) -> RuleSet:
    overlays = [SourceFile(file.name, file.read_bytes()) for file in folder().overlays]
    asked = site().site.rules
    found = read_rules(asked.set, asked.edition, overlays if with_overlay else ())
    assert isinstance(found, RuleSet), found
    return found


def judged(mark: str, *, with_overlay: bool = True) -> dict[str, Judgement]:
    record, whole = records()[mark], rules(with_overlay=with_overlay)
    in_force = rules_of_building(whole, site().site, record.opening.opening.building)
    work = Work(record.opening, Surroundings.of(site().site, in_force.method))
    return {given.rule_id: given for given in judge(in_force, measure(work, in_force.measures))}


def with_outcome(given: dict[str, Judgement], outcome: Outcome) -> set[str]:
    return {rule for rule, judgement in given.items() if judgement.outcome == outcome}


def photos() -> Iterator[tuple[str, Photo]]:
    for mark, record in records().items():
        opening = record.opening
        sections = (
            opening.survey,
            opening.frame,
            opening.supports,
            opening.plinth,
            opening.window,
            opening.seals,
        )
        named = chain.from_iterable(section.photos or () for section in sections if section is not None)
        found = chain.from_iterable(fault.photos or () for fault in opening.nonconformities)
        yield from ((mark, photo) for photo in chain(named, found))


def test_every_opening_is_in_the_table_of_what_it_shows() -> None:
    assert set(records()) == {*SHOWN, HALF_FILLED}


@pytest.mark.parametrize("mark", SHOWN)
def test_an_opening_shows_exactly_what_it_is_meant_to(mark: str) -> None:
    given = judged(mark)
    for outcome in (BAD, OPEN, ABSENT):
        assert with_outcome(given, outcome) == SHOWN[mark].get(outcome, set()), outcome
    assert with_outcome(given, Outcome.CONFORMS)
    assert with_outcome(given, Outcome.DOES_NOT_APPLY)


CALCULATED = {"fixing-resistance", "fixings-enough", "joint-movement", "mass-plausible", "wind-class"}


@pytest.mark.parametrize("mark", sorted(set(SHOWN)))
def test_building_b_shows_loads_wind_and_movement_and_building_a_goes_without(mark: str) -> None:
    shown = {rule: found.outcome for rule, found in judged(mark).items() if rule in CALCULATED}
    expected = Outcome.CONFORMS if mark.startswith("B") else Outcome.DOES_NOT_APPLY
    assert shown == dict.fromkeys(CALCULATED, expected)


def test_a_half_filled_record_shows_what_was_measured_and_nothing_as_wrong() -> None:
    given = judged(HALF_FILLED)
    assert not with_outcome(given, BAD)
    assert {"frame-overlap", "bottom-length", "substrate-sound"} <= with_outcome(given, Outcome.CONFORMS)
    absent = with_outcome(given, ABSENT)
    assert {"window-plumb", "foam-set-before-trim", "opening-square", "signed-off"} <= absent
    assert len(absent) > len(with_outcome(given, Outcome.CONFORMS))


def test_only_the_sites_own_limit_turns_down_the_tall_window() -> None:
    assert judged("A-0.04", with_overlay=False)["fixing-centres"].outcome == Outcome.CONFORMS
    assert judged("B-2.02", with_overlay=False)["fixing-centres"].outcome == BAD


def test_the_overlay_tightens_one_rule_and_retires_another() -> None:
    in_force = rules()
    (changed,) = [held for held in in_force.rules if held.change is not None]
    assert changed.id == "fixing-centres"
    assert changed.change is not None
    assert changed.change.base is not None
    assert changed.change.base.at_most == 700
    assert changed.rule.at_most == 600
    assert [held.id for held in in_force.retired] == ["frame-protected"]


def test_concessions_stand_beside_the_outcome_and_one_is_not_entitled() -> None:
    entitled = {
        mark: judged(mark)["concessions-entitled"].outcome
        for mark, record in records().items()
        if record.opening.concessions
    }
    assert entitled == {"A-1.03": Outcome.CONFORMS, "B-1.02": BAD, "B-2.01": Outcome.CONFORMS}
    for mark in entitled:
        (conceded,) = records()[mark].opening.concessions
        assert judged(mark)[conceded.rule].outcome == BAD


def test_a_correction_follows_a_failed_hold_point_and_precedes_the_passed_one() -> None:
    opening = records()["B-1.03"].opening
    failed, passed = (point for point in opening.hold_points or () if point.name == "frame")
    (fault,) = opening.nonconformities
    assert fault.correction is not None
    assert (failed.passed, passed.passed) == (False, True)
    moments = [failed.at, fault.correction.at, fault.correction.checked_at]
    assert all(moments)
    assert moments == sorted(moment for moment in moments if moment is not None)
    assert fault.correction.by != fault.correction.checked_by


def test_leading_zeros_of_batches_are_kept_and_a_bad_batch_is_in_one_opening_only() -> None:
    by_batch: dict[str | None, list[str]] = {}
    for mark, record in records().items():
        frame = record.opening.frame
        assert frame is not None
        for application in frame.bonding or ():
            for batch in application.batches or ():
                by_batch.setdefault(batch.number, []).append(mark)
    assert set(by_batch) == {"0412", "0419", "0077", "0398"}
    assert by_batch["0398"] == ["B-2.01"]


def test_joints_are_what_opening_and_window_leave() -> None:
    for mark in SHOWN:
        opening = records()[mark].opening
        assert opening.survey is not None
        assert opening.window is not None
        widths, sides = opening.survey.widths_mm, opening.window.joint_widths_mm
        assert widths is not None
        assert sides is not None
        for across, place in (("bottom", "start"), ("middle", "middle"), ("top", "end")):
            joints = getattr(sides.left, place) + getattr(sides.right, place)
            left_over = getattr(widths, across) - (opening.window.width_mm or 0)
            assert joints == pytest.approx(left_over, abs=1), (mark, place)


def test_every_photograph_is_named_and_captioned_and_shows_its_own_opening() -> None:
    named = list(photos())
    assert frozenset(photo.file for _, photo in named) == folder().photos
    assert all(photo.shows for _, photo in named)
    assert all(mark in photo.file for mark, photo in named)


def test_photographs_stay_small() -> None:
    sizes = [file.stat().st_size for file in (SITE / "photos").iterdir()]
    assert max(sizes) <= 120_000
    assert sum(sizes) <= AS_UPLOADED


def test_photographs_carry_time_and_zone_and_some_were_taken_sideways_and_one_tells_where() -> None:
    turned, placed = set(), set()
    for file in (SITE / "photos").iterdir():
        with Image.open(file) as picture:
            exif = picture.getexif()
            detail = exif.get_ifd(ExifTags.IFD.Exif)
            stamp = f"{detail[ExifTags.Base.DateTimeOriginal]} {detail[ExifTags.Base.OffsetTimeOriginal]}"
            taken = datetime.strptime(stamp, "%Y:%m:%d %H:%M:%S %z")
            assert (taken.year, taken.month, taken.tzname()) == (2026, 11, "UTC+01:00")
            turned.add(exif[ExifTags.Base.Orientation])
            if exif.get_ifd(ExifTags.IFD.GPSInfo):
                placed.add(file.name)
            upright = ImageOps.exif_transpose(picture)
            assert upright.size in {(1200, 928), (696, 928)}
    assert turned == {1, 3, 6, 8}
    assert placed == {"A-1.02-and-A-1.03.jpg"}


@pytest.mark.slow
def test_a_photograph_drawn_again_is_the_same_photograph(tmp_path: Path) -> None:
    name = "B-0.02-climate.jpg"
    drawing = [sys.executable, str(EXAMPLES / "make_photos.py"), name, "--to", str(tmp_path)]
    subprocess.run(drawing, check=True, timeout=120)
    assert [file.name for file in tmp_path.iterdir()] == [name]
    kept, again = SITE / "photos" / name, tmp_path / name
    if kept.read_bytes() == again.read_bytes():
        return
    # Another Pillow or processor may round otherwise; the picture may not differ to the eye.
    with Image.open(kept) as first, Image.open(again) as second:
        assert first.size == second.size
        difference = ImageStat.Stat(ImageChops.difference(first.convert("RGB"), second.convert("RGB")))
    assert max(difference.mean) < 2
