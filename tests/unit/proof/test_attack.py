"""What speaks against a pin: each explanation when it fits, when it does not, and their order."""

from __future__ import annotations

from dataclasses import replace

import pytest
from proof_cars import claim, full_constant, housing, pin, reading, session, speaker, vehicle

from builder.model.book import Shelf
from builder.model.house_defaults import HouseDefaults
from builder.model.plugs import LookAlike, Pin, Reading, Session
from builder.model.vehicle import Vehicle
from builder.proof.contradictions.dispute import LOADED
from builder.proof.contradictions.face import explain_visit
from builder.proof.contradictions.spoken_against import Attack, Explanation, attack_of
from builder.proof.grading.grade import grade_pin
from builder.rules import evidence_disputed

HOUSE = HouseDefaults()
SHELL = housing(("1", "2", "3", "4"), ("5", "6", "7", "8"))
ORDER = ["face", "scope", "place", "state", "dispute"]


def on(session_id: str, *readings: Reading) -> tuple[Reading, ...]:
    return tuple(replace(one, session=session_id) for one in readings)


def accessory(session_id: str) -> tuple[Reading, ...]:
    return on(
        session_id,
        reading("asleep", 0.02),
        reading("accessory", 12.3),
        reading("retained", 0.01),
        reading("run", 12.2, load="1a"),
    )


def lamps(session_id: str) -> tuple[Reading, ...]:
    return on(session_id, reading("lights_off", 0.0), reading("lights_on", 9.0),
              reading("accessory", 0.02))  # fmt: skip


def ground(session_id: str) -> tuple[Reading, ...]:
    return on(session_id, reading("run", 0.03, load="1a"), reading("accessory", 0.01))


def attacked(car: Vehicle, cavity: str, plug: int = 0) -> Attack | None:
    wire = next(one for one in car.plugs[plug].pins if one.cavity == cavity)
    return attack_of(car, wire, grade_pin(car, wire, HOUSE), HOUSE, {"block-a-8": SHELL})


def told(car: Vehicle, cavity: str) -> dict[str, Explanation]:
    found = attacked(car, cavity)
    assert found is not None
    assert [one.cause for one in found.tried] == ORDER
    return {one.cause: one for one in found.tried}


def first(car: Vehicle, cavity: str) -> Explanation:
    found = attacked(car, cavity)
    assert found is not None
    return found.first


def car_of(*pins: Pin, others: tuple[Session, ...] = ()) -> Vehicle:
    """A car whose pins stand at paths of their own, measured in s1 and in the `others`."""
    placed = [replace(one, path=("plugs", 0, "pins", n)) for n, one in enumerate(pins)]
    return vehicle(*placed, sessions=(session(), *(others or (session("s2", "harbour-sound"),))))


def test_nothing_against_a_pin_is_nothing_to_explain() -> None:
    assert attacked(car_of(pin("1", "constant", readings=full_constant())), "1") is None


# -- the other face ------------------------------------------------------------------------


def mirrored() -> Vehicle:
    """s1 read the plug as recorded; s2 read it from the other face: 1 is 4, 2 is 3, and so on."""
    return car_of(
        pin("1", "constant", readings=(*full_constant(), *lamps("s2"))),
        pin("2", "accessory", readings=(*accessory("s1"), *ground("s2"))),
        pin("3", "ground", readings=(*ground("s1"), *accessory("s2"))),
        pin("4", "illumination", readings=(*lamps("s1"), *full_constant("s2"))),
    )


def test_a_visit_that_counted_from_the_other_face_is_found_out_by_all_it_read() -> None:
    found = first(mirrored(), "1")
    assert (found.cause, found.verdict) == ("face", "fits")
    assert "0 of 4 pins agree as they stand, 4 of 4" in found.why
    assert "seen from the other face" in found.do
    assert "readings of visit s2 from cavity 1 to 4, 2 to 3, 3 to 2, 4 to 1" in found.do


def test_three_cavities_cannot_tell_the_face() -> None:
    car = mirrored()
    plug = car.plugs[0]
    bare = replace(plug.pins[3], readings=lamps("s1"))
    found = told(replace(car, plugs=(replace(plug, pins=(*plug.pins[:3], bare)),)), "1")
    assert found["face"].verdict == "cannot be told"
    assert "at least 4 are wanted" in found["face"].why


