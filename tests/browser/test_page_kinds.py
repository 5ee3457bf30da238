"""One page of each kind in Chromium as `loombook serve` sends it: what must hold of all of them."""

from __future__ import annotations

import re
import threading
from collections.abc import Iterator
from http.server import SimpleHTTPRequestHandler
from itertools import pairwise
from pathlib import Path

import pytest
from chromium import Browser
from page_kinds import PAGES, SHEETS, STATES
from samples import LONG
from shipped_book import ROOT

from builder.cli.site_server import SiteHandler, SiteServer

pytestmark = pytest.mark.browser
AXE = ROOT / ".venv" / "checkers" / "node_modules" / "axe-core" / "axe.min.js"
RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
LEAST_PX = 48
# Controls of ours: what is pressed, ticked or typed into. A link in a sentence is none of these.
CONTROLS = (
    "button, select, input:not([type=checkbox]), summary, .button, .lb-nav a,"
    " .lb-footer .lb-more a, ul.links > li > a, .lead, label:has(> input[type=checkbox])"
)
_WATCH = """
window.violations = [];
document.addEventListener("securitypolicyviolation",
  one => window.violations.push(one.violatedDirective + " " + one.blockedURI + " " + one.sample));
"""
# Of rows and list entries that are built alike (elements, classes, names of attributes, text or
# none), two stay: what axe finds in one it finds in each. The long form asks about all.
_THIN = """
const built = (one) => [one, ...one.querySelectorAll("*")].map(part => part.localName + "." +
  part.className + [...part.attributes].map(given => given.name) + !part.textContent.trim()).join();
for (const list of document.querySelectorAll("#content :is(tbody, ul, ol)")) {
  const times = {};
  for (const one of [...list.children]) {
    const shape = built(one);
    times[shape] = (times[shape] ?? 0) + 1;
    if (times[shape] > 2) one.remove();
  }
}
"""
# A browser keeps no worker of a served site on purpose: `serve` answers 404 for it.
NO_WORKER = "A bad HTTP response code (404) was received when fetching the script."


@pytest.fixture(scope="module")
def served(site: Path) -> Iterator[str]:
    server = SiteServer(site)
    threading.Thread(target=server.serve_forever, args=(0.01,), daemon=True).start()
    yield f"http://127.0.0.1:{server.server_port}"
    server.shutdown()


@pytest.fixture(scope="module")
def watching(chromium: Browser) -> Iterator[Browser]:
    added = chromium.driver.execute_cdp_cmd(
        "Page.addScriptToEvaluateOnNewDocument", {"source": _WATCH}
    )
    yield chromium
    chromium.driver.execute_cdp_cmd("Page.removeScriptToEvaluateOnNewDocument", added)
    dress(chromium, "")


@pytest.fixture(scope="module", params=[*PAGES, *STATES])
def page(request: pytest.FixtureRequest, watching: Browser, served: str) -> Browser:
    """The browser on a phone with the page open, its folds open."""
    watching.resize(390)
    dress(watching, "light")
    watching.open("about:blank")  # another sheet of a page is otherwise the page as it stood
    watching.open(f"{served}/{request.param}", listening=True)
    return watching


def dress(browser: Browser, scheme: str) -> None:
    feature = {"name": "prefers-color-scheme", "value": scheme}
    browser.driver.execute_cdp_cmd("Emulation.setEmulatedMedia", {"features": [feature]})


def test_the_policy_is_never_violated_and_nobody_else_is_asked(page: Browser, served: str) -> None:
    assert [one for one in page.complaints() if NO_WORKER not in one] == []
    assert page.foreign(served) == []
    page.run("document.querySelectorAll('details').forEach(fold => { fold.open = true; })")
    assert page.run("return window.violations") == []
    assert (
        page.run("return document.querySelectorAll('[style], style, script:not([src])').length")
        == 0
    )


def test_one_title_a_language_landmarks_and_a_way_past_the_head(page: Browser) -> None:
    found = page.run(
        "const all = (what) => [...document.querySelectorAll(what)];"
        "return {h1: all('h1').length, lang: document.documentElement.lang, title: document.title,"
        " marks: ['header', 'nav', 'main', 'footer'].map(one => all(one).length),"
        " levels: all('h1, h2, h3, h4, h5, h6').filter(one => one.checkVisibility())"
        "   .map(one => Number(one.localName[1])),"
        " first: all('a, button, input')[0].getAttribute('href'),"
        " named: all('nav').every(one => one.getAttribute('aria-label'))}"
    )
    assert isinstance(found, dict)
    levels = found["levels"]
    assert (found["h1"], found["lang"], found["first"]) == (1, "en", "#content")
    assert found["marks"][0] >= 1 and found["marks"][2:] == [1, 1]
    assert found["named"] and " · " in found["title"]
    assert levels[0] == 1
    assert [(a, b) for a, b in pairwise(levels) if b > a + 1] == []


