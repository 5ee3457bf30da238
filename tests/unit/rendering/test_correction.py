"""The report that "Correct this pin" opens: filled in, asking how, escaped for its address."""

from __future__ import annotations

import html
import re
from dataclasses import replace
from urllib.parse import parse_qs, unquote, urlsplit

import pytest
from page_samples import INFO, sample, sample_shelf

from builder.proof.pin_proof import prove
from builder.rendering.links import page_links
from builder.rendering.page import BuildInfo, Page
from builder.rendering.pages.correction import ASKS, NEVER, filled
from builder.rendering.pages.vehicle import vehicle_page

ADDRESS = "https://forge.example/shop/book/issues/new?title={title}&body={body}"
MAIL = "mailto:book@shop.example?subject={title}&body={body}"
ASKED = ("Meter", "Key state", "Battery volts", "Load", "Face", "Car tag", "By (shop")


def page(address: str) -> Page:
    vehicle, shelf = sample("vehicles"), sample_shelf()
    info: BuildInfo = replace(INFO, report_address=address)
    return vehicle_page(vehicle, shelf, prove(vehicle, shelf.defaults), [], [], info)


def links(address: str) -> list[str]:
    found = re.findall(r'<p class="correct"><a href="([^"]*)">', page(address).body_html)
    return [html.unescape(link) for link in found]


def test_each_pin_has_a_report_of_its_own():
    pins = sum(len(plug.pins) for plug in sample("vehicles").plugs)
    found = links(ADDRESS)
    assert len(found) == len(set(found)) == pins
    query = parse_qs(urlsplit(found[0]).query)
    vehicle = sample("vehicles")
    first = f"{vehicle.plugs[0].id}.{vehicle.plugs[0].pins[0].cavity}"
    assert query["title"] == [f"{first} of {vehicle.id}"]
    (body,) = query["body"]
    assert f"Record: {vehicle.id}\nPin: {first}\n" in body
    assert all(word in body for word in ASKED) and body.endswith(f"{NEVER}\n")


def test_mail_has_its_own_line_ends():
    link = links(MAIL)[0]
    assert link.startswith("mailto:book@shop.example?subject=")
    body = unquote(link.split("&body=")[1])
    assert "\r\n" in body and "\n" not in body.replace("\r\n", "")


def test_without_an_address_there_is_one_text_to_copy():
    text = page("").body_html
    assert set(links("")) == {"#correct"} and 'id="correct"' in text
    (block,) = re.findall(r'<pre class="report"[^>]*>(.*?)</pre>', text, re.S)
    copied = html.unescape(block)
    assert all(ask in copied for ask in ASKS) and NEVER in copied
    assert '<pre class="report"' not in page(ADDRESS).body_html


@pytest.mark.parametrize("wild", ["a&b=c#d", "{body}", '50 %, "x" <y>', "ä/ü?\n+", "%26"])
def test_nothing_in_a_text_changes_the_address(wild):
    address = filled(ADDRESS, wild, wild)
    parts = urlsplit(address)
    assert re.fullmatch(r"[!-~]+", address) and not parts.fragment
    assert parse_qs(parts.query, keep_blank_values=True) == {"title": [wild], "body": [wild]}


@pytest.mark.parametrize("address", [ADDRESS, MAIL, ""])
def test_the_links_are_such_as_a_page_may_have(address):
    found = page_links("vehicles/x.html", page(address).body_html)
    assert not found.foreign


def test_nobody_is_asked_for_what_names_a_car_or_a_customer():
    assert not [ask for ask in ASKS if re.search("chassis|plate|customer|phone", ask.lower())]
    assert "chassis number" in NEVER
