"""Help comes at once, shows an example of every command, and stands in docs/commands.md as it is."""

import subprocess
import sys
from pathlib import Path

import pytest
from tests.cli.terminal import process, run
from typer.main import get_command

from revealbook import __version__
from revealbook.cli.app import app

COMMANDS: tuple[str, ...] = tuple(get_command(app).commands)  # type: ignore[attr-defined]  # it is a group
PAGE = Path(__file__).parents[2] / "docs" / "commands.md"


def test_the_commands_are_these() -> None:
    assert {"begin", "check", "pack", "rules", "explain", "schema", "doctor"} <= set(COMMANDS)


@pytest.mark.parametrize("name", COMMANDS)
def test_a_command_s_help_says_what_it_does_and_shows_an_example(name: str) -> None:
    told = run(name, "--help")
    assert (told.status, told.err) == (0, "")
    assert f"Usage: revealbook {name} " in told.out
    assert f"revealbook {name}" in told.out.split("Example", 1)[1]
    assert max(map(len, told.out.splitlines())) <= 80


@pytest.mark.parametrize("name", COMMANDS)
def test_the_list_of_commands_cuts_nothing_off(name: str) -> None:
    (line,) = [line for line in run("--help").out.splitlines() if line.startswith(f"  {name} ")]
    assert not line.endswith("...")


@pytest.mark.parametrize("name", COMMANDS)
def test_the_page_of_commands_says_what_the_help_says(name: str) -> None:
    section = PAGE.read_text(encoding="utf-8").split(f"## revealbook {name}\n", 1)[1].split("\n## ", 1)[0]
    assert section.split("```")[1].removeprefix("text\n") == run(name, "--help").out.strip() + "\n"


def test_the_help_tells_the_exit_status_and_where_to_begin() -> None:
    told = run("--help").out
    assert "1  something does not conform" in told
    assert "revealbook begin larch-court" in told


def test_nothing_asked_shows_the_help_and_nonsense_the_usage() -> None:
    assert "Commands:" in run().out + run().err
    told = run("chekc", "site")
    assert told.status == 2
    assert "No such command 'chekc'" in told.err
    assert run("check").status == 2
    assert "SITE" in run("check").err


def test_the_version_is_printed() -> None:
    assert run("--version") == (0, f"revealbook {__version__}\n", "")


def test_the_shell_can_complete_commands() -> None:
    told = run("--help").out
    assert "--install-completion" in told
    assert "--show-completion" in told
    asked = process(
        _REVEALBOOK_COMPLETE="complete_bash", _TYPER_COMPLETE_ARGS="revealbook ch",
        COMP_WORDS="revealbook ch", COMP_CWORD="1",
    )  # fmt: skip
    assert "check" in asked.out.split()


def test_help_loads_none_of_what_commands_need() -> None:
    heavy = ["weasyprint", "jinja2", "scipy", "numpy", "PIL", "pydantic", "yaml", "babel", "openpyxl"]
    program = (
        "import sys; sys.argv = ['revealbook', '--help']\n"
        "from revealbook.cli.app import main\n"
        "try: main()\nexcept SystemExit: pass\n"
        f"print([name for name in {heavy} if name in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    assert done.stdout.splitlines()[-1] == "[]"
