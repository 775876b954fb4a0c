"""Whether this machine can make pages, and what to install where it cannot.

A missing library or font can end the whole process, so the trial runs in a child.
"""

import importlib.util
import os
import subprocess
import sys
from dataclasses import dataclass
from datetime import UTC, datetime

import yaml

from revealbook.render.fonts import face_files

_LIBRARIES = (
    "On Debian or Ubuntu: apt-get install libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0. "
    "On macOS: brew install pango."
)
_SUBSET = (
    "On Debian or Ubuntu: apt-get install libharfbuzz-subset0. On macOS it comes with brew install pango."
)
_REINSTALL = "Install the package and what it depends on again."
_TRIAL_SECONDS = 60
_TRIAL = "from revealbook.render.doctor import trial; trial()"


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing looked at.

    Attributes:
        subject: what was looked at.
        well: whether it is as it should be.
        needed: whether pages cannot be made without it.
        words: what was found, and what to install where it is not well.
    """

    subject: str
    well: bool
    needed: bool
    words: str


def examine() -> tuple[Finding, ...]:
    """Look at everything that a page needs from the machine; takes about two seconds, reads no record."""
    return (_fonts(), _typesetter(), _subsetting(), _yaml_parser())


def trial() -> None:
    """Make a page of one line and say so; run in a child process, which may crash."""
    from revealbook.render.pdf import typeset  # noqa: PLC0415 - only the child loads it

    page = '<html lang="en"><title>Trial</title><p style="font-family: Fira Sans">One line.</p></html>'
    rendered = typeset(
        page, roots=(face_files()[0].parent,), attachments=(), made=datetime(2000, 1, 1, tzinfo=UTC)
    )
    sys.stdout.write(f"{rendered.pdf[:5].decode()} {rendered.pages}\n")


def diagnose(exit_status: int, said: str, complained: str) -> Finding:
    """What the trial's end means.

    Args:
        exit_status: of the child; negative when a signal ended it.
        said: its standard output.
        complained: its standard error.
    """
    if exit_status == 0 and said.startswith("%PDF- 1"):
        return Finding("typesetter", well=True, needed=True, words="A trial page was made.")
    if exit_status < 0:
        words = (
            f"The trial page ended its process (signal {-exit_status}); libraries are missing. {_LIBRARIES}"
        )
    elif "cannot load library" in complained:
        words = f"The text layout libraries are missing. {_LIBRARIES}"
    else:
        last = complained.strip().splitlines()[-1:] or ["nothing was said"]
        words = f"The trial page failed: {last[0]}. {_REINSTALL}"
    return Finding("typesetter", well=False, needed=True, words=words)


def _typesetter() -> Finding:
    surroundings = {**os.environ, "PYTHONPATH": os.pathsep.join(filter(None, sys.path))}
    try:
        child = subprocess.run(
            [sys.executable, "-c", _TRIAL],
            capture_output=True,
            text=True,
            check=False,
            timeout=_TRIAL_SECONDS,
            env=surroundings,
        )
    except subprocess.TimeoutExpired:
        return diagnose(1, "", f"it took more than {_TRIAL_SECONDS} seconds")
    return diagnose(child.returncode, child.stdout, child.stderr)


def _fonts() -> Finding:
    missing = [file.name for file in face_files() if not file.is_file()]
    words = f"Faces are missing: {', '.join(missing)}. {_REINSTALL}" if missing else "All faces are there."
    return Finding("fonts", well=not missing, needed=True, words=words)


def _subsetting() -> Finding:
    """Without this library the fonts are cut down by a slower way that the typesetter means to give up."""
    code = "from weasyprint.text.ffi import harfbuzz_subset as h; raise SystemExit(0 if h else 3)"
    found = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, check=False, timeout=_TRIAL_SECONDS
    )
    well = found.returncode == 0
    words = "Fonts are cut down by HarfBuzz." if well else f"HarfBuzz's font subsetting is missing. {_SUBSET}"
    return Finding("font subsetting", well=well, needed=False, words=words)


def _yaml_parser() -> Finding:
    well = bool(yaml.__with_libyaml__) and importlib.util.find_spec("yaml._yaml") is not None
    words = (
        "PyYAML has its C parser."
        if well
        else (
            "PyYAML lacks its C parser, which reading records needs. Install it from a wheel: "
            "pip install --force-reinstall --only-binary :all: pyyaml"
        )
    )
    return Finding("YAML parser", well=well, needed=True, words=words)
