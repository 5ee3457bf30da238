"""Jobs that nobody has written: sketched from a vehicle, a converter and amplifiers."""

from __future__ import annotations

import json
import re
import shlex
from dataclasses import replace
from typing import Any

import pytest
from shipped_book import PINOUTS, loombook
from site_folder import validator

from builder.book import Book, open_book
from builder.data_files import schema_folder
from builder.pipeline.answers.answering import NoSuchRecordError
from builder.pipeline.answers.packs import MadePack, packed
from builder.pipeline.answers.sketching import Asked, sketched
from builder.planning.job.sketch_job import CannotSketchError

TANSY = "ostrel-tansy-2017-hatch-base"
SHAPE = validator(schema_folder(), "work-pack")


@pytest.fixture(scope="module")
def book() -> Book:
    return open_book(PINOUTS)


@pytest.fixture(scope="module")
def tansy(book: Book) -> MadePack:
    return sketched(book, Asked(TANSY, "cvn-2a", ("amn-600",)))


def plays(made: MadePack) -> dict[str, tuple[str, ...]]:
    return {speaker.name: speaker.plays for speaker in made.parts.job.speakers}


def treatments(made: MadePack) -> dict[str, str]:
    return dict(tuple(one.decision.split(": ")) for one in made.pack.treatments)


def assumed(made: MadePack) -> dict[str, str]:
    return {one.decision: one.source for one in made.pack.assumed}


CASES: list[tuple[Asked, str, dict[str, tuple[str, ...]]]] = [
    (Asked(TANSY, "cvn-2a", ("amn-600",)), "tap_plan", {"subwoofer": ("rear-left", "rear-right")}),
    (
        Asked(TANSY, "cvn-2a", ("tsm-75x2",)),
        "tap_plan",
        {"subwoofer 1": ("rear-left",), "subwoofer 2": ("rear-right",)},
    ),
    (
        Asked(TANSY, "cvn-2a", ("tsm-75x2",), "intercept"),
        "tap_plan",
        {"front left speaker": ("front-left",), "front right speaker": ("front-right",)},
    ),
    (
        Asked(TANSY, "cvn-4a", ("tsm-5d",)),
        "tap_plan",
        {
            "front left speaker": ("front-left",),
            "front right speaker": ("front-right",),
            "rear left speaker": ("rear-left",),
            "rear right speaker": ("rear-right",),
            "subwoofer": ("front-left", "front-right"),
        },
    ),
    (
        Asked("wexlow-quern-2016-early", "cvn-4a", ("amn-4",), "addon"),
        "tap_plan",
        {"subwoofer 1": ("front-left",), "subwoofer 2": ("front-right",)},
    ),
]


@pytest.mark.parametrize(("asked", "kind", "who"), CASES, ids=lambda each: getattr(
    each, "vehicle", None
))  # fmt: skip
def test_amplifiers_decide_what_is_done(
    book: Book, asked: Asked, kind: str, who: dict[str, tuple[str, ...]]
) -> None:
    made = sketched(book, asked)
    assert (made.pack.kind, plays(made)) == (kind, who)
    data = made.as_data()
    SHAPE.validate(data)
    assert data["assumed"]


def test_a_taken_over_door_is_broken_and_a_heard_one_is_not(book: Book) -> None:
    taken = treatments(sketched(book, Asked(TANSY, "cvn-4a", ("amn-4",))))
    assert set(taken.values()) == {"intercept"}
    heard = treatments(sketched(book, Asked(TANSY, "cvn-4a", ("amn-4",), "addon")))
    assert heard["rear left"] == "add-on"
    assert "intercept" not in heard.values()


def test_what_the_rules_stop_in_a_job_they_stop_in_a_sketch(book: Book) -> None:
    made = sketched(book, Asked("hesper-tarn-2022-hybrid", "cvn-2a", ("ok-250",)))
    written = packed(book, "tarn-subwoofer")
    accepted = {finding.rule_id for finding in written.findings if finding.accepted}
    standing = {finding.rule_id for finding in made.findings if finding.fails_check}
    assert (written.pack.kind, made.pack.kind) == ("tap_plan", "no_plan")
    assert standing & accepted  # the written job answers for it, and nobody answers for a sketch
    assert (made.pack.cut_list, made.pack.plan.feeds) == ((), ())
    SHAPE.validate(made.as_data())


def test_a_car_nobody_may_tap_is_refused_with_the_reason(book: Book) -> None:
    made = sketched(book, Asked("mirdle-cutter-1996", "cvn-2a", ("tsm-75x2",), "intercept"))
    assert made.pack.kind != "tap_plan"
    assert made.pack.refusals
    SHAPE.validate(made.as_data())


def test_the_sketch_agrees_with_the_written_job_where_both_say_the_same(
    book: Book, tansy: MadePack
) -> None:
    written = packed(book, "tansy-subwoofer")
    a, b = tansy.pack, written.pack
    assert a.plan.feeds == b.plan.feeds
    assert a.plan.turn_on == b.plan.turn_on
    assert a.plan.levels == b.plan.levels
    assert a.treatments == b.treatments
    assert a.losses == b.losses
    assert a.power is not None
    assert b.power is not None
    assert [replace(run, name="") for run in a.power.runs] == [
        replace(run, name="") for run in b.power.runs
    ]
    assert a.power.main_fuse_a == b.power.main_fuse_a
    assert a.power.listening_h == b.power.listening_h
    assert [g.tone_hz for g in a.levels] == [g.tone_hz for g in b.levels]
    # Nobody named a 500 W subwoofer here, so the amplifier and not the speaker is the limit.
    assert (a.levels[0].limited_by, b.levels[0].limited_by) == ("amplifier", "speaker")


