"""Take the README's pictures: python tests/browser/take_pictures.py SITE_FOLDER.

Pictures are of the built site at 1280 px, cut to the first screens, in 256 colours.
"""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

from chromium import Browser

ROOT = Path(__file__).parents[2]
PICTURES = {
    "vehicle": ("vehicles/ostrel-tansy-2017-hatch-base.html", 1500),
    "plan": ("plans/brantmoor-leto-2019-wagon-mid--cvn-4a.html", 1900),
}


def main() -> None:
    """Take each picture and make it small."""
    browser = Browser()
    for name, (page, height) in PICTURES.items():
        size = {"width": 1280, "height": height, "deviceScaleFactor": 1, "mobile": False}
        browser.driver.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", size)
        browser.open(f"file://{Path(sys.argv[1]).resolve()}/{page}")
        file = ROOT / ".pictures" / f"{name}.png"
        browser.driver.save_screenshot(str(file))
        shrink = ("convert", file, "-resize", "900x", "-colors", "64", "-strip", file)
        subprocess.run([str(part) for part in shrink], check=True)
    browser.driver.quit()


if __name__ == "__main__":
    main()
