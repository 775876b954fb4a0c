"""The accessibility rules of axe-core, for a page in a browser: `python tests/outside/axe.py` installs them.

axe-core (MPL-2.0) is a check on us and no part of what is shipped. npm brings the pinned version into a cache
folder; its lifecycle scripts are not run.
"""

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

from selenium.webdriver import Chrome

VERSION = "4.14.1"


def script() -> Path:
    """Where the rules lie, or would lie once they are installed."""
    cache = Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache")
    return cache / "revealbook" / f"axe-core-{VERSION}" / "node_modules" / "axe-core" / "axe.min.js"


def install() -> Path:
    """Install the rules if they are not there."""
    target = script()
    if not target.is_file():
        npm = shutil.which("npm")
        assert npm, "npm is missing: `bash .ci/set-up --dev` installs it"
        subprocess.run(
            [npm, "install", "--prefix", str(target.parents[2]), "--ignore-scripts", "--no-audit",
             "--no-fund", "--no-save", "--silent", f"axe-core@{VERSION}"],
            check=True, timeout=120,
        )  # fmt: skip
    return target


def complaints(driver: Chrome) -> list[dict[str, Any]]:
    """What the rules find wrong with the page as it stands: rule, impact, and the elements."""
    driver.execute_script(script().read_text(encoding="utf-8"))
    found = driver.execute_async_script(
        "axe.run(document).then((found) => arguments[0](JSON.stringify(found.violations)))"
    )
    return [
        {"rule": one["id"], "impact": one["impact"], "at": [node["html"][:120] for node in one["nodes"]]}
        for one in json.loads(found)
    ]


if __name__ == "__main__":
    sys.stdout.write(f"{install()}\n")