def test_a_visit_is_found_out_from_four_cavities_on() -> None:
    car = mirrored()
    plug = car.plugs[0]
    found = explain_visit(car, plug, SHELL, "s2", HOUSE)
    assert found is not None and found.verdict == "fits"
    assert explain_visit(car, plug, SHELL, "s1", HOUSE) is None
    three = replace(plug, pins=(*plug.pins[:3], replace(plug.pins[3], readings=lamps("s1"))))
    assert explain_visit(replace(car, plugs=(three,)), three, SHELL, "s2", HOUSE) is None


def test_a_cavity_that_has_no_line_yet_is_asked_for_before_readings_move_there() -> None:
    assert "first give cavity" not in first(mirrored(), "1").do
    five = mirrored().plugs[0].pins
    car = car_of(*five, pin("5", "unknown", readings=ground("s2")))
    assert first(car, "1").do.endswith(
        "from cavity 1 to 4, 2 to 3, 3 to 2, 4 to 1 (first give cavity 8 a line)"
    )


def test_a_visit_that_read_the_rest_as_recorded_did_not_turn_the_plug() -> None:
    car = car_of(
        pin("1", "constant", readings=(*full_constant(), *lamps("s2"))),
        pin("2", "accessory", readings=accessory("s2")),
        pin("3", "ground", readings=ground("s2")),
        pin("4", "illumination", readings=lamps("s2")),
    )
    assert told(car, "1")["face"].verdict == "does not fit"
    assert "3 of 4 pins agree as they stand" in told(car, "1")["face"].why


def test_a_paper_read_from_the_other_face_is_found_out_by_its_lines() -> None:
    says = {"1": "illumination", "2": "ground", "3": "accessory", "4": "constant"}
    ours = {"1": full_constant(), "2": accessory("s1"), "3": ground("s1"), "4": lamps("s1")}
    functions = {"1": "constant", "2": "accessory", "3": "ground", "4": "illumination"}
    car = car_of(
        *(pin(c, functions[c], readings=ours[c], claims=(claim("b", "paper", says[c]),))
          for c in says)
    )  # fmt: skip
    found = first(car, "1")
    assert (found.cause, found.verdict) == ("face", "fits")
    assert "its lines from cavity" in found.do


def test_without_the_shell_no_face_can_be_told() -> None:
    car = mirrored()
    wire = car.plugs[0].pins[0]
    found = attack_of(car, wire, grade_pin(car, wire, HOUSE), HOUSE, {})
    assert found is not None
    assert found.tried[0].verdict == "cannot be told"


# -- two kinds of car -----------------------------------------------------------------------


def against_by(**changes: object) -> Vehicle:
    """A constant by s1 of a base trim of 2018 built in 2018-02; an accessory by a car that differs
    in `changes`."""
    facts = {"car_built": "2018-02", **changes}
    other = session("s2", "harbour-sound", **facts)
    car = car_of(pin("4", "constant", readings=(*full_constant(), *accessory("s2"))),
                 others=(other,))  # fmt: skip
    return replace(car, sessions=(session(car_built="2018-02"), other))


@pytest.mark.parametrize(
    ("changes", "two", "types"),
    [
        (
            {"car_trim": "sport"},
            "for it: trim base; against it: trim sport",
            ["only_if: {trims: [base]}", "only_if: {trims: [sport]}", "function: accessory"],
        ),
        (
            {"car_drive_side": "right"},
            "for it: drive side left; against it: drive side right",
            ["scope: {drive_side: left}", "scope: {drive_side: right}", "move visit s2"],
        ),
        (
            {"car_built": "2018-09"},
            "for it: built 2018-02; against it: built 2018-09",
            ["scope: {build_to: 2018-02}", "scope: {build_from: 2018-09}"],
        ),
        (
            {"car_built": "2017-09"},
            "for it: built 2018-02; against it: built 2017-09",
            ["scope: {build_from: 2018-02}", "scope: {build_to: 2017-09}"],
        ),
        (
            {"car_year": 2016, "car_built": None},
            "for it: model year 2018; against it: model year 2016",
            ["scope: {year_from: 2018}", "scope: {year_to: 2016}"],
        ),
    ],
)
def test_cars_of_two_kinds_split_the_scope_and_say_what_to_type(
    changes: dict[str, object], two: str, types: list[str]
) -> None:
    found = first(against_by(**changes), "4")
    assert (found.cause, found.verdict) == ("scope", "fits")
    assert found.why == f"{two}, where it would be accessory"
    for typed in types:
        assert typed in found.do


