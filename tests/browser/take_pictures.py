"""Take the README's pictures: python tests/browser/take_pictures.py [SITE_FOLDER].

Without a folder the site is built of the shipped records first. Pictures show first screens of
a desktop 1280 px wide, at seven tenths of their size.
"""

from __future__ import annotations

import base64
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import NamedTuple

from chromium import Browser

ROOT = Path(__file__).parents[2]
FOLDER = ROOT / ".pictures"
WIDTH_PX, SCALE, QUALITY = 1280, 0.7, 80


class Picture(NamedTuple):
    """What a picture shows: an address of the site, down to where."""

    page: str
    height_px: int


PICTURES = {
    "vehicle": Picture("vehicles/ostrel-tansy-2017-hatch-base.html", 1500),
    "plan": Picture("plans/brantmoor-leto-2019-wagon-mid--cvn-4a.html", 1200),
}


def take(site: Path) -> None:
    """Take each picture of a built site."""
    browser = Browser()
    for name, picture in PICTURES.items():
        size = {"width": WIDTH_PX, "height": picture.height_px}
        form = {"deviceScaleFactor": SCALE, "mobile": False}
        browser.driver.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", size | form)
        browser.open(f"{site.resolve().as_uri()}/{picture.page}")
        asked = {"format": "webp", "quality": QUALITY}
        taken = browser.driver.execute_cdp_cmd("Page.captureScreenshot", asked)
        (FOLDER / f"{name}.webp").write_bytes(base64.b64decode(taken["data"]))
    browser.driver.quit()


def main() -> None:
    """Take the pictures of the site in the folder that is named, or of a new one."""
    if sys.argv[1:]:
        take(Path(sys.argv[1]))
        return
    with tempfile.TemporaryDirectory() as folder:
        build = (sys.executable, "-m", "builder", "build", "pinouts", "--output", f"{folder}/site")
        subprocess.run(build, cwd=ROOT, check=True)
        take(Path(folder) / "site")


if __name__ == "__main__":
    main()
