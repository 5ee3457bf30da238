"""Pages, style sheets and drawings of the built site by the Nu HTML checker, and by eye of need.

The checker is the npm package vnu-jar, run by Java; `.ci/prepare` installs both.
"""

from __future__ import annotations

import json
import re
import shutil
import subprocess
from html.parser import HTMLParser
from itertools import groupby
from pathlib import Path

import pytest
from page_kinds import JOB, PLAN, VEHICLE
from samples import some
from shipped_book import ROOT

pytestmark = pytest.mark.browser
JAR = ROOT / ".venv" / "checkers" / "node_modules" / "vnu-jar" / "build" / "dist" / "vnu.jar"
# It runs for seconds: to compile what is called often well, and to clear up in threads of its own,
# costs more than that brings.
QUICK = ("-XX:+UseSerialGC", "-XX:TieredStopAtLevel=1")
# Files have no origin for the checker, so that 'self' of the policy matches nothing there; what
# the policy does to a page is tested in the browser.
PINS = ['class="plug"', '<table class="pins"']
NO_ORIGIN = "Resource violates Content Security Policy (meta tag)"


def complaints(*arguments: str | Path) -> list[str]:
    """What the checker finds: errors, and warnings alike."""
    java = shutil.which("java")
    assert java and JAR.is_file(), "install Java and vnu-jar: .ci/prepare does"
    command = [java, *QUICK, "-Xss8m", "-jar", JAR, "--format", "json", "--stdout", *arguments]
    done = subprocess.run(command, check=False, capture_output=True, text=True)
    return [
        f"{one.get('url', '')}:{one.get('lastLine', '')}: {one['message']}"
        for one in json.loads(done.stdout)["messages"]
        if NO_ORIGIN not in one["message"] and "was here." not in one["message"]
    ]


def to_judge(site: Path) -> list[Path]:
    """All that is no page; of pages those of the root, and of each folder the one with the most
    in it and every fifth. The long form takes all."""
    files = [one for one in sorted(site.rglob("*")) if one.suffix in (".css", ".svg")]
    pages = sorted(site.rglob("*.html"), key=lambda page: (page.parent, -page.stat().st_size))
    for folder, group in groupby(pages, lambda page: page.parent):
        found = list(group)
        files += found if folder == site else some(found)
    return files


def test_pages_style_sheets_and_drawings_are_valid(site: Path, tmp_path: Path) -> None:
    """Two files that are not stand among them: the checker must find those two alone."""
    page, sheet = tmp_path / "wrong.html", tmp_path / "wrong.css"
    page.write_text("<!doctype html><html lang=en><title>x</title><p id=a><p id=a>", "utf-8")
    sheet.write_text("a { colour: red }", "utf-8")
    judged = to_judge(site)
    assert {one.parent for one in judged} >= {one.parent for one in site.rglob("*.html")}
    files = [*judged, page, sheet]
    found = complaints("--also-check-css", "--also-check-svg", "--skip-non-html", *files)
    wrong = [one for one in found if str(tmp_path / "wrong.") in one]
    assert [one for one in wrong if "Duplicate ID" in one]
    assert [one for one in wrong if "colour" in one]
    assert [one for one in found if one not in wrong] == []


PLAN_ORDER = ("cautions", "wiring", "tests", "terminals", "turn-on")


@pytest.mark.parametrize("url", [VEHICLE, PLAN])
def test_cautions_come_before_anything_to_act_on(site: Path, url: str) -> None:
    """The order of the text itself, as read out or with styles off."""
    document = (site / url).read_text("utf-8")
    order = {
        VEHICLE: ["<h1", 'class="caution-line"', 'id="answers"', 'id="cautions"', *PINS],
        PLAN: ["<h1", *(f' id="{at}"' for at in PLAN_ORDER)],
    }[url]
    places = [document.index(mark) for mark in order]
    assert places == sorted(places)


class Swatches(HTMLParser):
    """Each drawn wire sample with the words that follow it in the same cell, line or link."""

    def __init__(self, document: str) -> None:
        super().__init__()
        self.waiting = False
        self.seen = 0
        self.alone: list[int] = []
        self.depth = 0
        self.feed(document)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag == "svg" and dict(attrs).get("class") == "lb-swatch":
            self._miss()
            self.seen += 1
            self.waiting = True
        self.depth += tag == "svg"

    def handle_endtag(self, tag: str) -> None:
        self.depth -= tag == "svg"
        if tag in ("td", "li", "a", "tr", "dd", "p"):
            self._miss()

    def handle_data(self, data: str) -> None:
        if not self.depth and re.search(r"[a-z]{3}", data):
            self.waiting = False

    def _miss(self) -> None:
        if self.waiting:
            self.alone.append(self.getpos()[0])
        self.waiting = False


def test_a_wire_colour_is_always_in_words_beside_its_sample(site: Path) -> None:
    seen = 0
    for page in sorted(site.rglob("*.html")):
        found = Swatches(page.read_text("utf-8"))
        assert found.alone == [], f"{page.name}: lines {found.alone}"
        seen += found.seen
    assert seen > 1000
    assert Swatches('<p><svg class="lb-swatch"><title>red wire</title></svg></p>').alone


def test_no_file_of_the_site_asks_anybody_else(site: Path) -> None:
    """Scripts, styles and drawings hold no address but those of names (XML's) and comments."""
    asking = re.compile(
        r"(?:https?:)?//[a-z0-9-]+\.[a-z]|sourceMappingURL|@import|data:[a-z]+/", re.I
    )
    names = re.compile(r"http://www\.w3\.org/(?:2000/svg|1999/xlink|1998/Math/MathML)")
    for file in sorted(site.rglob("*")):
        if file.suffix in (".css", ".js", ".svg", ".webmanifest") and file.name != "worker.js":
            text = names.sub("", file.read_text("utf-8"))
            if "-data" in file.name or "-part-" in file.name:
                continue  # contributor text: whatever it names, it is only shown
            assert not asking.search(text), (file.name, asking.search(text))


def test_scripts_make_no_page_out_of_text(site: Path) -> None:
    """No script hands text to anything that parses it as HTML, script or style."""
    making = re.compile(
        r"innerHTML|outerHTML|insertAdjacentHTML|document\.write|\beval\(|new Function|srcdoc|"
        r"createContextualFragment|DOMParser|setTimeout\(\s*[\"']|javascript:"
    )
    scripts = sorted([*(site / "assets").glob("*.js"), site / "worker.js"])
    assert len(scripts) > 5
    for script in scripts:
        assert not making.search(script.read_text("utf-8")), script.name


@pytest.mark.parametrize("url", ["404.html", JOB, "index.html"])
def test_each_page_carries_the_policy_first(site: Path, url: str) -> None:
    head = (site / url).read_text("utf-8")
    policy = head.index('http-equiv="Content-Security-Policy"')
    assert "unsafe" not in head[policy : head.index(">", policy)]
    assert policy < head.index("<script") < head.index('<link rel="stylesheet"')
