"""What is said beside a proof: safety, house defaults, what a reading leaves open."""

from __future__ import annotations

from dataclasses import replace

import pytest
from proof_cars import pin, reading, vehicle

from builder.model.house_defaults import HouseDefaults
from builder.proof.contradictions.clashes import alive_asleep, resting_as_data
from builder.proof.house import house_in
from builder.proof.judging import Outcome, judge
from builder.proof.measuring_safety import DEAD, LIVE, PAIR, safety_of
from builder.proof.pin_readings import is_logic_level
from builder.proof.signatures.of_pins import kinds, kinds_of_pin
from builder.proof.signatures.row_making import at, house, line
from builder.proof.signatures.shapes import Signature, resolve
from builder.proof.wording import expectation_sentence

HOUSE = HouseDefaults()
TABLE = kinds(HOUSE)


def test_two_probes_in_one_plug_are_kept_apart() -> None:
    """Across a driven pair a slip shorts an output; against ground there is one probe in it."""
    for quantity in ("dc_v", "ac_v", "ohm"):
        assert PAIR in safety_of("run", quantity, "other_leg")
        assert PAIR not in safety_of("run", quantity, "ground")
        assert PAIR not in safety_of("run", quantity, "elsewhere")
    assert DEAD in safety_of("unplugged", "ohm", "ground")
    assert LIVE in safety_of("run", "dc_v", "ground")


def test_minutes_act_on_a_reading_only_while_the_car_sleeps() -> None:
    """How long a car has been locked says nothing of a reading with the key on."""
    rows = [row for kind in TABLE.values() for row in kind.rows if "asleep" in row.states]
    assert rows
    for row in rows:
        assert set(row.waits) <= set(house_in(row, "asleep"))
        assert set(house_in(row, "run")) == set(row.house)
    assert any(set(row.waits) - set(row.house) for row in rows)


def test_a_reading_that_decides_nothing_says_what_the_line_says_of_it() -> None:
    def judged(note: str) -> str:
        row = line(("run",), at(0), house("off_max_v"), strict=False, note=note)
        kind = resolve(Signature("made-up", "accessory", "made-up wire", {}, (row,)), HOUSE)
        found = judge(reading("run", 6.0), kind, "ground")
        assert found.outcome is Outcome.SILENT
        return found.sentence

    assert judged("").endswith(": it fits more than one case")
    assert judged("it may float").endswith("it may float")
    assert "more than one case" not in judged("it may float")


def test_only_a_sleeping_car_is_waited_for() -> None:
    rows = {row.states: row for row in TABLE["constant"].rows}
    asleep = next(row for states, row in rows.items() if "asleep" in states and row.proves_from_min)
    wait = f"for at least {asleep.proves_from_min:g} min"
    assert wait in expectation_sentence("asleep", asleep, None)
    assert "for at least" not in expectation_sentence("run", asleep, None)


@pytest.mark.parametrize(
    ("minutes", "volts", "alive"),
    [(None, 12.4, True), (HOUSE.asleep_min, 12.4, True), (HOUSE.asleep_min - 0.1, 12.4, False),
     (HOUSE.asleep_min, HOUSE.off_max_v, False), (HOUSE.asleep_min, HOUSE.off_max_v + 0.01, True)],
)  # fmt: skip
def test_a_switched_wire_is_live_asleep_from_the_wait_on_or_where_nobody_timed_it(
    minutes: float | None, volts: float, alive: bool
) -> None:
    wire = pin("1", "accessory", readings=(reading("asleep", volts, minutes=minutes),))
    assert bool(list(alive_asleep(wire, HOUSE))) is alive
    assert not list(alive_asleep(replace(wire, function="constant"), HOUSE))


@pytest.mark.parametrize(("hz", "outcome"), [(0.2, Outcome.MET), (0.19, Outcome.CONTRADICTED)])
def test_a_speed_wire_pulses_once_in_five_seconds_at_least(hz: float, outcome: Outcome) -> None:
    """Pushed by hand a wheel takes about two seconds a turn; chosen by this project."""
    rolling = reading("run", hz, quantity="hz", battery_v=None)
    assert judge(rolling, TABLE["speed"], "ground").outcome is outcome


@pytest.mark.parametrize(
    ("level_v", "data"),
    [(None, True), (12.0, True), (HOUSE.logic_level_max_v, True),
     (HOUSE.logic_level_max_v - 0.1, False), (3.3, False)],
)  # fmt: skip
def test_a_turn_on_of_logic_level_may_rest_where_a_data_wire_does(
    level_v: float | None, data: bool
) -> None:
    """2.5 V, where both wires of a bus rest (ISO 11898-2, memory), are no 12 V output's.

    Whatever asks whether an output is of logic level has the same limit: what it reads, what it
    can be taken for, and whether a driver stands behind it.
    """
    wire = pin("1", "amplifier_on", level_v=level_v, readings=(reading("tuner", 2.5),))
    assert bool(list(resting_as_data(wire, HOUSE))) is data
    if level_v is not None:
        assert is_logic_level(wire, HOUSE) is not data
        (kind,) = kinds_of_pin(vehicle(wire), wire, HOUSE)
        assert kind.id == ("amplifier_on_12v" if data else "amplifier_on_logic")
