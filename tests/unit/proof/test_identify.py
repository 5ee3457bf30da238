"""Unknown cavities: what the readings name, when they cannot, and what to measure next."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from proof_cars import ohm, reading
from samples import many

from builder.model.house_defaults import HouseDefaults
from builder.model.names import SINGULAR_NAMES
from builder.model.plugs import Reading
from builder.model.words import FUNCTIONS, STATES, Function, State
from builder.proof.identify import naming
from builder.proof.identify.candidates import candidate_of
from builder.proof.identify.naming import identify
from builder.proof.identify.next_test import expected_remaining, phrase_of, propose
from builder.proof.identify.raising import (
    FULL,
    OPEN_FIRST,
    UNPROVABLE,
    UP_TO_ITS_FUSE,
    loaded_lines,
    never_loaded,
    raising_of,
)
from builder.proof.identify.splitting import Measurement, deciding_measurement, spans_of
from builder.proof.identify.verdicts import doubt_of
from builder.proof.judging import with_article
from builder.proof.signatures.loads import LOAD_MA, load_refusal
from builder.proof.signatures.of_pins import kinds
from builder.proof.signatures.row_making import at, line
from builder.proof.signatures.shapes import Kind, Row, Signature, resolve

HOUSE = HouseDefaults()
TABLE = kinds(HOUSE)


def test_a_supply_that_sleeps_is_ruled_out_by_opening_the_door() -> None:
    found = identify([reading("asleep", 0.03), reading("accessory", 12.4)], HOUSE)
    assert set(found.tie) == {"accessory", "retained", "constant_sleeps"}
    assert found.next is not None
    assert found.next.measurement.state == "door_open"
    assert found.next.remaining == (2 * 2 + 1 * 1) / 3


def test_accessory_or_retained_is_settled_by_leaving_the_door_shut() -> None:
    readings = [reading("asleep", 0.03), reading("accessory", 12.4), reading("door_open", 0.0)]
    found = identify(readings, HOUSE)
    assert set(found.tie) == {"accessory", "retained"}
    assert found.verdict.startswith("these readings cannot decide between")
    assert found.next is not None
    assert found.next.measurement == Measurement("retained", "dc_v", "ground", "none")
    assert found.next.remaining == 1.0
    assert "an accessory supply reads at most 0.50 V" in found.next.sentence


def test_three_readings_name_a_retained_accessory() -> None:
    readings = [reading("asleep", 0.03), reading("accessory", 12.4), reading("retained", 12.3)]
    assert identify(readings, HOUSE).tie == ("retained",)


def test_a_wire_that_moves_with_the_lights() -> None:
    found = identify([reading("lights_off", 0.0), reading("lights_on", 7.9)], HOUSE)
    assert found.tie == ("illumination",)


@pytest.mark.parametrize(
    ("readings", "said"),
    [
        ([reading("lights_off", 0.0), reading("lights_on", 7.9)],
         "an illumination feed (steady illumination feed or pulsed illumination feed) fits best"),
        ([reading("lights_off", 0.0), reading("lights_on", 40.0, quantity="duty_percent")],
         "an illumination feed (pulsed illumination feed) fits best"),
        ([reading("radio_on_zero", 6.4), ohm(3.3, "4")],
         "a speaker leg (bridged speaker leg or speaker leg of a factory amplifier) fits best"),
        ([reading("radio_on_zero", 9.9), ohm(3.3, "4")],
         "a speaker leg (speaker leg of a factory amplifier) fits best"),
        ([reading("radio_on_zero", 0.0), ohm(3.3, "4"), ohm(0.3)],
         "a speaker leg (return leg of a common-ground output) fits best"),
        ([reading("radio_on_zero", 0.0), ohm(3.3, "4"), ohm(3.6)],
         "a speaker leg (signal leg of a common-ground output) fits best"),
        ([reading("radio_off", 0.0), reading("tuner", 4.9), reading("other_source", 4.9),
          reading("asleep", 0.0)],
         "(logic-level turn-on output for an amplifier) fits best"),
        ([reading("radio_off", 0.0), reading("tuner", 12.1), reading("other_source", 12.1)],
         "(12 V turn-on output for an amplifier) fits best"),
    ],
)  # fmt: skip
def test_the_kind_of_a_wire_is_named_or_the_kinds_that_fit_alike(
    readings: list[Reading], said: str
) -> None:
    assert said in identify(readings, HOUSE).verdict


def test_two_and_a_half_volts_may_be_either_data_wire() -> None:
    found = identify([reading("accessory", 2.5), ohm(60.0, "4")], HOUSE)
    assert set(found.tie) == {"data_high", "data_low"}


def test_a_camera_supply_is_not_a_switched_supply() -> None:
    found = identify([reading("asleep", 0.0), reading("radio_on_zero", 6.1)], HOUSE)
    assert not {"accessory", "retained", "amplifier_on"} & set(found.tie)
    assert "camera_supply" in found.tie


def test_nothing_fits() -> None:
    found = identify([reading("accessory", 40.0), reading("run", 40.0)], HOUSE)
    assert "accessory" not in found.open_functions
    assert found.candidates[-1].contradicted
    assert (found.tie, found.slips, found.next) == ((), (), None)
    assert found.verdict.startswith("contradicted everywhere: no kind of wire reads all of this")
    assert "no single wrong reading would explain it" in found.verdict


def test_one_wrong_reading_is_blamed_only_where_it_would_explain_all() -> None:
    """Each of two readings alone speaks against whatever the third bears out, or both do."""
    said = identify([reading("asleep", 12.4), reading("run", 40.0)], HOUSE).verdict
    assert said.startswith("contradicted everywhere: no kind of wire reads all of this; were")
    odd = [reading("asleep", 12.4), reading("run", 40.0), reading("accessory", 2.5)]
    assert identify(odd, HOUSE).verdict == (
        "contradicted everywhere: no kind of wire reads all of this, and no single wrong reading "
        "would explain it: begin again, battery volts first"
    )


@pytest.mark.parametrize(
    "readings",
    [
        [reading("asleep", 0.03), reading("accessory", 12.4), reading("retained", 12.3)],
        [reading("lights_off", 0.0), reading("lights_on", 7.9)],
        [reading("radio_on_zero", 6.4), ohm(3.3, "4")],
    ],
)
def test_what_is_not_ruled_out_is_everything_open_but_the_answer(readings: list[Reading]) -> None:
    found = identify(readings, HOUSE)
    (best,) = found.tie
    others = [phrase_of(name) for name in found.open_functions if name != best]
    _, _, said = found.verdict.partition("not ruled out: ")
    named = [phrase for phrase in others if phrase in said]
    assert named == others[: len(named)] and len(named) == min(len(others), 6)
    assert said.endswith(f"one of {len(others) - 6} others")
    assert phrase_of(best) not in said


def test_one_function_that_is_still_open_is_named_beside_the_answer() -> None:
    found = identify([reading("asleep", 12.4), reading("radio_on_zero", 0.0)], HOUSE)
    assert found.open_functions == ("mute", "park_brake")
    assert found.verdict.endswith("fits best; not ruled out: a parking-brake wire")


def test_a_candidate_counts_the_lines_of_its_kind_that_no_reading_touched() -> None:
    kind = TABLE["constant"]
    untested = [candidate_of(kind, readings).untested for readings in (
        [], [reading("asleep", 12.4)], [reading("asleep", 12.4), reading("run", 12.4)],
        [reading("asleep", 12.4), reading("asleep", 12.3)],
    )]  # fmt: skip
    lines = len(kind.rows)
    assert untested == [lines, lines - 1, lines - 2, lines - 1]


def test_one_wrong_reading_leaves_no_other_function_as_the_answer() -> None:
    """Three readings make a retained supply; a slip at run throws it out, and it is still named."""
    three = [reading("asleep", 0.03), reading("accessory", 12.4), reading("retained", 12.3)]
    found = identify([*three, reading("run", 0.0)], HOUSE)
    assert found.rival is not None and found.rival.function == "retained"
    assert not found.decided
    assert found.verdict.endswith(
        "; a retained supply meets 3 readings and 1 speaks against it: take it again"
    )
    twice = replace(found.rival, contradicted=("one", "another"))
    assert doubt_of(twice).endswith("3 readings and 2 speak against it: take them again")
    assert identify(three, HOUSE).rival is None


def test_where_nothing_fits_there_is_no_rival_but_the_readings_to_doubt() -> None:
    found = identify([reading("asleep", 12.4), reading("run", 40.0)], HOUSE)
    assert (found.rival, found.tie) == (None, ())
    assert found.slips


def test_a_load_is_put_on_a_wire_only_where_it_carries_its_voltage() -> None:
    """Where no line of a kind asks for a load, those count that follow the battery."""
    loaded = [line.row for kind in TABLE.values() for line in loaded_lines(kind)]
    any_load = [row for row in loaded if not row.loads]
    assert any_load
    assert all(row.low is not None and row.low[0] == 1 for row in any_load)
    assert {row.states for line in loaded_lines(TABLE["constant"]) for row in [line.row]}


def test_no_readings_prove_nothing_and_the_first_test_is_cheap() -> None:
    found = identify([], HOUSE)
    assert found.verdict == "the readings bear out nothing yet"
    assert found.next is not None
    assert found.next.measurement.effort == 1


def test_no_load_is_proposed_for_a_wire_without_a_name() -> None:
    """Two made-up kinds that only a load tells apart: one holds, the other collapses."""

    def kind(function: Function, low: float, high: float) -> Kind:
        rows = (
            line(("accessory",), at(10), at(15)),
            line(("accessory",), at(low), at(high), loads=("lamp_0.4a",)),
        )
        return resolve(Signature(function, function, function, {}, rows), HOUSE)

    supplies = [kind("accessory", 11, 15), kind("run", 0, 5)]
    assert propose(supplies, [reading("accessory", 12.4)], ()) is None


def only(function: Function, *rows: Row) -> Kind:
    """A made-up kind of wire that these lines say all of."""
    return resolve(Signature(function, function, function, {}, rows), HOUSE)


def test_of_two_measurements_that_tell_alike_the_first_of_the_table_is_asked_for() -> None:
    live = only("accessory", *(line((state,), at(10), at(15)) for state in ("run", "tuner")))
    dead = only("run", *(line((state,), at(0), at(1)) for state in ("run", "tuner")))
    asked = propose([live, dead], [], ())
    assert asked is not None and asked.measurement.state == "run"


def test_a_measurement_that_tells_little_is_asked_for_when_nothing_tells_more() -> None:
    """Of seventeen kinds one is told from one other, by an ohm reading with the battery off.

    Little is gained for the effort, and nothing else can be.
    """

    def ohms(low: float, high: float, strict: bool = True) -> Row:
        return line(("battery_off",), at(low), at(high), quantity="ohm", strict=strict)

    alike = [only(name, ohms(0, 10)) for name in FUNCTIONS[:15]]
    pair = [only(FUNCTIONS[15], ohms(0, 5)), only(FUNCTIONS[16], ohms(6, 10, strict=False))]
    asked = propose([*alike, *pair], [], ())
    assert asked is not None and asked.measurement.state == "battery_off"
    assert asked.remaining == pytest.approx(17 - 2 * 0.5 / 17)
    assert propose(alike, [], ()) is None


@pytest.mark.parametrize(
    ("dear", "pairs", "state"),
    [("unplugged", 2.5, "tuner"), ("unplugged", 3.5, "unplugged"),
     ("battery_off", 7.5, "tuner"), ("battery_off", 8.5, "battery_off")],
)  # fmt: skip
def test_unplugging_is_worth_three_looks_and_the_battery_eight(
    dear: State, pairs: float, state: State
) -> None:
    """Against a look that tells one pair of kinds apart they must tell more than three or eight.

    A band that is not strict tells half a pair.
    """
    half, high = FUNCTIONS[10], FUNCTIONS[2 : 2 + int(pairs)]

    def kind(function: Function) -> Kind:
        look = {FUNCTIONS[0]: (0, 4), FUNCTIONS[1]: (6, 10)}.get(function, (0, 10))
        dead = (0, 4) if function == FUNCTIONS[0] else (0, 10)
        dead = (6, 10) if function in (*high, half) else dead
        return only(
            function,
            line(("tuner",), at(look[0]), at(look[1])),
            line((dear,), at(dead[0]), at(dead[1]), quantity="ohm", strict=function != half),
        )

    asked = propose([kind(name) for name in FUNCTIONS[:11]], [], ())
    assert asked is not None and asked.measurement.state == state


def test_a_measurement_that_tells_a_little_more_is_asked_for() -> None:
    """Sixteen of seventeen kinds are told from the last by either; one pair of them by the second.

    The gain is the pairs told apart over the kinds, twice: 16 · 2 / 17 of the first.
    """
    same, others = line(("run",), at(10), at(15)), line(("tuner",), at(10), at(15))
    hint = line(("tuner",), at(0), at(1), strict=False)
    kinds_of = [only(name, same, others) for name in FUNCTIONS[:15]]
    kinds_of.append(only(FUNCTIONS[15], same, hint))
    kinds_of.append(
        only(FUNCTIONS[16], line(("run",), at(0), at(1)), line(("tuner",), at(20), at(30)))
    )
    asked = propose(kinds_of, [], ())
    assert asked is not None and asked.measurement.state == "tuner"


@pytest.mark.parametrize(
    ("minutes", "others", "decided"),
    [(65, ("accessory",), True), (30, ("accessory",), False),
     (65, ("accessory", "park_brake"), False)],
)  # fmt: skip
def test_one_solid_reading_decides_only_where_all_else_is_contradicted(
    minutes: float, others: tuple[str, ...], decided: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    table = {name: TABLE[name] for name in ("constant", *others)}
    monkeypatch.setattr(naming, "kinds", lambda defaults: table)
    found = identify([reading("asleep", 12.4, minutes=minutes)], HOUSE)
    assert (found.tie, found.decided) == (("constant",), decided)


def test_expected_remaining_is_the_sum_of_squares_over_n() -> None:
    """With the key off the retained supply is told from the other two; at run none is."""
    functions = ("accessory", "retained", "run")
    spans = [(name, spans_of(TABLE[name])) for name in functions]
    key_off = Measurement("retained", "dc_v", "ground", "none")
    assert expected_remaining(key_off, functions, spans) == (2 * 2 + 1 * 1) / 3
    run = Measurement("run", "dc_v", "ground", "none")
    assert expected_remaining(run, functions, spans) == 3


def test_the_deciding_measurement_parts_two_functions() -> None:
    measurement = deciding_measurement([TABLE["constant"]], [TABLE["accessory"]])
    assert measurement is not None
    assert (measurement.effort, measurement.load) == (1, "none")
    assert deciding_measurement([TABLE["ground"]], [TABLE["shield"]]) is None


def test_a_load_makes_a_look_as_dear_as_unplugging() -> None:
    bare = Measurement("run", "dc_v", "ground", "none")
    loaded = bare._replace(load="lamp_0.4a")
    assert (bare.effort, loaded.effort) == (1, 3)


def test_nothing_decides_against_a_function_without_a_kind() -> None:
    """What somebody claims to be unknown has no line of the table to be told by."""
    constant = [TABLE["constant"]]
    assert deciding_measurement(constant, []) is deciding_measurement([], constant) is None


def test_a_lone_bias_is_followed_by_a_reading_in_another_state() -> None:
    found = identify([reading("radio_on_zero", 6.4)], HOUSE)
    assert {"speaker", "line", "camera_supply", "microphone"} <= set(found.tie)
    assert found.next is not None
    assert found.next.measurement.state != "radio_on_zero"


def test_run_and_reverse_cannot_be_told_apart_and_the_verdict_says_why() -> None:
    readings = [reading("asleep", 0.0), reading("accessory", 0.0), reading("run", 12.3)]
    found = identify(readings, HOUSE)
    assert set(found.tie) == {"run", "reverse"}
    assert found.next is None
    assert "Only reverse gear shows it" in found.verdict


# -- where nothing fits ---------------------------------------------------------------------------


def test_one_wrong_reading_is_named_with_what_it_would_free() -> None:
    """A retained supply whose accessory reading is wrong: between dead and live."""
    readings = [
        reading("run", 12.3),
        reading("door_open", 0.0),
        reading("accessory", 11.2),
        reading("retained", 12.3),
    ]
    found = identify(readings, HOUSE)
    assert found.tie == ()
    assert not found.decided
    freed = {slip.reading: slip.frees for slip in found.slips}
    assert "retained" in freed[2]
    assert "were “accessory: 11.20 V” wrong, it could be a retained supply" in found.verdict
    assert found.next is None
    assert "retained" in identify([*readings[:2], readings[3]], HOUSE).open_functions


@st.composite
def any_readings(draw: st.DrawFn) -> list[Reading]:
    """Readings that one wire may hardly give: any state, some of the usual figures."""
    one = st.builds(
        lambda state, value, minutes: reading(
            state, value, minutes=minutes if state == "asleep" else None
        ),
        st.sampled_from(STATES),
        st.sampled_from([-0.6, 0.0, 0.03, 0.3, 1.2, 2.5, 4.9, 6.2, 8.4, 12.3, 12.4, 40.0]),
        st.sampled_from([5.0, 20.0, 65.0]),
    )
    return draw(st.lists(one, min_size=1, max_size=5))


@settings(max_examples=many(150), deadline=None)
@given(any_readings())
def test_nothing_contradicted_stands_before_what_is_not_whatever_was_read(
    readings: list[Reading],
) -> None:
    found = identify(readings, HOUSE)
    contradicted = [bool(one.contradicted) for one in found.candidates]
    assert contradicted == sorted(contradicted)
    assert not set(found.tie) - set(found.open_functions)
    if found.decided:
        assert found.candidates[0].fits
        assert found.raising is not None


@settings(max_examples=many(100), deadline=None)
@given(any_readings())
def test_without_the_reading_that_is_named_as_wrong_its_functions_are_free(
    readings: list[Reading],
) -> None:
    for slip in identify(readings, HOUSE).slips:
        rest = [one for index, one in enumerate(readings) if index != slip.reading]
        assert set(slip.frees) <= set(identify(rest, HOUSE).open_functions)


def test_a_wire_that_only_a_loose_line_fits_is_not_decided() -> None:
    """A parking-brake wire is never contradicted: being left over is no proof."""
    readings = [
        reading("asleep", 12.5),
        reading("accessory", 0.02),
        reading("run", 0.02),
        reading("engine", 0.4),
    ]
    found = identify(readings, HOUSE)
    assert "park_brake" in found.tie
    assert not found.decided


# -- from named to proved ----------------------------------------------------------------------

ACCESSORY = (reading("asleep", 0.02), reading("accessory", 12.3), reading("retained", 0.01),
             reading("door_open", 0.01))  # fmt: skip


def test_a_named_supply_is_raised_by_a_lamp_which_is_read_open_first() -> None:
    found = identify(ACCESSORY, HOUSE)
    assert (found.tie, found.decided) == (("accessory",), True)
    assert found.raising is not None
    assert found.raising.measurement is not None
    assert found.raising.measurement.load == "lamp_0.4a"


def test_a_constant_is_loaded_with_a_lamp_while_nobody_knows_its_fuse() -> None:
    constant = TABLE["constant"]
    due = raising_of(constant, {"asleep"}, [reading("asleep", 12.5)])
    assert due.measurement is not None
    assert due.measurement.load == "lamp_0.4a"
    assert due.mind == f"{OPEN_FIRST} {UP_TO_ITS_FUSE}"
    assert due.expect == "11.90 V to 12.70 V"
    assert due.also == ()
    opened = raising_of(constant, {"asleep"}, [reading(due.measurement.state, 12.4)])
    assert opened.mind == UP_TO_ITS_FUSE


def test_a_ground_takes_the_heaviest_load_and_needs_no_open_reading() -> None:
    due = raising_of(TABLE["ground"], (), [])
    assert due.measurement is not None
    assert (due.measurement.load, due.mind) == ("1a", "")


@pytest.mark.parametrize(("open_v", "load"), [(9.0, "50ma"), (8.99, "5ma"), (None, "50ma")])
def test_a_turn_on_under_nine_volts_is_proved_with_five_milliamperes(
    open_v: float | None, load: str
) -> None:
    kind = TABLE["amplifier_on_12v"]
    (line_of,) = loaded_lines(kind)
    readings = [] if open_v is None else [reading(line_of.strong.state, open_v)]
    due = raising_of(kind, ("radio_off", "radio_on", "source"), readings)
    assert due.measurement is not None
    assert due.measurement.load == load


@pytest.mark.parametrize("kind", TABLE.values(), ids=lambda kind: kind.id)
def test_every_kind_says_what_raises_it_and_never_asks_for_a_load_it_must_not_have(
    kind: Kind,
) -> None:
    due = raising_of(kind, (), [])
    if due.measurement is not None:
        open_v = None if kind.function == "ground" else 12.4
        assert load_refusal(kind.function, due.measurement.load, open_v=open_v) is None
        assert LOAD_MA[due.measurement.load] > 0
        assert due.expect
    elif not kind.defining:
        assert due.why == UNPROVABLE
    else:
        assert due.also == tuple(kind.defining.values())
        assert kind.loads or due.why == never_loaded(kind.function)
    assert raising_of(kind, tuple(kind.defining), [], loaded=True).why in (FULL, UNPROVABLE)


# -- sentences ----------------------------------------------------------------------------------


@pytest.mark.parametrize("function", FUNCTIONS)
def test_one_wire_of_every_function_can_stand_in_a_sentence(function: Function) -> None:
    """ "A wheel keys reads" is no English: one wire, with its article."""
    name = SINGULAR_NAMES[function]
    assert "_" not in name
    assert not name.split()[0].endswith("s")
    first = "an" if name[0] in "aeiou" else "a"
    assert phrase_of(function) == f"{first} {name}"


@pytest.mark.parametrize("kind", TABLE.values(), ids=lambda kind: kind.id)
def test_the_name_of_every_kind_can_stand_in_a_sentence(kind: Kind) -> None:
    assert "," not in kind.name
    assert not kind.name.split()[-1].endswith(("keys", "wires", "legs"))
    assert with_article(kind.name).startswith(("a ", "an "))


def test_the_house_defaults_that_acted_are_named_and_no_others() -> None:
    found = identify([reading("accessory", 12.3)], HOUSE)
    assert {"supply_drop_v", "off_max_v", "supply_match_v"} <= set(found.house)
    assert "data_pair_min_ohm" not in found.house
    assert identify([], HOUSE).house == ()
