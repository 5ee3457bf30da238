"""Grades: the worked figures, the caps, and what may never lower or raise them."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from proof_cars import (
    channel,
    claim,
    full_constant,
    ohm,
    part_constant,
    pin,
    reading,
    scope,
    session,
    speaker,
    vehicle,
)
from samples import many

from builder.model.house_defaults import HouseDefaults
from builder.model.plugs import Claim, Reading, Session
from builder.model.vehicle import Resolution, Vehicle
from builder.proof.grading.grade import Grade, grade_pin, shown_score
from builder.proof.grading.probed import UNREAD
from builder.proof.signatures.of_pins import kinds

HOUSE = HouseDefaults()


def grade(
    readings: tuple[Reading, ...] = (),
    claims: tuple[Claim, ...] = (),
    sessions: tuple[Session, ...] = (session(),),
    year: int | None = None,
    function: str = "constant",
) -> Grade:
    wire = pin("1", function, readings=readings, claims=claims)
    return grade_pin(vehicle(wire, sessions=sessions), wire, HOUSE, year)


def apart(*readings: Reading, by: float = 0.01) -> tuple[Reading, ...]:
    """The same readings a little off, as a second meter would give them."""
    return tuple(
        reading(r.state, (r.value or 0) - by, battery_v=(r.battery_v or 0) - by, load=r.load,
                session="s2", minutes=r.minutes)
        for r in readings
    )  # fmt: skip


TWO = (session(), session("s2", "harbour-sound"))


def test_nothing_is_unproved() -> None:
    result = grade()
    assert (result.band, result.score, result.why) == (
        "unproved",
        0.0,
        "nobody has measured or claimed it",
    )
    assert result.raise_by == "measure: under a 0.4 A or 1 A test load"


def test_one_full_proof_is_good() -> None:
    result = grade(full_constant())
    assert result.score == pytest.approx(0.80)
    assert result.label == "0.80 good"
    assert result.raise_by == "readings by a second contributor"


def test_two_full_proofs_are_proven() -> None:
    result = grade(full_constant() + apart(*full_constant()), sessions=TWO)
    assert result.score == pytest.approx(0.96)
    assert (result.band, result.contributors, result.raise_by) == ("proven", 2, "")


def test_a_grade_counts_those_who_support_it() -> None:
    assert grade(full_constant()).sentences[0].startswith("one contributor, full proof, measured")
    two = grade(full_constant() + apart(*full_constant()), sessions=TWO)
    assert two.sentences[0].startswith("2 contributors, full proof, measured on model year ")


def test_a_look_is_asked_for_before_a_load() -> None:
    """Switching the source costs a look; a load costs the same and wants something put on."""
    read = (reading("radio_off", 0.0), reading("radio_on_zero", 12.1))
    wire = pin("1", "amplifier_on", level_v=12.0, readings=read)
    found = grade_pin(vehicle(wire, sessions=(session(),)), wire, HOUSE)
    assert len(found.missing) == 2
    assert found.raise_by == f"measure: {kinds(HOUSE)['amplifier_on_12v'].defining['source']}"


def test_a_turn_on_output_holds_its_volts_under_load_and_a_supply_is_not_asked_to() -> None:
    def sentences(function: str, *readings: Reading) -> str:
        wire = pin("1", function, level_v=12.0 if function == "amplifier_on" else None,
                   readings=readings)  # fmt: skip
        return " ".join(grade_pin(vehicle(wire, sessions=(session(),)), wire, HOUSE).sentences)

    on = (reading("radio_off", 0.0), reading("tuner", 12.1), reading("other_source", 12.1))
    held = HOUSE.supply_drop_v
    kept = reading("tuner", 12.1 - held, load="50ma")
    sags = reading("tuner", 12.1 - held - 0.1, load="50ma")
    assert "sags by" not in sentences("amplifier_on", *on, kept)
    assert f"it sags by {held + 0.1:.2f} V under load" in sentences("amplifier_on", *on, sags)
    supply = (reading("run", 12.4), reading("run", 12.3 - held, load="1a"))
    assert "sags by" not in sentences("constant", *supply)


def test_readings_of_a_visit_that_is_not_on_record_say_nothing() -> None:
    """A rule names the visit that is missing; the grade counts nothing that nobody dated."""
    lone = tuple(replace(one, session="nobody") for one in full_constant())
    found = grade(lone)
    assert (found.band, found.items) == ("unproved", ())
    assert grade((*full_constant(), *lone)).score == grade(full_constant()).score


def test_a_far_year_is_said_only_where_one_was_asked_for() -> None:
    near = "nobody measured a car within one year of 2021"
    assert near in grade(full_constant(), year=2021).sentences
    for unasked in (grade(full_constant()), grade(full_constant(), year=2018)):
        assert not [said for said in unasked.sentences if "within one year" in said]


def test_two_papers_stop_at_half() -> None:
    result = grade(claims=(claim("a", "paper"), claim("b", "paper")))
    assert result.support == pytest.approx(0.64)
    assert (result.score, result.band) == (0.50, "check first")


@pytest.mark.parametrize(
    ("method", "weight"), [("job", 0.60), ("paper", 0.40), ("colour", 0.20), ("told", 0.10)]
)
def test_what_one_claim_of_each_method_weighs(method: str, weight: float) -> None:
    assert grade(claims=(claim("a", method),)).support == pytest.approx(weight)


def test_full_against_paper_is_disputed() -> None:
    result = grade(full_constant(), (claim("b", "paper", "accessory"),))
    assert result.score == pytest.approx(0.48)
    assert result.band == "disputed"
    assert result.raise_by.startswith("the reading that decides: ")


def test_full_and_job_by_one_person_stop_at_the_lone_cap() -> None:
    result = grade(full_constant(), (claim("alder-pit-audio", "job"),))
    assert result.support == pytest.approx(0.92)
    assert result.label == "0.85 good"
    assert "one contributor alone: at most 0.85" in result.sentences


def test_one_contributor_is_told_alone_only_where_that_took_something_away() -> None:
    alone = "one contributor alone"
    lone = grade(full_constant())
    assert lone.support < HOUSE.cap_one_contributor and alone not in lone.why
    assert "cap_one_contributor" not in lone.house
    wire = pin("1", "constant", readings=full_constant())
    car = vehicle(wire, sessions=(session(),))
    exact = replace(HOUSE, cap_one_contributor=lone.support)
    assert alone not in grade_pin(car, wire, exact).why
    lower = replace(HOUSE, cap_one_contributor=lone.support - 0.05)
    assert "one contributor alone: at most 0.75" in grade_pin(car, wire, lower).sentences
    assert "cap_one_contributor" in grade_pin(car, wire, lower).house
    two = grade(full_constant() + apart(*full_constant()), sessions=TWO)
    assert two.support > HOUSE.cap_one_contributor and alone not in two.why
    assert "cap_one_contributor" not in two.house


def test_what_nobody_measured_says_its_cap_with_two_places() -> None:
    said = grade((), (claim("a", "paper"),)).sentences
    assert "nobody measured it: at most 0.50" in said


def test_partial_proof_names_what_is_missing() -> None:
    result = grade(part_constant())
    assert result.label == "0.55 check first"
    assert result.missing == ("asleep for at least an hour: key out, locked",)
    assert result.raise_by == "measure: asleep for at least an hour: key out, locked"


def test_half_an_hour_asleep_is_measured_but_not_proof() -> None:
    half = (reading("asleep", 12.6, battery_v=12.62, minutes=35.0), *part_constant())
    assert grade(half).label == "0.55 check first"


def test_full_proof_needs_battery_volts() -> None:
    off_states = (
        reading("asleep", 0.02, battery_v=None),
        reading("accessory", 12.2),
        reading("retained", 0.02),
    )
    result = grade(off_states, function="accessory")
    assert result.label == "0.55 check first"
    assert result.raise_by == "write the battery volts beside each reading"


def test_unknown_face_caps_the_item() -> None:
    result = grade(full_constant(), sessions=(session(read_from="unknown"),))
    assert result.label == "0.40 check first"
    assert "face" in result.raise_by


def test_readings_of_several_visits_to_one_car_count_together() -> None:
    visits = (session(), session("s2", date="2024-05-14"))
    both = (full_constant()[0], *part_constant("s2"))
    assert grade(both, sessions=visits).label == "0.80 good"
    other_car = (session(), session("s2", date="2024-05-14", car_tag="another"))
    assert grade(both, sessions=other_car).label == "0.55 check first"


def test_contradicting_readings_oppose() -> None:
    sleeps = (reading("asleep", 0.2, minutes=35.0), *part_constant())
    result = grade(sleeps)
    assert (result.support, result.opposition) == (0.0, pytest.approx(0.80))
    assert result.band == "don't rely"
    assert "asleep 35 min: 0.20 V, but a constant supply reads 12.10 V to 12.70 V" in result.why


def test_a_resolution_retires_the_loser() -> None:
    wire = pin(
        "1", "constant", readings=full_constant(), claims=(claim("b", "paper", "accessory"),)
    )
    settled = Resolution(
        pin="A.1",
        by="harbour-sound",
        date="2024-06-01",
        deciding="12.6 V after 70 min",
        retires=("b",),
    )
    car = vehicle(wire, sessions=(session(),), resolutions=(settled,))
    result = grade_pin(car, wire, HOUSE)
    assert result.label == "0.80 good"
    assert "set aside: b (paper, 2024-05-10) says accessory" in result.sentences


@pytest.mark.parametrize("retires", ["alder-pit-audio", "s1"])
def test_a_visit_that_lost_weighs_nothing_and_a_pin_of_it_alone_is_unproved(retires: str) -> None:
    wire = pin("1", "constant", readings=full_constant())
    settled = Resolution(
        pin="A.1", by="harbour-sound", date="2024-06-01", deciding="the photo", retires=(retires,)
    )
    result = grade_pin(vehicle(wire, sessions=(session(),), resolutions=(settled,)), wire, HOUSE)
    (lost,) = result.items
    assert (lost.retired, lost.weight) == (True, 0.0)
    assert (result.band, result.score) == ("unproved", 0.0)
    assert [said for said in result.sentences if said.startswith("set aside: ")]


def test_the_weight_of_an_unknown_face_is_said_as_the_book_sets_it() -> None:
    unknown = (session(read_from="unknown"),)
    said = "face not recorded: those readings weigh {} at most"
    assert said.format("0.40") in grade(full_constant(), sessions=unknown).sentences
    doubting = replace(HOUSE, cap_unknown_face=0.25)
    wire = pin("1", "constant", readings=full_constant())
    found = grade_pin(vehicle(wire, sessions=unknown), wire, doubting)
    assert (found.support, said.format("0.25") in found.sentences) == (0.25, True)


def test_a_year_nobody_measured_counts_less() -> None:
    near = [grade(full_constant(), year=year).score for year in (2017, 2018, 2019)]
    assert near == [pytest.approx(0.80)] * 3
    far = grade(full_constant(), year=2021)
    assert (grade(full_constant(), year=2020).score, far.score) == (pytest.approx(0.56),) * 2
    assert far.raise_by == "readings from a 2021 car"
    unknown = grade(full_constant(), sessions=(session(car_year=None),), year=2018)
    assert unknown.score == pytest.approx(0.56)


def test_a_neighbouring_trim_counts_less() -> None:
    result = grade(full_constant(), sessions=(session(car_trim="sport"),))
    assert result.score == pytest.approx(0.56)
    other_side = grade(full_constant(), sessions=(session(car_drive_side="right"),))
    assert other_side.score == pytest.approx(0.56)
    unsaid = grade(full_constant(), sessions=(session(car_trim=None),))
    assert unsaid.score == pytest.approx(0.80)


def test_a_neighbouring_trim_is_said_to_be_one_and_not_taken_for_another_year() -> None:
    neighbour = "measured on a neighbouring trim or drive side only"
    far = grade(full_constant(), sessions=(session(car_trim="sport"),), year=2018)
    assert neighbour in far.sentences
    assert not [said for said in far.sentences if "within one year" in said]
    other = session("s2", "harbour-sound", car_trim="sport")
    both = grade(full_constant() + apart(*full_constant()), sessions=(session(), other))
    assert neighbour not in both.sentences


def test_far_evidence_never_pulls_below_the_claims() -> None:
    papers = (claim("a", "paper"), claim("b", "paper"))
    unknown_face = (session(read_from="unknown", car_trim="sport", by="a"),)
    assert grade((), papers).score <= grade(part_constant(), papers, unknown_face).score


def test_identical_figures_count_once() -> None:
    same = full_constant() + full_constant("s2") + full_constant("s3")
    three = (session(), session("s2", "harbour-sound"), session("s3", "ridge-car-hifi"))
    result = grade(same, sessions=three)
    assert result.label == "0.80 good"
    assert "the same figures handed in by several people count once" in result.sentences
    days = (session(), session("s2", "harbour-sound", date="2024-05-20"))
    assert grade(full_constant() + full_constant("s2"), sessions=days).band == "proven"


def test_readings_that_define_nothing_leave_a_pin_unproved() -> None:
    result = grade((reading("accessory", 12.4),))
    assert result.band == "unproved"
    assert "none of the states that define" in result.why


def pair(*changes: Reading) -> Vehicle:
    legs = (
        speaker(
            "3", "positive", reading("radio_on_zero", 6.41), ohm(3.3, "4"), ohm(None), *changes
        ),
        speaker("4", "negative", reading("radio_on_zero", 6.40)),
    )
    return vehicle(*legs, sessions=(session(),), channels=(channel(),))


@pytest.mark.parametrize("leg", [0, 1])
def test_both_legs_share_ohms_and_body_reading(leg: int) -> None:
    car = pair()
    assert grade_pin(car, car.plugs[0].pins[leg], HOUSE).label == "0.80 good"


@pytest.mark.parametrize("leg", [0, 1])
def test_a_pair_tied_to_the_body_is_not_bridged(leg: int) -> None:
    car = pair(ohm(0.3))
    result = grade_pin(car, car.plugs[0].pins[leg], HOUSE)
    assert result.opposition == pytest.approx(0.80)


def test_a_silent_mate_leaves_partial_proof() -> None:
    legs = (
        speaker("3", "positive", reading("radio_on_zero", 6.41), ohm(3.3, "4"), ohm(None)),
        speaker("4", "negative", reading("radio_on_zero", 0.0)),
    )
    car = vehicle(*legs, sessions=(session(),), channels=(channel(),))
    assert grade_pin(car, legs[0], HOUSE).band in {"check first", "don't rely"}
    assert grade_pin(car, legs[1], HOUSE).band == "don't rely"


@pytest.mark.parametrize(("other", "opposes"), [(6.30, False), (6.17, False), (6.15, True)])
def test_legs_of_a_bridge_keep_within_a_quarter_volt(other: float, opposes: bool) -> None:
    legs = (
        speaker("3", "positive", reading("radio_on_zero", 6.41)),
        speaker("4", "negative", reading("radio_on_zero", other)),
    )
    car = vehicle(*legs, sessions=(session(),), channels=(channel(),))
    assert (grade_pin(car, legs[0], HOUSE).opposition > 0) is opposes


def test_common_ground_pair() -> None:
    legs = (
        speaker("3", "positive", reading("radio_on_zero", 0.0), ohm(3.4, "4")),
        speaker("4", "negative", reading("radio_on_zero", 0.0), ohm(0.2)),
    )
    for outputs, band in (
        ("common_ground", "good"),
        ("unknown", "good"),
        ("bridged", "don't rely"),
    ):
        car = vehicle(*legs, sessions=(session(),), channels=(channel(),), outputs=outputs)
        assert [grade_pin(car, leg, HOUSE).band for leg in legs] == [band, band]


def test_boosted_bias_belongs_to_a_factory_amplifier() -> None:
    legs = tuple(
        speaker(cavity, leg, reading("radio_on_zero", 9.9), ohm(1.7, other), ohm(None))
        for cavity, leg, other in (("3", "positive", "4"), ("4", "negative", "3"))
    )
    by_amplifier = vehicle(
        *legs, sessions=(session(),), channels=(channel(driven_by="amplifier", speaker_ohm=2.0),),
        feed="digital",
    )  # fmt: skip
    assert grade_pin(by_amplifier, legs[0], HOUSE).band == "good"
    by_radio = vehicle(*legs, sessions=(session(),), channels=(channel(),))
    assert grade_pin(by_radio, legs[0], HOUSE).band == "don't rely"


def raised(bias_v: float, rail_v: float | None) -> str:
    """The band of a leg of a factory amplifier that rests at some volts."""
    legs = tuple(
        speaker(cavity, leg, reading("radio_on_zero", bias_v), ohm(1.7, other), ohm(None))
        for cavity, leg, other in (("3", "positive", "4"), ("4", "negative", "3"))
    )
    carried = channel(driven_by="amplifier", speaker_ohm=2.0)
    car = vehicle(*legs, sessions=(session(),), channels=(carried,), feed="digital")
    car = replace(car, factory_amplifier=replace(car.factory_amplifier, rail_v=rail_v))
    return grade_pin(car, legs[0], HOUSE).band


@pytest.mark.parametrize(
    ("bias_v", "rail_v", "band"),
    [
        (16.0, 32.0, "good"),
        (14.4, 32.0, "good"),  # a tenth under half of it
        (14.3, 32.0, "don't rely"),
        (17.7, 32.0, "don't rely"),
        (16.0, None, "don't rely"),
        (9.9, 32.0, "don't rely"),  # what a stated rail forbids is no proof of it
    ],
)
def test_legs_above_14_v_are_proved_where_the_record_states_a_raised_rail(
    bias_v: float, rail_v: float | None, band: str
) -> None:
    assert raised(bias_v, rail_v) == band


def test_tweeter_behind_a_capacitor_reads_open() -> None:
    legs = tuple(
        speaker(
            cavity, leg, reading("radio_on_zero", 6.4), ohm(None, other), ohm(None),
            channel="front-left-tweeter",
        )
        for cavity, leg, other in (("3", "positive", "4"), ("4", "negative", "3"))
    )  # fmt: skip
    car = vehicle(*legs, sessions=(session(),), channels=(channel("front-left-tweeter"),))
    assert grade_pin(car, legs[0], HOUSE).band == "good"


def test_turn_on_that_follows_the_source_or_sags_is_refused() -> None:
    steady = (
        reading("radio_off", 0.0),
        reading("tuner", 12.1),
        reading("other_source", 12.1),
        reading("tuner", 11.9, load="50ma"),
    )
    assert grade(steady, function="amplifier_on").label == "0.80 good"
    follows = (*steady[:2], reading("other_source", 0.0))
    assert grade(follows, function="amplifier_on").opposition > 0
    assert grade(follows, function="aerial_on").band == "good"
    sags = (*steady[:3], reading("tuner", 11.4, load="50ma"))
    assert grade(sags, function="amplifier_on").opposition > 0


def test_claims_about_another_channel_oppose() -> None:
    wire = speaker("3", "positive", claims=(claim("a", "paper", "speaker", channel="rear-left"),))
    assert grade_pin(vehicle(wire), wire, HOUSE).opposition == pytest.approx(0.40)
    same = speaker("3", "positive", claims=(claim("a", "paper", "speaker"),))
    assert grade_pin(vehicle(same), same, HOUSE).support == pytest.approx(0.40)


# -- what may never happen -----------------------------------------------------------------

READING_SETS = {
    "full": full_constant,
    "part": part_constant,
    "weak": lambda name: (reading("asleep", 12.5, minutes=30.0, session=name),),
    "against": lambda name: (reading("run", 0.1, session=name),),
    "against_full": lambda name: (
        reading("asleep", 0.1, session=name),
        reading("run", 12.2, load="1a", session=name),
    ),
    "silent": lambda name: (reading("crank", 9.0, session=name),),
}
METHODS = ("paper", "colour", "told", "job")


@st.composite
def contributions(draw: st.DrawFn) -> tuple[str, str, str, bool, int | None, str | None, int]:
    return (
        draw(st.sampled_from(["ann", "bob", "cem", "dov"])),
        draw(st.sampled_from([*READING_SETS, *METHODS])),
        draw(st.sampled_from(["wire_side", "unknown"])),
        draw(st.booleans()),
        draw(st.sampled_from([2015, 2018, None])),
        draw(st.sampled_from(["base", "sport", None])),
        draw(st.integers(1, 3)),
    )


def build(
    parts: list[tuple[str, str, str, bool, int | None, str | None, int]],
) -> tuple[tuple[Reading, ...], tuple[Claim, ...], tuple[Session, ...]]:
    readings: list[Reading] = []
    claims: list[Claim] = []
    sessions: list[Session] = []
    for index, (who, what, face, agrees, year, trim, day) in enumerate(parts):
        if what in METHODS:
            claims.append(claim(who, what, "constant" if agrees else "run"))
            continue
        name = f"v{index}"
        sessions.append(
            session(name, who, read_from=face, car_year=year, car_trim=trim,
                    date=f"2024-05-0{day}", car_tag=f"{who}{day}")
        )  # fmt: skip
        readings.extend(READING_SETS[what](name))
    return tuple(readings), tuple(claims), tuple(sessions)


def graded(
    parts: list[tuple[str, str, str, bool, int | None, str | None, int]], year: int | None
) -> Grade:
    readings, claims, sessions = build(parts)
    return grade(readings, claims, sessions, year)


def speaks(part: tuple[str, str, str, bool, int | None, str | None, int]) -> str:
    if part[1] in METHODS:
        return "for" if part[3] else "against"
    return "against" if part[1].startswith("against") else "for"


@settings(max_examples=many(150), deadline=None)
@given(st.lists(contributions(), max_size=6), contributions(), st.sampled_from([None, 2016, 2018]))
def test_more_support_never_lowers_and_more_opposition_never_raises(
    parts: list[tuple[str, str, str, bool, int | None, str | None, int]],
    more: tuple[str, str, str, bool, int | None, str | None, int],
    year: int | None,
) -> None:
    before, after = graded(parts, year), graded([*parts, more], year)
    if speaks(more) == "for":
        assert after.score >= before.score - 1e-9
    else:
        assert after.score <= before.score + 1e-9


@settings(max_examples=many(60), deadline=None)
@given(st.lists(contributions(), max_size=5), st.randoms(use_true_random=False))
def test_order_never_matters(
    parts: list[tuple[str, str, str, bool, int | None, str | None, int]], random: object
) -> None:
    readings, claims, sessions = build(parts)
    shuffled = []
    for group in (readings, claims, sessions):
        mixed = list(group)
        random.shuffle(mixed)  # type: ignore[attr-defined]
        shuffled.append(tuple(mixed))
    straight, mixed_up = grade(readings, claims, sessions), grade(*shuffled)
    assert straight.score == pytest.approx(mixed_up.score, abs=1e-12)
    assert (straight.band, straight.raise_by) == (mixed_up.band, mixed_up.raise_by)


def test_scope_without_trims_accepts_any_trim() -> None:
    wire = pin("1", "constant", readings=full_constant())
    car = vehicle(wire, sessions=(session(car_trim="sport"),), where=scope(trims=("all",)))
    assert grade_pin(car, wire, HOUSE).label == "0.80 good"


def test_a_score_is_rounded_and_never_into_the_next_band() -> None:
    assert [shown_score(score) for score in (0.8999, 0.728, 0.7, 0.85, 0.976, 0.698, 0.997)] == [
        "0.8999", "0.73", "0.70", "0.85", "0.98", "0.698", "0.997",
    ]  # fmt: skip


def test_where_no_reading_decides_what_raises_a_grade_is_what_tells_by_hand() -> None:
    car = pin("1", "ground", readings=(reading("run", 0.03, load="1a"),),
              claims=(claim("b", "paper", "shield"),))  # fmt: skip
    assert grade_pin(vehicle(car, sessions=TWO), car, HOUSE).raise_by.startswith(
        "no single reading decides against a cable shield. Follow the wire"
    )


# -- a leg that no meter was on -----------------------------------------------------------------


def lone_leg(*, against: str = "", own: bool = False) -> Vehicle:
    """A pair whose positive leg two people read, against the other one when it is named; the
    negative leg as `own` says."""
    positive = [
        each
        for name, off in (("s1", 0.0), ("s2", 0.01))
        for each in (
            reading("radio_on_zero", 6.4 + off, session=name),
            ohm(None, against="body", session=name),
            *([ohm(3.3 + off, against=against, session=name)] if against else []),
        )
    ]
    negative = [
        reading("radio_on_zero", 6.39 + off, session=name)
        for name, off in (("s1", 0.0), ("s2", 0.01))
    ]
    return vehicle(
        speaker("1", "positive", readings=tuple(positive)),
        speaker("2", "negative", readings=tuple(negative) if own else ()),
        sessions=TWO,
        channels=(channel("front-left"),),
    )


def test_a_leg_that_no_meter_was_on_is_checked_first() -> None:
    car = lone_leg()
    result = grade_pin(car, car.plugs[0].pins[1], HOUSE)
    assert result.band == "check first"
    assert result.score <= HOUSE.cap_unmeasured
    assert f"{UNREAD}: at most 0.50" in result.sentences
    assert result.raise_by.startswith("read this wire itself")
    assert "cap_unmeasured" in result.house


@pytest.mark.parametrize("point", ["2", "A.2"])
def test_a_pair_reading_counts_for_both_legs(point: str) -> None:
    car = lone_leg(against=point)
    result = grade_pin(car, car.plugs[0].pins[1], HOUSE)
    assert "no meter was ever on this wire" not in result.why
    assert result.band == "good"


def test_a_house_that_trusts_the_unmeasured_still_does_not_rely_on_such_a_leg() -> None:
    car = lone_leg()
    house = HouseDefaults(cap_unmeasured=1.0)
    assert grade_pin(car, car.plugs[0].pins[1], house).band == "check first"


def test_reading_the_wire_itself_raises_it() -> None:
    before, after = (lone_leg(against="2", own=own) for own in (False, True))
    graded = [grade_pin(car, car.plugs[0].pins[1], HOUSE) for car in (before, after)]
    bare = grade_pin(lone_leg(), lone_leg().plugs[0].pins[1], HOUSE)
    assert bare.score < graded[0].score <= graded[1].score
