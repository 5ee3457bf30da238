"""Cars added through the page "Take down a car", from nothing to a book that checks and builds."""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import Any

import pytest
from maker_page import MakerPage, choose_shell, describe_car, describe_plug, describe_rest
from shipped_book import PINOUTS, loombook

from builder.loading import load_text

pytestmark = pytest.mark.browser
NOTHING = "Nothing that can be checked here is wrong or missing."
PAIRS = ("front-left", "front-right", "rear-left", "rear-right")


@pytest.fixture
def page(browser: Any, address: str) -> MakerPage:
    return MakerPage(browser, address).emptied()


CONSTANT = """asleep 12.61 V battery 12.62 minutes 70
    run 12.35 V battery 12.44
    run 12.31 V battery 12.44 load 1a"""
FUSE = {"fuse__place": "F9", "fuse__rating_a": "15"}
GROUND = "run 0.02 V battery 12.44\n run 0.04 V battery 12.44 load 1a"
ACCESSORY = """asleep 0.02 V battery 12.62 minutes 70
    accessory 12.38 V battery 12.46
    run 12.36 V battery 12.45
    door open 0.01 V battery 12.6
    retained 0.02 V battery 12.5
    accessory 12.31 V battery 12.46 load lamp"""


def speaker_readings(other: str) -> str:
    return f"""radio on zero 6.21 V battery 12.41
        unplugged 3.6 ohm against {other}
        unplugged open against body"""


def describe_pairs(page: MakerPage, plug: int, first: int) -> None:
    """Four bridged pairs, positive above negative, from a cavity on."""
    for number, channel in enumerate(PAIRS):
        plus, minus = str(first + 2 * number), str(first + 2 * number + 1)
        colour = ("white", "grey", "green", "violet")[number]
        legs = (("positive", plus, minus, {}), ("negative", minus, plus, {"stripe": "black"}))
        for leg, cavity, other, stripe in legs:
            page.pin(
                plug,
                cavity,
                "speaker",
                channel=channel,
                leg=leg,
                wire__base=colour,
                readings=speaker_readings(other),
                **{f"wire__{key}": value for key, value in stripe.items()},
            )


def describe_channels(page: MakerPage, count: int) -> None:
    page.step("Speakers")
    for number in range(count):
        page.answer(f"channels.{number}.band", "full")


def saved_book(tmp_path: Path, files: dict[str, str]) -> Path:
    """A book of the shipped housings, one converter, and the car."""
    book = tmp_path / "book"
    shutil.copytree(PINOUTS / "housings", book / "housings")
    (book / "converters").mkdir()
    shutil.copy(PINOUTS / "converters" / "cvn-2a.yaml", book / "converters")
    for path, text in files.items():
        (book / path).parent.mkdir(parents=True, exist_ok=True)
        (book / path).write_text(text, encoding="utf-8")
    return book


def check_and_build(tmp_path: Path, files: dict[str, str]) -> str:
    book = saved_book(tmp_path, files)
    checked = loombook("check", book)
    said = [line for line in checked.output.splitlines() if "ardent" in line]
    assert checked.exit_code == 0, "\n".join(said)
    built = loombook("build", book, "--output", tmp_path / "site")
    assert built.exit_code == 0, built.output
    (vehicle,) = (path for path in files if path.startswith("vehicles/"))
    assert (tmp_path / "site" / "vehicles" / f"{Path(vehicle).stem}.html").is_file()
    return checked.output


def test_four_bridged_pairs_and_a_switched_wire(page: MakerPage, tmp_path: Path) -> None:
    describe_car(page, "Heron", "hatch, base")
    page.step("Radio")
    page.answers(radio__outputs="bridged", radio__open_load_check="no", radio__data_wake="no")
    page.step("Factory amplifier")
    page.answers(factory_amplifier__feed="none")
    page.step("Features")
    for feature in ("start_stop", "hybrid", "noise_cancellation", "engine_sound"):
        page.answer(f"features.{feature}", "no")
    page.press("maker-rest")
    describe_rest(page)
    describe_plug(page, "main plug", "radio")
    choose_shell(page, 0, 16, "16-cavity radio housing, drawn from its open face")
    for cavity, function, readings in (
        ("1", "constant", CONSTANT), ("2", "accessory", ACCESSORY), ("3", "ground", GROUND),
    ):  # fmt: skip
        base = {"1": "yellow", "2": "red", "3": "black"}[cavity]
        page.pin(0, cavity, function, wire__base=base, readings=readings)
    describe_pairs(page, 0, 5)
    page.cavity("16")
    page.press("no terminal in it")
    describe_channels(page, 4)
    findings, files = page.take()
    assert findings == [NOTHING]
    assert list(files) == ["vehicles/ardent/ardent-heron-2019-hatch-base.yaml"]
    data = load_text(next(iter(files.values())), "").data
    assert data is not None
    assert len(data["plugs"][0]["pins"]) == 11
    assert data["plugs"][0]["empty"] == [16]
    assert data["safety"]["restraint_wait_min"] == "unknown"
    check_and_build(tmp_path, files)
    assert page.browser.complaints() == []


