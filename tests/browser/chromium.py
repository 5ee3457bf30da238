"""Debian's Chromium with what tests ask of it."""

from __future__ import annotations

import json
import shutil
from pathlib import Path
from urllib.parse import urlsplit

from selenium import webdriver

CHROMIUM, DRIVER = shutil.which("chromium"), shutil.which("chromedriver")
QUIET = (
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)


class Browser:
    """Chromium with what tests ask of it: console errors, requests made, sizes."""

    def __init__(self) -> None:
        assert CHROMIUM and DRIVER, "install Debian's chromium and chromium-driver"
        options = webdriver.ChromeOptions()
        options.binary_location = CHROMIUM
        for argument in QUIET:
            options.add_argument(argument)
        options.set_capability("goog:loggingPrefs", {"browser": "ALL", "performance": "ALL"})
        self.driver = webdriver.Chrome(options, webdriver.ChromeService(DRIVER))
        self._listening = True  # as the log of the network starts

    def resize(self, width: int, height: int = 900) -> None:
        self.driver.execute_cdp_cmd(
            "Emulation.setDeviceMetricsOverride",
            {"width": width, "height": height, "deviceScaleFactor": 1, "mobile": width < 600},
        )

    def as_phone(self, folder: Path) -> None:
        """Be as wide as a phone, and save what pages give into a folder."""
        self.resize(390)
        self.driver.execute_cdp_cmd(
            "Browser.setDownloadBehavior", {"behavior": "allow", "downloadPath": str(folder)}
        )

    def open(self, address: str, *, listening: bool = False) -> None:
        """Open a page; `listening` for who asks afterwards what was requested. To hear of every
        request takes a sixth of the time that a page takes."""
        if listening is not self._listening:
            word = "enable" if listening else "disable"
            self.driver.execute_cdp_cmd(f"Network.{word}", {})
            self._listening = listening
        self.driver.get_log("browser")
        self.driver.get_log("performance")
        self.driver.get(address)

    def complaints(self) -> list[str]:
        """Warnings and errors of the console."""
        return [e["message"] for e in self.driver.get_log("browser") if e["level"] != "INFO"]

    def requested(self) -> list[str]:
        """Addresses asked for since the last `open`, which was told to listen."""
        assert self._listening, "nobody listened while the page was opened"
        messages = [json.loads(e["message"])["message"] for e in self.driver.get_log("performance")]
        return [
            message["params"]["request"]["url"]
            for message in messages
            if message["method"] == "Network.requestWillBeSent"
        ]

    def foreign(self, address: str) -> list[str]:
        """Requests to any other origin."""
        own = urlsplit(address)[:2]
        return [u for u in self.requested() if not u.startswith("data:") and urlsplit(u)[:2] != own]

    def unfold(self) -> None:
        """Open each group of steps and readings of a long sheet."""
        self.run("document.querySelectorAll('.shut button.group-fold').forEach(b => b.click())")

    def fold(self) -> None:
        """Shut each group, part and fold of the sheets of a job."""
        self.run(
            "document.querySelectorAll('.group-fold[aria-expanded=true]').forEach(b => b.click());"
            "document.querySelectorAll('.sheet details[open]').forEach(d => { d.open = false; })"
        )

    def run(self, script: str, *arguments: object) -> object:
        return self.driver.execute_script(script, *arguments)
