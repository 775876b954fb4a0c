"""Signing: into a new file, in order, only what still holds."""

from io import BytesIO
from pathlib import Path
from time import sleep

import pikepdf
import pytest
from cryptography.hazmat.primitives.asymmetric import rsa
from tests.archive.packs import RECORD, SITE, appended, signed_by, signed_once, signed_twice, small_pack
from tests.archive.people import ada, cleo, somebody
from tests.archive.test_changes import unused_object

from revealbook.archive.signatures import check_signatures
from revealbook.archive.signing import CannotSign, Statement, _laid_out, sign

INSTALLER = Statement("installer")


def written(folder: Path, data: bytes, name: str = "pack.pdf") -> Path:
    file = folder / name
    file.write_bytes(data)
    return file


def refused(folder: Path, data: bytes, statement: Statement = INSTALLER) -> str:
    with pytest.raises(CannotSign) as refusal:
        sign(written(folder, data), folder / "to.pdf", cleo().signing_key, statement)
    assert [file.name for file in folder.iterdir()] == ["pack.pdf"]
    return str(refusal.value)


def test_signing_writes_a_new_file_and_leaves_the_pack_alone(tmp_path: Path) -> None:
    pack = written(tmp_path, small_pack())
    sign(pack, tmp_path / "signed.pdf", ada().signing_key, INSTALLER)
    assert pack.read_bytes() == small_pack()
    assert check_signatures((tmp_path / "signed.pdf").read_bytes()).good
    assert sorted(file.name for file in tmp_path.iterdir()) == ["pack.pdf", "signed.pdf"]


def test_what_is_stated_stands_in_the_signature(tmp_path: Path) -> None:
    stated = Statement("installer", "Ada L.", "Work as recorded", "Nowhere-under-Hill")
    sign(written(tmp_path, small_pack()), tmp_path / "to.pdf", ada().signing_key, stated)
    (found,) = check_signatures((tmp_path / "to.pdf").read_bytes()).signatures
    assert (found.role, found.name, found.reason, found.location) == (
        "installer", "Ada L.", "Work as recorded", "Nowhere-under-Hill",
    )  # fmt: skip


def test_without_a_statement_the_certificates_name_and_the_role_stand_there() -> None:
    (found,) = check_signatures(signed_once()).signatures
    assert (found.name, found.reason, found.location) == ("Ada Laibung", "Signed as installer", "")


def test_the_second_signature_leaves_every_byte_before_it() -> None:
    assert signed_twice().startswith(signed_once())


def test_the_first_signature_lets_nothing_follow_but_signatures() -> None:
    with pikepdf.open(BytesIO(signed_once())) as pdf:
        assert pdf.Root.Perms.DocMDP.Reference[0].TransformParams.P == 2
        assert pdf.Root.Perms.DocMDP.SubFilter == "/ETSI.CAdES.detached"


def test_a_signature_leaves_no_mark_on_a_page() -> None:
    with pikepdf.open(BytesIO(signed_twice())) as pdf:
        for field in pdf.Root.AcroForm.Fields:
            assert [float(side) for side in field.Rect] == [0, 0, 0, 0]
            assert "/AP" not in field


def test_the_files_inside_come_out_as_they_went_in() -> None:
    with pikepdf.open(BytesIO(signed_twice())) as pdf:
        inside = {name: file.get_file().read_bytes() for name, file in pdf.attachments.items()}
    assert inside == {"site.yaml": SITE, "openings__W-1.01.yaml": RECORD}


def test_what_is_laid_out_anew_before_signing_is_the_same_at_any_time() -> None:
    """All but the signature itself, which carries a time and a random number."""
    one = _laid_out(small_pack(), Path("pack.pdf"))
    sleep(1.1)  # a random identity would be made from the time in seconds
    assert _laid_out(small_pack(), Path("other.pdf")) == one
    assert signed_once().startswith(one)


def test_an_rsa_key_signs_as_well() -> None:
    person = somebody("R", key=rsa.generate_private_key(65537, 2048))
    assert check_signatures(signed_by(small_pack(), person, "installer")).good


def test_a_file_that_is_there_is_never_overwritten(tmp_path: Path) -> None:
    pack = written(tmp_path, small_pack())
    for target in (pack, written(tmp_path, b"precious", "to.pdf")):
        before = target.read_bytes()
        with pytest.raises(CannotSign, match="never overwrites"):
            sign(pack, target, ada().signing_key, INSTALLER)
        assert target.read_bytes() == before


def test_each_role_signs_once(tmp_path: Path) -> None:
    assert "The installer has signed already" in refused(tmp_path, signed_once())


def test_the_installer_signs_before_the_clerk_of_works(tmp_path: Path) -> None:
    by_clerk = signed_by(small_pack(), cleo(), "clerk of works")
    assert "The installer signs before the clerk of works" in refused(tmp_path, by_clerk)


def test_an_unknown_role_is_refused_with_those_there_are(tmp_path: Path) -> None:
    said = refused(tmp_path, small_pack(), Statement("passer-by"))
    assert "no role passer-by" in said
    assert "clerk of works" in said


@pytest.mark.parametrize("days", [(-9, -1), (1, 9)], ids=["run out", "not yet"])
def test_a_certificate_out_of_date_does_not_sign(tmp_path: Path, days: tuple[int, int]) -> None:
    person = somebody("Late", first_day=days[0], last_day=days[1])
    with pytest.raises(CannotSign, match="is not valid today"):
        sign(written(tmp_path, small_pack()), tmp_path / "to.pdf", person.signing_key, INSTALLER)


def test_nobody_signs_what_was_changed_after_an_earlier_signature(tmp_path: Path) -> None:
    clerk = Statement("clerk of works")
    assert "was changed after" in refused(tmp_path, appended(signed_once(), unused_object), clerk)
    broken = bytearray(signed_once())
    broken[len(broken) // 2] ^= 1
    assert "installer" in refused(tmp_path, bytes(broken), clerk)
    assert "was changed after" in refused(tmp_path, signed_once() + b"% more\n", clerk)


@pytest.mark.parametrize("data", [b"", b"no pdf", b"%PDF-1.7\n"])
def test_what_is_no_pdf_is_not_signed(tmp_path: Path, data: bytes) -> None:
    assert "cannot be read as a PDF" in refused(tmp_path, data)


def test_a_pdf_without_a_site_file_is_no_pack(tmp_path: Path) -> None:
    assert "is no pack" in refused(tmp_path, small_pack("other.yaml"))