@pytest.mark.parametrize(
    ("changes", "verdict", "why"),
    [
        ({"car_tag": "tag-alder-pit-audio", "car_trim": "sport"}, "does not fit", "one car"),
        ({"car_trim": None}, "cannot be told", "visit s2 does not say the car's trim"),
        ({}, "does not fit", "lie in one another"),
    ],
)
def test_one_car_or_like_cars_or_unknown_cars_split_nothing(
    changes: dict[str, object], verdict: str, why: str
) -> None:
    found = told(against_by(**changes), "4")["scope"]
    assert found.verdict == verdict
    assert why in found.why


def test_readings_that_fit_no_function_are_no_other_cars_pin() -> None:
    sport = session("s2", "harbour-sound", car_trim="sport")
    odd = on("s2", reading("asleep", 6.1), reading("run", 4.0, load="1a"))
    car = car_of(pin("4", "constant", readings=(*full_constant(), *odd)), others=(sport,))
    assert told(car, "4")["scope"].verdict == "does not fit"


@pytest.mark.parametrize(
    ("readings", "name"),
    [
        ([reading("asleep", 12.41)], "constant"),  # nothing else is borne out by it
        ([reading("asleep", 12.41), reading("tuner", 12.1), reading("run", 0.0)], "park brake"),
    ],
)
def test_readings_that_fit_one_function_only_may_be_of_another_car(
    readings: list[Reading], name: str
) -> None:
    sport = session("s2", "harbour-sound", car_trim="sport")
    both = (*accessory("s1"), *on("s2", *readings))
    found = told(car_of(pin("4", "accessory", readings=both), others=(sport,)), "4")["scope"]
    assert found.verdict == "fits"
    assert found.why.endswith(f"where it would be {name}")


def test_a_scope_is_split_at_the_ends_of_the_cars_that_were_measured() -> None:
    """Cars of 2017 and 2018 bear it out, those of 2014 and 2015 do not: 2016 nobody knows."""
    ours = [session("s1", car_year=2018), session("s3", "dock-lane-fitters", car_year=2017)]
    theirs = [
        session("s2", "harbour-sound", car_year=2014),
        session("s4", "weir-audio", car_year=2015),
    ]
    again = (*full_constant("s3"), *accessory("s4"))  # other figures, since copies count once
    again = tuple(replace(one, value=(one.value or 0.0) - 0.05) for one in again)
    read = (*full_constant(), *accessory("s2"), *again)
    car = replace(car_of(pin("4", "constant", readings=read)), sessions=(*ours, *theirs))
    found = told(car, "4")["scope"]
    assert (
        found.why
        == "for it: model year 2017 to 2018; against it: model year 2014 to 2015, where it "
        "would be accessory"
    )
    assert "type scope: {year_from: 2017}" in found.do
    assert "with scope: {year_to: 2015}" in found.do
    swapped = {"s1": 2014, "s3": 2015, "s2": 2018, "s4": 2017}
    later = tuple(replace(one, car=replace(one.car, year=swapped[one.id])) for one in car.sessions)
    found = told(replace(car, sessions=later), "4")["scope"]
    assert "type scope: {year_to: 2015}" in found.do
    assert "with scope: {year_from: 2017}" in found.do


def test_a_claim_does_not_say_which_car_it_is_of() -> None:
    wire = pin("4", "constant", readings=full_constant(), claims=(claim("b", "paper", "run"),))
    found = told(car_of(wire), "4")["scope"]
    assert (found.verdict, found.do) == ("cannot be told", "ask which years and trims it is of")


