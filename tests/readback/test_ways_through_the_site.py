"""Every page is reached from the front page in a few taps, and neighbours lead to each other."""

from __future__ import annotations

import posixpath
from collections import deque
from functools import cache
from html.parser import HTMLParser
from pathlib import Path

MOST_TAPS = 4
NOBODY_LINKS = ["404.html", "not-saved.html"]
"""What a server, or the page's own worker, answers with."""


class _Links(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.found: set[str] = set()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag == "a":
            self.found.add(dict(attrs).get("href") or "")


@cache
def links(site: Path, page: str) -> frozenset[str]:
    """The pages of the site that a page links to."""
    reader, found = _Links(), set()
    reader.feed((site / page).read_text("utf-8"))
    for link in reader.found:
        target = link.partition("#")[0].partition("?")[0]
        if target and ":" not in target:
            found.add(posixpath.normpath(posixpath.join(posixpath.dirname(page), target)))
    return frozenset(each for each in found if each.endswith(".html"))


def taps(site: Path) -> dict[str, int]:
    """How many taps each page is from the front page."""
    found, waiting = {"index.html": 0}, deque(["index.html"])
    while waiting:
        page = waiting.popleft()
        for target in links(site, page) - found.keys():
            found[target] = found[page] + 1
            waiting.append(target)
    return found


def pages(site: Path, folder: str = "") -> list[str]:
    """The pages of a folder; those that only lead on from an old address are none."""
    every = sorted(str(file.relative_to(site)) for file in (site / folder).rglob("*.html"))
    return [p for p in every if 'http-equiv="refresh"' not in (site / p).read_text("utf-8")]


def test_every_page_is_a_few_taps_from_the_front_page(site: Path) -> None:
    found = taps(site)
    assert [page for page in pages(site) if page not in found] == NOBODY_LINKS
    assert [page for page, count in found.items() if count > MOST_TAPS] == []


def test_a_plan_leads_to_its_neighbours_and_they_lead_back(site: Path) -> None:
    plans = [page for page in pages(site, "plans") if "--" in page]
    assert len(plans) > 50
    for plan in plans:
        vehicle, converter = Path(plan).stem.split("--")
        car, part = f"vehicles/{vehicle}.html", f"converters/{converter}.html"
        on = {page for page in links(site, car) if page.startswith("jobs/")}
        on -= {"jobs/index.html", "jobs/recalls.html"}
        around = {car, part, "plans/index.html", "rules/index.html", *on}
        assert around <= links(site, plan), plan
        assert "handbook/read-a-plug-drawing.html" in links(site, plan)
        assert plan in links(site, car) and plan in links(site, part)


def test_a_job_leads_to_its_car_and_to_the_plan_of_its_converter(site: Path) -> None:
    jobs = [page for page in pages(site, "jobs") if "/index" not in page and "/recall" not in page]
    plans, seen = set(pages(site, "plans")), 0
    for job in jobs:
        cars = [page for page in links(site, job) if page.startswith("vehicles/")]
        assert cars, job
        own = {page for page in links(site, job) if page in plans and "--" in page}
        seen += bool(own)
        for plan in own:
            assert job in links(site, plan)
    assert seen >= len(jobs) - 2
