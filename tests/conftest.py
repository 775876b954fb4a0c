"""What all tests share: in a full run, a test that was skipped counts as one that failed."""

import os

import pytest


def pytest_sessionfinish(session: pytest.Session) -> None:
    if not os.environ.get("REVEALBOOK_NO_SKIPS"):
        return
    reporter = session.config.pluginmanager.get_plugin("terminalreporter")
    if reporter is not None and reporter.stats.get("skipped"):
        reporter.write_line("A test was skipped where none may be.", red=True)
        session.exitstatus = pytest.ExitCode.TESTS_FAILED