# -- another plug or cavity --------------------------------------------------------------------


def test_readings_that_fit_the_cavity_beside_it() -> None:
    car = car_of(
        pin("4", "constant", readings=(*full_constant(), *accessory("s2"))),
        pin("3", "accessory", readings=accessory("s1")),
    )
    found = first(car, "4")
    assert (found.cause, found.verdict) == ("place", "fits")
    assert "A.3 (accessory) beside it, which it is often taken for" in found.why
    assert found.do.startswith("hold the probe at A.3 and at A.4 in turn")


def test_two_cavities_exchanged() -> None:
    car = car_of(
        pin("1", "constant", readings=(*full_constant(), *accessory("s2"))),
        pin("8", "accessory", readings=(*accessory("s1"), *full_constant("s2"))),
    )
    found = first(car, "1")
    assert found.cause == "place"
    assert found.why == "harbour-sound has A.1 and A.8 (accessory) exchanged"


@pytest.mark.parametrize(
    ("by", "why"),
    [("b", "b has A.1 and A.8 (accessory) exchanged"), ("c", "b: it fits A.8 (accessory)")],
)
def test_two_lines_of_one_paper_are_exchanged_and_those_of_two_are_not(by: str, why: str) -> None:
    car = car_of(
        pin("1", "constant", readings=full_constant(), claims=(claim("b", "paper", "accessory"),)),
        pin("8", "accessory", readings=accessory("s1"), claims=(claim(by, "paper"),)),
    )
    assert told(car, "1")["place"].why.startswith(why)


def test_a_paper_that_has_the_other_cavity_right_did_not_take_one_for_the_other() -> None:
    says = claim("b", "paper", "accessory")
    car = car_of(
        pin("1", "constant", readings=full_constant(), claims=(says,)),
        pin("8", "accessory", readings=accessory("s1"), claims=(says,)),
    )
    assert told(car, "1")["place"].verdict == "does not fit"


def test_a_cavity_that_was_read_for_itself_was_not_read_by_mistake() -> None:
    car = car_of(
        pin("4", "constant", readings=(*full_constant(), *accessory("s2"))),
        pin("3", "accessory", readings=accessory("s2")),
    )
    assert told(car, "4")["place"].verdict == "does not fit"


def test_one_reading_that_fits_beside_it_is_too_little() -> None:
    dead = on("s2", reading("accessory", 0.01))
    car = car_of(
        pin("4", "constant", readings=(*full_constant(), *dead)),
        pin("3", "ground", readings=ground("s1")),
    )
    found = told(car, "4")["place"]
    assert found.verdict == "cannot be told"
    assert "1 reading fits A.3 (ground) beside it" in found.why


def test_the_same_cavity_of_a_look_alike_plug() -> None:
    car = car_of(pin("4", "constant", readings=(*full_constant(), *lamps("s2"))))
    other = replace(
        car.plugs[0],
        id="B",
        housing="block-b-8",
        pins=(pin("4", "illumination", path=("plugs", 1, "pins", 0)),),
        path=("plugs", 1),
    )
    alike = LookAlike(plug="B", fits="yes", tell=())
    named = replace(car.plugs[0], look_alikes=(alike,))
    found = first(replace(car, plugs=(named, other)), "4")
    assert found.cause == "place"
    assert "B.4 (illumination) in look-alike plug B" in found.why
    assert "tells of plug B" in found.do
    unnamed = told(replace(car, plugs=(car.plugs[0], other)), "4")["place"]
    assert unnamed.verdict == "does not fit"


# -- another state -------------------------------------------------------------------------------


def with_state(state: str, value: float, function: str = "retained", **changes: object) -> Vehicle:
    good = (
        reading("asleep", 0.01),
        reading("accessory", 12.3),
        reading("retained", 12.3),
    )
    bad = on("s2", reading(state, value, **changes))
    return car_of(pin("4", function, readings=(*good, *bad)))


@pytest.mark.parametrize(("minutes", "fits"), [(20.0, True), (59.9, True), (60.0, False)])
def test_a_car_that_may_still_have_been_awake(minutes: float, fits: bool) -> None:
    found = first(with_state("asleep", 12.4, minutes=minutes), "4")
    assert (found.cause == "state") is fits
    if fits:
        assert found.why.startswith("taken awake?")
        assert "60 min (house default: asleep_proved_min)" in found.why
        assert "else type state: retained" in found.do


