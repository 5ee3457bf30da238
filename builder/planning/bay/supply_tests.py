"""Supply and ground of each amplifier under current: volts over amperes, so that no joint hides.

At music's average a bad joint of a few milliohms loses millivolts. Volts and amperes are read
together and judged as milliohms, against the share of the budget that the loop may take.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from builder.figures import shown
from builder.model.house_defaults import HouseDefaults
from builder.planning.bay import bands
from builder.planning.bay.ids import speakable
from builder.planning.bay.line import WITH_THE_CIRCUIT, measure
from builder.planning.bay.work import BayWork
from builder.planning.circuit.terminal_names import (
    BATTERY_MINUS,
    BATTERY_PLUS,
    SECOND,
    SECOND_MINUS,
    SECOND_PLUS,
    ground_of,
    supply_of,
)
from builder.planning.pack_details import PowerSheet, SupplyRun
from builder.planning.words import MAIN_FUSE
from builder.planning.work_pack import BayTest
from builder.units import Amperes

Milliohms = float


@dataclass(frozen=True, slots=True)
class LoopShare:
    """What a way of the supply may have, and what was worked out for it. [mΩ]

    Both are volts at full power over the amperes of everything behind the main fuse then, which is
    what a clamp round the lead to it reads: what an amplifier feeds on is among them. `straps` says
    that the car's straps are in the second.
    """

    most_mohm: Milliohms
    expected_mohm: Milliohms
    straps: bool
    music_a: Amperes


def whole_loop(power: PowerSheet, run: SupplyRun, defaults: HouseDefaults) -> LoopShare:
    """Return the share of the whole loop: from the battery to an amplifier and back.

    Args:
        power: The supply of everything added.
        run: The run that ends at the amplifier.
        defaults: The volts allowed for the whole loop.
    Source: Ohm's law; the volts are a house default.
    """
    full_a = _at_main_fuse(power)
    own = power.link_run is not None  # a second battery's loop has none of the car's straps in it
    strap = None if own else power.strap_mohm
    return LoopShare(
        1000 * defaults.supply_path_drop_v / full_a,
        1000 * run.cumulative_drop_v / full_a + (strap or 0.0),
        own or strap is not None or power.strap_max_mohm is None,
        power.music_current_a,
    )


def _at_main_fuse(power: PowerSheet) -> Amperes:
    """What flows in the lead to the main fuse at full power: its run is the first."""
    return power.runs[0].current_a


def way_back(power: PowerSheet, run: SupplyRun, defaults: HouseDefaults) -> LoopShare:
    """Return the share of the way back: what the budget leaves to it beside the way out.

    A ground that whines is found sooner, unless the plan itself takes more, in straps as read.
    """
    whole = whole_loop(power, run, defaults)
    out_mohm = 1000 * (run.cumulative_drop_v - run.return_drop_v) / _at_main_fuse(power)
    left, expected = whole.most_mohm - out_mohm, whole.expected_mohm - out_mohm
    quiet = 1000 * bands.GROUND_RISE_MAX_V / _at_main_fuse(power)
    most = min(left, quiet) if expected <= quiet else left
    return replace(whole, most_mohm=most, expected_mohm=expected)


def supply_tests(work: BayWork, amplifier: str) -> Iterator[BayTest]:
    """Yield the whole loop, the way back, and what lies between two grounds."""
    second = work.parts.job.supply.second_battery is not None
    start, post = (f"{SECOND}'s", SECOND_PLUS) if second else ("battery", BATTERY_PLUS)
    home, minus = (SECOND, SECOND_MINUS) if second else ("battery", BATTERY_MINUS)
    drop = measure(
        speakable(amplifier, "supply drop"), "loud",
        f"{start} posts to the supply terminals of {amplifier}, loudest clean music", "engine",
        "dc_v", None, work.defaults.supply_path_drop_v,
        "the whole path",
        (post, supply_of(amplifier)),
    )  # fmt: skip
    rise = measure(
        speakable(amplifier, "ground rise"), "loud",
        f"ground terminal of {amplifier} to {home} negative, loudest clean music", "engine",
        "dc_v", None, bands.GROUND_RISE_MAX_V, "a poor ground whines",
        (minus, ground_of(amplifier)),
    )  # fmt: skip
    power, run = work.power, run_to(work.power, amplifier)
    if power is None or run is None:
        yield from (drop, rise)
    else:
        yield by_current(drop, whole_loop(power, run, work.defaults), MAIN_FUSE, "music's")
        yield by_current(rise, way_back(power, run, work.defaults), MAIN_FUSE, "music's")
    yield from _apart_tests(work, amplifier)


def run_to(power: PowerSheet | None, amplifier: str) -> SupplyRun | None:
    """Return the run that ends at an amplifier: its branch, or the trunk."""
    runs = power.runs if power else ()
    own = (run for run in runs if run.name == f"branch to {amplifier}")
    return next(own, runs[0] if runs else None)


def by_current(test: BayTest, share: LoopShare, lead: str, flows: str) -> BayTest:
    """Return a line that is judged by the amperes beside it, in a clamp round a lead, where `flows`
    is what flows through it then; without room for any it stays in volts."""
    if share.most_mohm <= 0:
        return test
    mohm, music_a = share.expected_mohm, share.music_a
    left_out = "" if share.straps else ", straps unread"
    return replace(
        test,
        what=f"{test.what}, clamp at the {lead}",
        why=f"{test.why}; worked out: {shown(mohm, 1)} mΩ{left_out}; "
        f"{shown(mohm * music_a, 0)} mV at {flows} {shown(music_a, 1)} A",
        high_mohm=share.most_mohm, expected_mohm=mohm, at_a=music_a,
    )  # fmt: skip


def _apart_tests(work: BayWork, amplifier: str) -> Iterator[BayTest]:
    """Grounds of two devices that a line lead joins: apart, the shield carries the difference."""
    converter = work.parts.converter
    if converter.kind != "active":
        return
    yield measure(
        speakable(amplifier, "grounds apart"), "loud",
        f"ground of {converter.name} to ground of {amplifier}, loudest clean music",
        "engine", "dc_v", None, work.defaults.ground_apart_v,
        "what lies between runs through the line's shield",
        (ground_of(converter.name), ground_of(amplifier)), WITH_THE_CIRCUIT,
    )  # fmt: skip
