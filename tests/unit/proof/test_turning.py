"""What was counted on the other face is turned to the plug's; what cannot be is not counted."""

from __future__ import annotations

from dataclasses import replace

import pytest
from proof_cars import claim, full_constant, housing, pin, reading, session, vehicle

from builder.model.plugs import Pin, Reading, Session
from builder.model.vehicle import Vehicle
from builder.model.words import Face
from builder.proof.faces.face_text import both_faces
from builder.proof.faces.turning import is_other_face, turned

SHELL = housing(("1", "2", "3", "4"), ("5", "6", "7", "8"))
SHELLS = {"block-a-8": SHELL}


def on(session_id: str, *readings: Reading) -> tuple[Reading, ...]:
    return tuple(replace(one, session=session_id) for one in readings)


def car_of(*pins: Pin, visit: Session) -> Vehicle:
    placed = [replace(one, path=("plugs", 0, "pins", n)) for n, one in enumerate(pins)]
    sessions = (session(), replace(visit, path=("sessions", 1)))
    return vehicle(*placed, sessions=sessions)


def other_visit(**changes: object) -> Session:
    return replace(session("s2", "harbour-sound"), **{"read_from": "mating_side", **changes})


def at(car: Vehicle) -> dict[str, list[tuple[str, str | None]]]:
    return {p.cavity: [(r.session, r.counted_as) for r in p.readings] for p in car.plugs[0].pins}


def test_readings_move_to_the_cavity_they_are_about_and_keep_what_was_typed() -> None:
    mine, theirs = on("s1", reading("asleep", 12.6)), on("s2", reading("asleep", 12.6))
    car = car_of(pin("1", "constant", readings=mine), pin("4", "mute", readings=theirs),
                 visit=other_visit())  # fmt: skip
    found = turned(car, SHELLS)
    assert at(found) == {"1": [("s1", None), ("s2", "4")], "4": []}
    assert found.face_refusals == ()
    assert turned(found, SHELLS) is found


def test_the_point_read_against_is_turned_too() -> None:
    theirs = on("s2", replace(reading("unplugged", 3.3), quantity="ohm", against="3"))
    car = car_of(pin("4", "mute", readings=theirs), pin("1", "speed"), visit=other_visit())
    assert turned(car, SHELLS).plugs[0].pins[1].readings[0].against == "2"


def test_a_claim_says_its_own_face() -> None:
    said = replace(claim("b", "paper", "constant"), read_from="mating_side", path=("c",))
    car = car_of(pin("1", "constant"), pin("4", "mute", claims=(said,)), visit=session("s2"))
    first, second = turned(car, SHELLS).plugs[0].pins
    assert [(c.by, c.counted_as) for c in first.claims] == [("b", "4")]
    assert second.claims == ()


@pytest.mark.parametrize("face", ["moulded", "unknown", "wire_side"])
def test_moulded_unknown_and_equal_faces_turn_nothing(face: Face) -> None:
    car = car_of(pin("1", "constant", readings=on("s2", *full_constant())),
                 visit=other_visit(read_from=face))  # fmt: skip
    assert turned(car, SHELLS) is car or at(turned(car, SHELLS)) == at(car)


def test_a_count_is_compared_with_the_drawing_where_the_plug_has_moulded_numbers() -> None:
    assert SHELL.seen_from == "wire_side"
    assert is_other_face("moulded", "mating_side", SHELL)
    assert not is_other_face("moulded", "wire_side", SHELL)
    assert not is_other_face("moulded", "mating_side", None)
    assert is_other_face("wire_side", "mating_side", None)


@pytest.mark.parametrize(
    ("cavity", "shells", "why"),
    [
        ("3", SHELLS, "cavity 3 is cavity 2 of the plug, which has no line"),
        ("1", {}, 'the housing "block-a-8" is not in this book'),
        ("9", SHELLS, "cavity 9 has no counterpart"),
    ],
)
def test_what_cannot_be_turned_is_named_and_not_counted(cavity, shells, why) -> None:
    theirs = on("s2", reading("asleep", 12.6))
    car = car_of(pin("4", "mute", readings=theirs), pin("1", "constant"),
                 *([pin(cavity, "speed", readings=theirs)] if cavity != "1" else []),
                 visit=other_visit())  # fmt: skip
    found = turned(car, shells)
    (refused,) = found.face_refusals
    assert (refused.session, refused.plug, refused.path) == (
        "s2",
        "A",
        ("sessions", 1, "read_from"),
    )
    assert why in refused.why
    assert all(not readings for readings in at(found).values())


def test_a_point_without_a_counterpart_is_refused_in_the_visit_that_used_it() -> None:
    """Cavity 9 is none of the shell: whoever counted from the other face cannot have read to it."""
    against_9 = replace(reading("unplugged", 3.3), quantity="ohm", against="9")
    theirs = (*on("s2", against_9), *on("s1", reading("asleep", 12.6)))
    car = car_of(pin("4", "mute", readings=theirs), pin("1", "speed"), visit=other_visit())
    (refused,) = turned(car, SHELLS).face_refusals
    assert (refused.session, refused.why) == (
        "s2",
        "it was read against 9, which has no counterpart",
    )
    mine = (*on("s1", against_9), *on("s2", reading("asleep", 12.6)))
    car = car_of(pin("4", "mute", readings=mine), pin("1", "speed"), visit=other_visit())
    assert turned(car, SHELLS).face_refusals == ()


def test_both_faces_in_text_are_mirrors_and_mark_what_is_spoken_of() -> None:
    assert both_faces(SHELL, {"1"}) == (
        "looking at the wires entering     looking into the open face",
        "latch at the top                  latch at the top",
        "[1]  2   3   4                     4   3   2  [1]",
        " 5   6   7   8                     8   7   6   5",
    )
    beside = housing(("1", "2"), ("3", "4"), latch="left")
    assert [line.split() for line in both_faces(beside)[2:]] == [
        ["1", "2", "3", "4"], ["3", "4", "1", "2"],
    ]  # fmt: skip
