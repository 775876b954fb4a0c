from pathlib import Path

from tests.setting_out.followed import SITE
from tests.setting_out.rules import PRACTICE

from revealbook.records.load import Folder, load_records, look_into
from revealbook.records.opening import Identity
from revealbook.records.record import Record
from revealbook.records.site import Site
from revealbook.setting_out.blank_records import write_blank_records
from revealbook.setting_out.plan import OpeningPlan
from revealbook.setting_out.refusal import NotPossible
from revealbook.setting_out.schedule import Listed

BY_SCHEDULE = [
    Listed(2, Identity(mark="W-1.01", width_mm=1230, height_mm=1480)),
    Listed(3, Identity(mark="W-1.02", width_mm=885)),
]
OF_SITE = Site.model_validate(SITE)


def test_each_opening_gets_a_record_that_can_be_read(tmp_path: Path) -> None:
    (tmp_path / "site.yaml").write_text("id: alder-yard\n", encoding="utf-8")
    first, second = write_blank_records(tmp_path, OF_SITE, PRACTICE, BY_SCHEDULE)
    assert (first.made, second.made) == (True, True)
    assert isinstance(first.plan, OpeningPlan)
    assert isinstance(second.plan, NotPossible)
    folder = look_into(tmp_path)
    assert isinstance(folder, Folder)
    records = list(load_records(folder, OF_SITE))
    assert all(isinstance(record, Record) for record in records), records
    identities = [record.opening.opening for record in records if isinstance(record, Record)]
    assert identities == [one.identity for one in BY_SCHEDULE]
    assert "planned" in first.file.read_text(encoding="utf-8")
    assert "planned" not in second.file.read_text(encoding="utf-8")


def test_a_record_that_is_there_is_never_touched(tmp_path: Path) -> None:
    (first, _) = write_blank_records(tmp_path, OF_SITE, PRACTICE, BY_SCHEDULE)
    first.file.write_text("measured\n", encoding="utf-8")
    again = write_blank_records(tmp_path, OF_SITE, PRACTICE, BY_SCHEDULE)
    assert [one.made for one in again] == [False, False]
    assert first.file.read_text(encoding="utf-8") == "measured\n"
