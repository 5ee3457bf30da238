"""The command as people use it: answers, exit codes, formats; findings for bad input."""

from __future__ import annotations

import json
import re

import pytest
from shipped_book import PINOUTS, loombook

TANSY = "ostrel-tansy-2017-hatch-base"


def edit(book, old, new):
    path = book / "vehicles" / "ostrel" / f"{TANSY}.yaml"
    text = path.read_text("utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), "utf-8")
    return path


def test_the_shipped_book_is_clean():
    done = loombook("check", PINOUTS)
    assert done.exit_code == 0, done.output
    assert "nothing to mend" in done.output
    done = loombook("mend", "--dry-run", "-b", PINOUTS)
    assert done.exit_code == 0, done.output


def test_a_finding_names_place_fault_and_what_to_type(small_book):
    path = edit(small_book, "function: retained", "function: retaned")
    done = loombook("check", small_book)
    assert done.exit_code == 1
    line = 1 + path.read_text("utf-8").split("function: retaned")[0].count("\n")
    (found,) = [text for text in done.output.splitlines() if "SCH104" in text and ".yaml" in text]
    assert f"{TANSY}.yaml:{line}:" in found
    assert '"retaned"' in found
    assert "retained" in done.output.split(found)[1].splitlines()[1]


def test_json_is_one_document_with_every_field(small_book):
    edit(small_book, "function: retained", "function: retaned")
    document = json.loads(loombook("check", small_book, "--format", "json").output)
    assert document["failing"] == 1
    first = next(item for item in document["findings"] if item["rule"] == "SCH104")
    assert set(first) == {
        "file",
        "line",
        "column",
        "severity",
        "rule",
        "slug",
        "message",
        "help",
        "docs",
        "path",
        "accepted",
        "says",
        "fixable",
    }


def test_github_annotations_escape_and_count(small_book):
    edit(small_book, "function: retained", "function: retaned")
    lines = loombook("check", small_book, "--format", "annotations").output.splitlines()
    assert lines[0].startswith("::error file=")
    assert ",line=" in lines[0]
    assert "title=SCH104 not-in-list::" in lines[0]


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (("check", "no-such-folder"), "there is no folder"),
        (("plan", TANSY, "-b", str(PINOUTS), "-c", "cvn-9z"), "no converter is called"),
        (("show", "zzz", "-b", str(PINOUTS)), "no vehicle is called"),
        (("plan", TANSY, "-b", str(PINOUTS)), "no job is called"),
        (("nonsense",), "No such command"),
    ],
)
def test_wrong_use_exits_2_and_says_why(arguments, says):
    done = loombook(*arguments)
    assert done.exit_code == 2
    assert says in done.output


def test_find_answers_with_cavity_plug_wire_and_grade():
    done = loombook("find", "tansy", "2018", "switched", "-b", PINOUTS)
    assert done.exit_code == 0
    (line,) = [text for text in done.output.splitlines() if "retained" in text]
    assert line.split() == [
        "retained",
        "supply",
        "plug",
        "A",
        "cavity",
        "7",
        "red",
        "proven",
    ]


def test_find_without_an_answer_exits_1():
    assert loombook("find", "zibbelin", "-b", PINOUTS).exit_code == 1


def test_show_prints_cautions_before_pins():
    output = loombook("show", TANSY, "-b", PINOUTS).output
    assert output.index("Danger") < output.index("Plug A")


def test_a_plan_is_printed_and_is_the_same_as_json():
    text = loombook("plan", TANSY, "-c", "cvn-2a", "-b", PINOUTS)
    data = json.loads(
        loombook("plan", TANSY, "-c", "cvn-2a", "-b", PINOUTS, "--format", "json").output
    )
    assert text.exit_code == 0
    assert data["kind"] == "tap_plan"
    for feed in data["feeds"]:
        assert f"plug {feed['plug']}  cavity {feed['cavity']}" in text.output


def test_a_refused_plan_exits_1_with_the_reason():
    done = loombook("plan", TANSY, "-c", "tsm-2g", "-b", PINOUTS)
    assert done.exit_code == 1
    assert "can destroy it" in done.output


def test_completion_scripts_name_the_command():
    for shell in ("bash", "fish", "zsh"):
        assert "_LOOMBOOK_COMPLETE" in loombook("completion", shell).output


def test_help_teaches():
    output = loombook("--help").output
    for word in ("loombook find", "loombook plan", "loombook check", "Exit codes"):
        assert word in output


def test_a_book_without_settings_or_vehicles_is_a_book(tmp_path):
    (tmp_path / "housings").mkdir()
    done = loombook("check", tmp_path)
    assert done.exit_code == 0
    assert "0 records checked" in done.output


def test_settings_are_checked_like_records(small_book):
    (small_book / "book.yaml").write_text("schema: 1\nsite_nam: x\n", "utf-8")
    done = loombook("check", small_book)
    assert done.exit_code == 1
    assert "book.yaml:2:1" in done.output
    assert "site_name" in done.output


def test_house_defaults_of_the_book_reach_the_plan(small_book):
    (small_book / "book.yaml").write_text(
        "schema: 1\nhouse_defaults: {margin_thin_db: 9}\n", "utf-8"
    )
    data = json.loads(
        loombook("plan", TANSY, "-c", "cvn-2a", "-b", small_book, "--format", "json").output
    )
    # 7.7 dB straight in are less than this house wants, so each pair gets a pad.
    assert all(level["pad_ohm_per_leg"] for level in data["levels"])
    assert all(9 <= level["converter_margin_db"] < 10 for level in data["levels"])


@pytest.mark.parametrize("car", ["mirdle-smew-2004", "quillan-lovage-2021-top", TANSY])
def test_json_holds_every_explanation_that_the_text_shows(car):
    text = loombook("show", car, "-b", PINOUTS).output
    data = json.loads(loombook("show", car, "-b", PINOUTS, "--format", "json").output)
    against = data["computed"]["spoken_against"]
    places = re.findall(r"^(?:Disputed|Spoken against): (\S+)$", text, re.M)
    assert sorted(f"{one['plug']}.{one['cavity']}" for one in against) == sorted(places) != []
    for one in against:
        assert [each["cause"] for each in one["tried"]][-1] == "dispute"
        for each in one["tried"]:
            title = each["title"][0].upper() + each["title"][1:]
            assert f"{title}: {each['verdict']}; {each['why']}" in text
        assert one["first"]["do"].removesuffix(".") in text
        assert (one["dispute"] is not None) is (one["grade"] == "disputed")
        if one["dispute"]:
            for side in one["dispute"]["sides"]:
                assert f"is {side['says']} ({side['strength']:.2f})" in text
            decides = one["dispute"]["measure"] or one["dispute"]["instead"]
            assert decides and decides in text


def test_nothing_is_spoken_against_a_car_whose_pins_agree():
    found = loombook("show", "cindral-teasel-2023", "-b", PINOUTS, "--format", "json").output
    assert json.loads(found)["computed"]["spoken_against"] == []