def test_a_key_one_notch_off() -> None:
    found = first(with_state("retained", 0.01), "4")
    assert found.cause == "state"
    assert "key out, door open" in found.why
    assert found.do.endswith("type state: door_open")


def test_a_figure_that_fits_in_no_state_is_no_slip_of_the_key() -> None:
    found = told(with_state("accessory", 5.2), "4")["state"]
    assert found.verdict == "does not fit"
    assert "5.20 V" in found.why


def test_the_house_default_says_how_long_a_car_may_be_awake() -> None:
    car = with_state("asleep", 12.4, minutes=59.9)
    wire, shop = car.plugs[0].pins[0], HouseDefaults(asleep_proved_min=50)
    found = attack_of(car, wire, grade_pin(car, wire, shop), shop, {"block-a-8": SHELL})
    assert found is not None
    assert found.tried[3].verdict == "does not fit"


# -- what is left ---------------------------------------------------------------------------------


def test_what_nothing_explains_is_a_dispute_with_the_reading_that_decides() -> None:
    wire = pin("4", "constant", readings=full_constant(), claims=(claim("b", "paper", "run"),))
    found = first(car_of(wire), "4")
    assert (found.cause, found.verdict) == ("dispute", "fits")
    assert found.do.startswith("the reading that decides:")


def test_after_an_explanation_that_fits_the_dispute_waits_but_says_what_would_decide() -> None:
    found = told(mirrored(), "1")["dispute"]
    assert found.verdict == "cannot be told"
    assert "counted from the other face" in found.why
    assert found.do.startswith("the reading that decides:")


def test_a_reading_that_collapses_is_asked_for_again() -> None:
    sags = on("s2", reading("run", 4.1, load="1a"), reading("asleep", 12.6))
    wire = pin("1", "constant", readings=(*full_constant(), *sags))
    found = first(car_of(wire), "1")
    assert found.cause == "dispute"
    assert "a 1 A load" in found.do
    assert LOADED.startswith("Read it open first")


def test_where_no_reading_decides_the_hand_does() -> None:
    wire = pin("1", "ground", readings=ground("s1"), claims=(claim("b", "paper", "shield"),))
    assert "Follow the wire" in first(car_of(wire), "1").do


def test_the_other_channel_of_a_speaker_is_a_dispute() -> None:
    leg = speaker("3", "positive", reading("radio_on_zero", 6.4),
                  claims=(claim("b", "paper", "speaker", channel="front-right"),))  # fmt: skip
    found = first(car_of(leg), "3")
    assert found.cause == "dispute"
    assert "play a tone" in found.do


@pytest.mark.parametrize(
    ("car", "cavity", "cause"),
    [(mirrored(), "1", "face"), (against_by(car_trim="sport"), "4", "scope")],
)
def test_the_first_that_fits_in_the_order_is_the_answer(
    car: Vehicle, cavity: str, cause: str
) -> None:
    """Readings that are mirrored fit the image cavity too, and cars of two trims may sit beside
    a cavity that fits: the earlier explanation stands."""
    neighbour = pin("8", "accessory", readings=accessory("s1"), path=("plugs", 0, "pins", 9))
    plug = car.plugs[0]
    fuller = replace(car, plugs=(replace(plug, pins=(*plug.pins, neighbour)),))
    found = attacked(fuller, cavity)
    assert found is not None
    assert found.first.cause == cause
    if cause == "scope":
        assert {one.cause: one.verdict for one in found.tried}["place"] == "fits"


def test_the_finding_says_the_explanation_first_and_the_deciding_reading_after_it() -> None:
    shelf = Shelf(housings={"block-a-8": SHELL})
    (fault, *_) = evidence_disputed.check(mirrored(), shelf)
    assert fault.help.startswith("counted from the other face, or upside down? harbour-sound:")
    assert "If so, find two wires" in fault.help
    assert "Else: the reading that decides" in fault.help