TURN_ON = """radio off 0.03 V battery 12.5
    radio on zero 11.9 V battery 12.4
    radio on zero 11.7 V battery 12.4 load 50ma
    tuner 11.9 V battery 12.4
    other source 11.9 V battery 12.4
    asleep 0.01 V battery 12.6 minutes 70"""


def test_a_factory_amplifier_woken_by_data_without_a_switched_wire(
    page: MakerPage, tmp_path: Path
) -> None:
    describe_car(page, "Plover", "wagon, top")
    page.step("Radio")
    page.answers(radio__outputs="line", radio__data_wake="yes", radio__open_load_check="no")
    page.step("Factory amplifier")
    page.answers(factory_amplifier__feed="analogue variable")
    page.answers(factory_amplifier__location="behind the left luggage trim")
    page.step("Features")
    page.press("maker-rest")
    page.answer("features.emergency_call", "no")
    describe_rest(page)
    describe_plug(page, "radio plug", "radio")
    choose_shell(page, 0, 20, "20-cavity radio housing, two rows of ten")
    page.pin(0, "1", "constant", wire__base="red", readings=CONSTANT, **FUSE)
    page.pin(0, "2", "ground", wire__base="black", readings=GROUND)
    page.pin(0, "3", "data_high", wire__base="orange", wire__stripe="green")
    page.pin(0, "4", "data_low", wire__base="orange", wire__stripe="brown")
    page.pin(0, "5", "amplifier_on", wire__base="blue", level_v="12", readings=TURN_ON)
    page.press("maker-all-plugs")
    describe_plug(page, "amplifier plug", "amplifier", 1)
    choose_shell(page, 1, 24, "24-cavity amplifier housing")
    page.pin(1, "1", "constant", wire__base="red", readings=CONSTANT, **FUSE)
    page.pin(1, "2", "ground", wire__base="brown", readings=GROUND)
    describe_pairs(page, 1, 5)
    describe_channels(page, 4)
    findings, files = page.take()
    assert findings == [NOTHING]
    text = files["vehicles/ardent/ardent-plover-2019-wagon-top.yaml"]
    data = load_text(text, "").data
    assert data is not None
    assert [one["driven_by"] for one in data["channels"]] == ["amplifier"] * 4
    assert "accessory" not in text
    check_and_build(tmp_path, files)


def test_a_plug_that_no_shell_of_the_book_fits_is_drawn(page: MakerPage, tmp_path: Path) -> None:
    describe_car(page, "Siskin", "van, base")
    page.step("Radio")
    page.answers(radio__outputs="bridged", radio__open_load_check="no", radio__data_wake="no")
    page.step("Factory amplifier")
    page.answers(factory_amplifier__feed="none")
    page.step("Features")
    page.press("maker-rest")
    page.answer("features.emergency_call", "no")
    describe_rest(page)
    describe_plug(page, "only plug", "radio")
    page.browser.run(
        "document.getElementById('maker-plug-0-rows').value = '3';"
        "document.getElementById('maker-plug-0-columns').value = '6'"
    )
    page.press("maker-plug-0-draw")
    page.answer("name", "18 cavities, three rows, big ends", kind="housing")
    page.answer("rows", "1 2 3 4 5 6\n7 _ 8 9 _ 10\n11 12 13 14 15 16", kind="housing")
    page.answer("latch", "left", kind="housing")
    page.answer("blade_mm", "1,5", kind="housing")
    page.answer("keyed_corner", "bottom right", kind="housing")
    page.press("maker-housing-sizes-add")
    page.answer("sizes.0.cavities", "1, 6", kind="housing")
    page.answer("sizes.0.blade_mm", "2.8", kind="housing")
    page.pin(0, "1", "constant", wire__base="yellow", readings=CONSTANT, **FUSE)
    page.pin(0, "2", "accessory", wire__base="red", readings=ACCESSORY)
    page.pin(0, "6", "ground", wire__base="black", readings=GROUND)
    describe_pairs(page, 0, 7)
    describe_channels(page, 4)
    findings, files = page.take()
    assert findings == [NOTHING]
    assert list(files)[1] == "housings/ardent-siskin-2019-van-base-plug-a.yaml"
    housing = load_text(files[list(files)[1]], "").data
    assert housing is not None
    assert housing["rows"][1] == [7, "_", 8, 9, "_", 10]
    assert (housing["blade_mm"], housing["sizes"][0]["cavities"]) == (1.5, [1, 6])
    check_and_build(tmp_path, files)
