"""A browser without a screen and without a network, which keeps what a page complained of and asked for."""

import json
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from selenium.webdriver import Chrome
from selenium.webdriver.chrome.options import Options
from selenium.webdriver.chrome.service import Service

FLAGS = (
    "--headless=new", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-sync",
    "--disable-background-networking", "--disable-component-update", "--disable-dev-shm-usage",
)  # fmt: skip


def missing() -> str:
    """What is not installed that a test in the browser needs; empty if all is there."""
    return ", ".join(name for name in ("chromium", "chromedriver") if shutil.which(name) is None)


@contextmanager
def browser(profile: Path, width: int = 1200) -> Iterator[Chrome]:
    """Start the browser with an empty profile and end it; every host but files is unreachable for it."""
    options = Options()
    for flag in (*FLAGS, f"--user-data-dir={profile}", f"--window-size={width},900"):
        options.add_argument(flag)
    options.binary_location = str(shutil.which("chromium"))
    options.set_capability("goog:loggingPrefs", {"browser": "ALL", "performance": "ALL"})
    driver = Chrome(options=options, service=Service(str(shutil.which("chromedriver"))))
    try:
        driver.execute_cdp_cmd("Network.enable", {})
        screen = {"width": width, "height": 900, "deviceScaleFactor": 1, "mobile": False}
        driver.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", screen)
        yield driver
    finally:
        driver.quit()


def said(driver: Chrome) -> list[str]:
    """What the page or the browser wrote to the console since it was last asked."""
    return [entry["message"] for entry in driver.get_log("browser")]  # type: ignore[no-untyped-call]


def requests(driver: Chrome) -> list[str]:
    """What the page asked for since it was last looked at."""
    log: list[dict[str, Any]] = driver.get_log("performance")  # type: ignore[no-untyped-call]
    messages = [json.loads(entry["message"])["message"] for entry in log]
    return [
        one["params"]["request"]["url"] for one in messages if one["method"] == "Network.requestWillBeSent"
    ]
