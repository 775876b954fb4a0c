import pytest

from revealbook.render.doctor import diagnose, examine


def test_this_machine_can_make_pages() -> None:
    findings = examine()
    assert [finding.subject for finding in findings] == [
        "fonts",
        "typesetter",
        "font subsetting",
        "YAML parser",
    ]
    assert [finding.words for finding in findings if finding.needed and not finding.well] == []


def test_a_page_that_was_made_is_well() -> None:
    assert diagnose(0, "%PDF- 1\n", "").well


@pytest.mark.parametrize(
    ("exit_status", "complained", "words"),
    [
        (-11, "", "signal 11"),
        (1, "OSError: cannot load library 'libpango-1.0-0'", "text layout libraries are missing"),
    ],
)
def test_missing_libraries_are_told_with_what_to_install(
    exit_status: int, complained: str, words: str
) -> None:
    finding = diagnose(exit_status, "", complained)
    assert not finding.well
    assert finding.needed
    assert words in finding.words
    assert "apt-get install libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0" in finding.words
    assert "brew install pango" in finding.words


def test_another_failure_is_told_in_its_own_last_words() -> None:
    finding = diagnose(1, "", "Traceback\n  line\nModuleNotFoundError: No module named 'weasyprint'\n")
    assert "No module named 'weasyprint'" in finding.words
    assert not diagnose(0, "", "").well, "silence is no page"
