"""Lists that answer without scripts."""

from __future__ import annotations

import re
from dataclasses import replace
from html import unescape

import pytest
from page_samples import INFO, Tags, sample, sample_shelf
from shipped_book import FOLDERS_OF_PARTS

from builder.model.summary import VehicleSummary, summarise
from builder.rendering.find_pages import FINDER_SCRIPTS
from builder.rendering.pages.lists import home_page, make_pages, parts_indexes, vehicles_index
from builder.rendering.pages.parts import USED_IN_SHOWN, Used, housing_page


def summaries() -> list[VehicleSummary]:
    vehicle = sample("vehicles")
    scope = replace(vehicle.scope, year_from=2009, year_to=2012)
    cars = [
        vehicle,
        replace(vehicle, id="older", scope=scope),
        replace(vehicle, id="other", model="Another"),
        replace(vehicle, id="third", make="Amberline"),
    ]
    return [summarise(car, f"{car.id}.yaml") for car in cars]


def links(body: str) -> list[str]:
    return [unescape(link) for link in re.findall(r'href="([^"]*)"', body)]


def test_home_lists_every_model_in_plain_links() -> None:
    found = links(home_page(summaries(), INFO).body_html)
    assert "makes/amberline.html#model-sample" in found
    assert "makes/example.html#model-another" in found
    assert "makes/example.html#model-sample" in found


def test_home_has_the_finder_field_and_its_scripts() -> None:
    page = home_page([], INFO)
    assert 'id="finder-answers"' in page.body_html
    assert page.scripts == FINDER_SCRIPTS
    assert (FINDER_SCRIPTS[0], FINDER_SCRIPTS[-1]) == ("assets/finder-data.js", "assets/finder.js")


@pytest.mark.parametrize(
    ("jobs", "said"), [(0, None), (1, "work in sheets 1 job"), (9, "work in sheets 9 jobs")]
)
def test_home_counts_jobs_in_words(jobs: int, said: str | None) -> None:
    text = Tags(home_page([], INFO, jobs=jobs).body_html).text
    assert said in text if said else "work in sheets" not in text


def test_a_make_lists_its_models_and_years_oldest_first() -> None:
    page = next(p for p in make_pages(summaries(), INFO) if p.url == "makes/example.html")
    assert Tags(page.body_html).elements >= {"h2", "ul"}
    found = [link for link in links(page.body_html) if "/vehicles/" in link and "index" not in link]
    assert found[1::2] == [f"{car}#plans" for car in found[::2]]
    assert found[::2] == [
        "../vehicles/other.html",
        "../vehicles/older.html",
        "../vehicles/template-vehicle.html",
    ]
    assert 'id="model-another"' in page.body_html


def test_the_list_of_vehicles_does_not_grow_with_every_record() -> None:
    many = summaries() * 50
    assert len(vehicles_index(many, INFO).body_html) < 3000
    assert "200 records" in Tags(vehicles_index(many, INFO).body_html).text


def test_every_part_stands_in_its_list() -> None:
    shelf = sample_shelf()
    pages = {page.url: page for page in parts_indexes(shelf, INFO)}
    assert set(links(pages["parts/index.html"].body_html)) >= {
        f"../{kind}/index.html" for kind in FOLDERS_OF_PARTS
    }
    assert "../cables/template-cable.html" in links(pages["cables/index.html"].body_html)


def test_a_part_used_everywhere_names_some_cars_and_counts_the_rest() -> None:
    used = [Used(f"vehicles/{at}.html", f"car {at}") for at in range(USED_IN_SHOWN + 7)]
    text = Tags(housing_page(sample("housings"), used, INFO).body_html).text
    assert f"car {USED_IN_SHOWN - 1}" in text
    assert f"car {USED_IN_SHOWN}" not in text
    assert "And 7 more." in text
