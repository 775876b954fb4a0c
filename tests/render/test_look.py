from typing import Any

import pytest

from revealbook.render.look import Look


@pytest.mark.parametrize("language", ["en", "de", "de-AT", "zh-Hant-TW"])
def test_language_tags_are_taken(language: str) -> None:
    assert Look(language=language).language == language


@pytest.mark.parametrize("language", ["", "e", "german", "de_AT", 'en"', "de-"])
def test_what_is_no_language_tag_is_refused(language: str) -> None:
    with pytest.raises(ValueError, match="language tag"):
        Look(language=language)


@pytest.mark.parametrize("paper", ["A3", "letter", "A4; size: 1m"])
def test_unknown_paper_is_refused(paper: Any) -> None:
    with pytest.raises(ValueError, match="A4 or Letter"):
        Look(paper=paper)
