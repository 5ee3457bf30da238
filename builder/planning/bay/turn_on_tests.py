"""Tests of what switches on: at every turn-on terminal, and of the hold-up."""

from __future__ import annotations

from collections.abc import Iterator

from builder.model.job import TurnOnLoad
from builder.planning.bay import bands
from builder.planning.bay.held_tests import restart_turn
from builder.planning.bay.ids import speakable
from builder.planning.bay.line import WITH_THE_CIRCUIT, measure
from builder.planning.bay.work import BayWork
from builder.planning.circuit.hold_up import hold_up_store
from builder.planning.circuit.model import end_of
from builder.planning.circuit.terminal_names import ground_of, turn_on_of
from builder.planning.pack_details import HoldUpPart
from builder.planning.turn_on.loads import WAKES_BY_ITSELF
from builder.planning.work_pack import BayTest, JobParts


def turn_on_tests(work: BayWork) -> Iterator[BayTest]:
    """Yield a line for each thing that is switched on, and for the capacitor that holds it."""
    for name in work.parts.amplifiers:
        yield from _turn_on_tests(work, name)
    for load in work.parts.job.other_turn_on_loads:
        yield _switched_test(load)
    if work.hold_up is not None:
        yield _hold_up_test(work.hold_up)


def _turn_on_tests(work: BayWork, amplifier: str) -> Iterator[BayTest]:
    """At the terminal of each amplifier: a joint of its own may be bad at any of them."""
    what = f"turn-on terminal of {amplifier}"
    yield measure(
        speakable(amplifier, "turn on asleep"), "closing", what, "asleep", "dc_v", None,
        bands.TURN_ON_OFF_MAX_V, "off means off, or the battery is flat in days",
    )  # fmt: skip
    if work.plan.turn_on.kind not in WAKES_BY_ITSELF:
        yield measure(
            speakable(amplifier, "turn on key off"), "turn_on", what, "retained", "dc_v", None,
            None, "note when it lets go: at the key, at the door or later",
        )  # fmt: skip
    yield measure(
        speakable(amplifier, "turn on radio on"), "turn_on", what, "radio_on_zero", "dc_v",
        bands.TURN_ON_MIN_V, None, "less and the amplifier may drop out",
        (turn_on_of(amplifier),),
    )  # fmt: skip
    if work.parts.vehicle.features.start_stop != "no":
        yield measure(
            speakable(amplifier, "turn on restart"), restart_turn(work.parts),
            f"{what} in a restart, lowest{_led_out(work.parts)}", "auto_restart", "dc_v",
            work.parts.amplifiers[amplifier].turn_on.threshold_v, None,
            "below this an input lets go",
        )  # fmt: skip


def _led_out(parts: JobParts) -> str:
    """How it is read where the terminal lies under a seat that is bolted in by then."""
    led = ", its test leads led out from under the seat before that is bolted in"
    return led if restart_turn(parts) == "whole" else ""


def _switched_test(load: TurnOnLoad) -> BayTest:
    """What else the turn-on lead switches; across a coil, so that its way back counts too."""
    across = f" to {ground_of(load.name)}" if load.coil else ""
    return measure(
        speakable(load.name, "turn on radio on"), "turn_on",
        f"turn-on terminal of {load.name}{across}", "radio_on_zero", "dc_v", bands.TURN_ON_MIN_V,
        None, "it stays off without", (turn_on_of(load.name),), WITH_THE_CIRCUIT,
    )  # fmt: skip


def _hold_up_test(held: HoldUpPart) -> BayTest:
    """Charged, the capacitor stands a diode below the lead it holds up; less does not last."""
    store = hold_up_store(held)
    return measure(
        "hold-up-charged", "turn_on", f"across the {store}, ten seconds after switching on",
        "radio_on_zero", "dc_v", held.least_v or bands.TURN_ON_MIN_V - 0.5, None,
        "with less it does not last over a restart", (end_of(store, "from"), end_of(store, "to")),
        WITH_THE_CIRCUIT,
    )  # fmt: skip
