"""What all tests share: none depends on chance, none is skipped in a full run, whole texts are compared.

Randomised tests take the same examples every time; REVEALBOOK_FULL=1 draws new ones.
"""

import os
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings
from tests.made import Made, make

GOLDEN = Path(__file__).parent / "terminal"

# how long an example takes says something of the machine and of nothing else
settings.register_profile(
    "repeatable", derandomize=True, deadline=None, suppress_health_check=[HealthCheck.too_slow]
)
settings.register_profile("wide", settings.get_profile("repeatable"), derandomize=False, max_examples=1000)
settings.load_profile("wide" if os.environ.get("REVEALBOOK_FULL") else "repeatable")


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