def test_every_assumption_says_where_it_comes_from(book: Book, tansy: MadePack) -> None:
    said = assumed(tansy)
    assert said["supply lead of 5.2 m"] == "the vehicle's record"
    assert said["subwoofer of 2 Ω, 600 W"] == "the amplifier's record"
    shop = replace(book, defaults=replace(book.defaults, sketch_route_m=7.25))
    longer = sketched(shop, Asked(TANSY, "cvn-2a", ("amn-600",)))
    what = "7.25 m between radio, converter and amplifiers"
    assert assumed(longer)[what] == "house default of this book"
    assert "a pad wherever an input has less than 3 dB to spare" in said
    assert {route.length_m for route in longer.parts.job.routes} == {7.25}
    declared = next(what for what in said if "supply wire: copper; ground goes: body side" in what)
    assert declared.startswith("family of the main fuse: maxi;")
    assert said[declared] == "common practice, no source"


def test_ohms_are_read_where_the_record_has_them(book: Book) -> None:
    made = sketched(book, Asked("brantmoor-sedge-2015", "cvn-2a", ("tsm-75x2",), "intercept"))
    known = {each.channel: each.speaker_ohm for each in made.parts.vehicle.channels}
    for speaker in made.parts.job.speakers:
        wanted = known.get(speaker.channel)
        assert speaker.nominal_ohm == (wanted or made.parts.shelf.defaults.sketch_speaker_ohm)


def test_no_job_of_the_book_carries_assumptions(book: Book) -> None:
    assert packed(book, "tansy-subwoofer").as_data()["assumed"] == []


@pytest.mark.parametrize(
    ("asked", "near"),
    [
        (Asked(TANSY, "cvn-2a", ("amn-60",)), 'is called "amn-60"; did you mean "amn-600"'),
        (Asked(TANSY, "cvn-2aa", ("amn-600",)), 'is called "cvn-2aa"; did you mean "cvn-2a"'),
        (Asked("cindral-teasl", "cvn-2a", ("amn-600",)), 'did you mean "cindral-teasel-2023"'),
    ],
)  # fmt: skip
def test_a_wrong_id_gets_the_nearest_spelling(book: Book, asked: Asked, near: str) -> None:
    with pytest.raises(NoSuchRecordError, match=re.escape(near)):
        sketched(book, asked)


def test_a_mono_amplifier_breaks_no_doors(book: Book) -> None:
    with pytest.raises(CannotSketchError, match="two full-range amplifier channels"):
        sketched(book, Asked(TANSY, "cvn-2a", ("amn-600",), "intercept"))


# -- the command --------------------------------------------------------------------------------

SKETCH = ("plan", TANSY, "-b", PINOUTS, "--converter", "cvn-2a", "--amplifier", "amn-600")


def test_the_command_begins_with_what_was_assumed() -> None:
    done = loombook(*SKETCH)
    assert done.exit_code == 0, done.output
    first, *rest = done.output.splitlines()
    assert first == "Assumed, because no job says otherwise: measure before you cut"
    assert rest.index("A  THE JOB") > next(
        i for i, line in enumerate(rest) if "supply lead" in line
    )
    data = json.loads(loombook(*SKETCH, "--format", "json").output)
    assert (data["job"], data["kind"]) == ("sketch", "tap_plan")


def test_the_command_it_prints_begins_the_job() -> None:
    text = loombook(*SKETCH).output
    lines = text.split("loombook new job")[1].split("\n\n")[0]
    typed = lines.replace("\\\n", "").replace("PLACE", "left side").replace("METRES", "1.2")
    more: list[Any] = [
        *("--title", "bass", "--car", "oak-1", "--year", "2017", "--wanted", "bass"),
        *("--protect", "none", "--converter-place", "left side", "--fuse-family", "maxi"),
        *("--route", "radio > converter: signal, 5 m", "--supply-lead", "5.2"),
        *("--ground-lead", "0.5", "--fuse-to-battery", "0.3"),
    ]
    done = loombook("new", "job", *shlex.split(typed), *more, "-b", PINOUTS, "--dry-run")
    assert "part: amn-600" in done.output, done.output
    assert re.search(r"from: \[rear-left, rear-right\]", done.output)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (
            ("plan", "tansy-subwoofer", "--amplifier", "amn-600"),
            "--amplifier goes with --converter",
        ),
        (("plan", TANSY, "-c", "cvn-2a", "-a", "amn-60"), 'did you mean "amn-600"'),
        (("plan", TANSY, "-c", "cvn-2b"), 'did you mean "cvn-2'),
        (("plan", TANSY, "-c", "cvn-2a", "-a", "amn-600", "--treatment", "intercept"), "two full"),
    ],
)
def test_wrong_use_of_the_command_ends_with_2(words: tuple[str, ...], said: str) -> None:
    done = loombook(*words, "-b", PINOUTS)
    assert done.exit_code == 2
    assert said in " ".join(done.output.split())
