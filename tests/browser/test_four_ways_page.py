"""The car that is added by questions, by a table and by hand, added on the record page."""

from __future__ import annotations

from typing import Any

import pytest
from four_ways_car import BY_HAND, ID
from maker_page import MakerPage, choose_shell

from builder.loading import load_text

pytestmark = pytest.mark.browser
LEGS = (
    ("1", "front-left", "positive", "brown", "white"),
    ("2", "front-left", "negative", "brown", "black"),
    ("3", "front-right", "positive", "blue", "white"),
    ("4", "front-right", "negative", "blue", "black"),
)
SUPPLIES = (("6", "ground", "black", ""), ("7", "constant", "yellow", "red"))


def describe_car(page: MakerPage) -> None:
    page.begin()
    page.answers(data="invented", make="Zorvex", model="Wold", variant="hatch, base", id=ID)
    page.step("Which cars")
    page.answers(scope__year_from="2018", scope__year_to="2021", scope__bodies="all")
    page.answers(scope__markets="all", scope__drive_side="left", scope__trims="all")
    page.none("scope.options_any")
    page.none("scope.options_none")
    page.answers(scope__radios="unknown")
    page.step("Radio")
    page.answers(radio__outputs="bridged")


def describe_pins(page: MakerPage) -> None:
    for cavity, channel, leg, base, stripe in LEGS:
        wire = {"wire__base": base, "wire__stripe": stripe, "wire__size_mm2": "0.75"}
        page.pin(0, cavity, "speaker", channel=channel, leg=leg, **wire)
    for cavity, function, base, stripe in SUPPLIES:
        striped = {"wire__stripe": stripe} if stripe else {}
        page.pin(0, cavity, function, wire__base=base, wire__size_mm2="1.5", **striped)


def describe_rest(page: MakerPage) -> None:
    page.step("Radio")
    page.press("maker-rest")
    page.step("Factory amplifier")
    page.answers(factory_amplifier__feed="none")
    page.step("Features")
    page.answer("features.hybrid", "no")
    page.press("maker-rest")
    page.step("Power")
    page.answers(power__battery__location="unknown")
    page.press("maker-rest")
    page.step("Safety")
    page.answers(safety__restraint_zones="steering wheel, roof rails")
    page.none("safety.high_voltage_zones")
    page.press("maker-rest")
    page.step("Sounds to keep")
    page.add("protected_sounds")
    page.answer("protected_sounds.0.sound", "seat-belt chime")
    page.answer("protected_sounds.0.channels", "front-left", "front-right")
    page.answer("protected_sounds.0.plays_key_off", "unknown")
    page.step("Its sisters")
    page.none("how_to_tell")
    page.step("Measuring")
    page.none("sessions")


def describe_plug(page: MakerPage) -> None:
    page.step("Plugs")
    page.press("maker-add-plug")
    page.answers(plugs__0__name="plug A", plugs__0__unit="radio")
    page.answers(plugs__0__location="behind the radio", plugs__0__shell_colours="grey")
    page.answers(plugs__0__read_from="wire side")
    choose_shell(page, 0, 20, "20-cavity radio housing, two rows of ten")
    describe_pins(page)
    page.cavity("8")
    page.press("no terminal in it")
    page.pin(0, "9", "unknown")


def test_the_page_ends_as_the_record_of_the_other_ways(browser: Any, address: str) -> None:
    MakerPage(browser, address)
    browser.run("localStorage.clear()")
    page = MakerPage(browser, address)
    describe_car(page)
    describe_rest(page)
    describe_plug(page)
    page.step("Speakers")
    for number in range(2):
        page.answer(f"channels.{number}.band", "unknown")
        page.answer(f"channels.{number}.driven_by", "radio")
    _, files = page.take()
    (text,) = files.values()
    assert list(files) == [f"vehicles/zorvex/{ID}.yaml"]
    assert load_text(text, "").data == load_text(BY_HAND, "").data