def test_each_control_is_large_enough_for_a_glove(page: Browser) -> None:
    small = page.run(
        "return [...document.querySelectorAll(arguments[0])].filter(one => one.checkVisibility())"
        ".map(one => [one.localName, one.className, one.textContent.trim().slice(0, 30),"
        "  one.getBoundingClientRect()])"
        ".filter(one => one[3].height < arguments[1] - 0.5 || one[3].width < arguments[1] - 0.5)"
        ".map(one => one.slice(0, 3).concat(one[3].width, one[3].height).join(' '))",
        CONTROLS,
        LEAST_PX,
    )
    assert small == []


def test_axe_finds_nothing_in_either_scheme(page: Browser) -> None:
    """The last test of a page: it takes entries away."""
    page.run("document.querySelectorAll('details').forEach(fold => { fold.open = true; })")
    if not LONG:
        page.run(_THIN)
    page.run(AXE.read_text("utf-8") + "; window.axe = axe;")
    assert violations(page, {"runOnly": RULES}) == []
    dress(page, "dark")
    page.resize(1280)
    try:
        only = {"type": "rule", "values": ["color-contrast", "link-in-text-block"]}
        assert violations(page, {"runOnly": only}) == []
    finally:
        dress(page, "light")
        page.resize(390)


def violations(browser: Browser, options: dict[str, object]) -> list[str]:
    found = browser.driver.execute_async_script(
        "const [options, done] = arguments;"
        "axe.run(document, {...options, preload: false, resultTypes: ['violations']}).then("
        "  found => done(found.violations.flatMap(one => one.nodes.map("
        "    node => one.id + ' ' + node.target + ' ' + node.failureSummary))),"
        "  problem => done(['axe stopped: ' + problem]))",
        options,
    )
    assert isinstance(found, list)
    return found


def test_axe_finds_what_is_wrong(watching: Browser, served: str) -> None:
    watching.open(f"{served}/not-saved.html")
    watching.run(AXE.read_text("utf-8") + "; window.axe = axe;")
    watching.run("document.querySelector('main').append(document.createElement('input'))")
    watching.run(_THIN)
    assert [one for one in violations(watching, {"runOnly": RULES}) if one.startswith("label ")]


BANNER = re.compile(r'class="banner (\w+)"')
SHEET = re.compile(r'<section class="sheet sheet-([a-z_]+) ')


class _AsPublished(SiteHandler):
    """The same headers from a server that has the worker too, as a published site does."""

    def send_head(self) -> object:
        return SimpleHTTPRequestHandler.send_head(self)


def test_the_headers_let_the_worker_save_the_site(watching: Browser, site: Path) -> None:
    server = SiteServer(site, handler=_AsPublished)
    threading.Thread(target=server.serve_forever, args=(0.01,), daemon=True).start()
    try:
        watching.driver.set_script_timeout(60)
        watching.open(f"http://127.0.0.1:{server.server_port}/index.html")
        state = watching.driver.execute_async_script(
            "const done = arguments[0];"
            "navigator.serviceWorker.ready.then(found => done(found.active.scriptURL))"
        )
        assert str(state).endswith("/worker.js")
        assert watching.run("return window.violations") == []
        assert watching.complaints() == []
    finally:
        watching.open("about:blank")
        server.shutdown()


def test_only_a_page_with_a_sheet_asks_for_its_scripts(site: Path) -> None:
    texts = {page: page.read_text("utf-8") for page in site.rglob("*.html")}
    holding = {page for page, text in texts.items() if " data-sheet=" in text}
    asking = {page for page, text in texts.items() if "assets/bay-sheet.js" in text}
    assert asking == holding and 0 < len(holding) < len(texts)


def test_only_the_record_maker_asks_for_its_scripts(site: Path) -> None:
    asking = [one.name for one in site.rglob("*.html") if "assets/record-maker" in one.read_text()]
    assert asking == ["record-maker.html"]


def test_every_kind_of_page_is_looked_at(site: Path) -> None:
    folders = {page.parent.relative_to(site).as_posix() for page in site.rglob("*.html")}
    assert folders == {url.rpartition("/")[0] or "." for url in PAGES}
    roots = {page.name for page in site.glob("*.html")}
    assert roots <= set(PAGES)


def test_every_sheet_and_every_kind_of_plan_is_looked_at(site: Path) -> None:
    looked_at = {page.partition("#")[0] for page in (*PAGES, *STATES)}
    texts = {page: (site / page).read_text("utf-8") for page in looked_at}
    kinds, sheets = set(), set()
    for page in [*(site / "plans").glob("*.html"), *(site / "jobs").glob("*.html")]:
        text = page.read_text("utf-8")
        kinds |= {(page.parent.name, kind) for kind in BANNER.findall(text)}
        sheets |= set(SHEET.findall(text))
    seen = {(url.partition("/")[0], k) for url, text in texts.items() for k in BANNER.findall(text)}
    assert kinds == seen
    assert sheets == {"cover", *(url.partition("#")[2] for url in SHEETS)}
