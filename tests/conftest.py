"""What all tests share: no test is skipped in a full run, and terminal output is held against whole files."""

import os
from collections.abc import Callable
from pathlib import Path

import pytest
from tests.made import Made, make

GOLDEN = Path(__file__).parent / "terminal"


def pytest_sessionfinish(session: pytest.Session) -> None:
    if not os.environ.get("REVEALBOOK_NO_SKIPS"):
        return
    reporter = session.config.pluginmanager.get_plugin("terminalreporter")
    if reporter is not None and reporter.stats.get("skipped"):
        reporter.write_line("A test was skipped where none may be.", red=True)
        session.exitstatus = pytest.ExitCode.TESTS_FAILED


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption(
        "--update-golden", action="store_true", help="write what was asserted against tests/terminal anew"
    )


@pytest.fixture
def golden(request: pytest.FixtureRequest) -> Callable[[str, str], None]:
    """Hold a text against a file of tests/terminal; a person looks at what `--update-golden` writes."""

    def held(name: str, text: str) -> None:
        file = GOLDEN / name
        if request.config.getoption("--update-golden"):
            file.write_text(text, encoding="utf-8")
        assert text == file.read_text(encoding="utf-8")

    return held


@pytest.fixture(scope="session")
def conforming_pack(tmp_path_factory: pytest.TempPathFactory) -> Made:
    """The pack of the conforming site, rendered once for all tests that only read it."""
    return make(Path(__file__).parent / "conforming", tmp_path_factory.mktemp("conforming-pack"))
