"""Tests before and after the trim goes back: the car's own sounds, whine, heat, lamp, draw."""

from __future__ import annotations

from collections.abc import Iterator

from builder.planning import bay_bands as bands
from builder.planning.selection import Selection
from builder.planning.work_pack import BayTest, JobParts


def close_tests(parts: JobParts, selection: Selection) -> Iterator[BayTest]:
    """Yield the close-out checks that concern this car, in the order of doing them."""
    yield from _sounds(parts)
    if parts.vehicle.features.emergency_call != "no":
        yield _check(
            "emergency-call self-test: its lamp is not lit, its voice is heard; never place a call",
            "run", "nothing of this job may stand between the call and its speaker",
        )  # fmt: skip
    if parts.vehicle.features.noise_cancellation != "no":
        yield _check(
            "drive at 1200 to 2500 r/min with the windows shut: no drone that was not there",
            "engine", "active cancellation may turn a new subwoofer into a drone",
        )  # fmt: skip
    yield _check(
        "engine at 700, 2000 and 3000 r/min, lights, fan and heated screen on: no whine", "engine",
        "a whine is a ground or a signal lead beside the supply",
    )  # fmt: skip
    if parts.vehicle.features.start_stop != "no":
        yield _check(
            "three restarts with music on: no drop-out and no thump longer than half a second",
            "auto_restart", "the turn-on or the supply dips too low",
        )  # fmt: skip
    yield _check(
        "after ten minutes of loud music: a hand can stay on amplifier, main fuse and every joint",
        "engine", "heat is a bad joint or too little air",
    )  # fmt: skip
    yield _check(
        "restraint lamp lights with the key and goes out by itself, as before", "run",
        "a plug near the work was not put back",
    )  # fmt: skip
    yield from _draw(parts)
    yield _check(
        "radio at its place, plugs home and not pinched; then the trim", "run",
        "the trim goes back after the last test, not before",
    )  # fmt: skip


def _check(what: str, state: str, why: str) -> BayTest:
    return BayTest("", "close", what, state, "check", None, None, "", why, None)


def _sounds(parts: JobParts) -> Iterator[BayTest]:
    key_off = {s.sound for s in parts.vehicle.protected_sounds if s.plays_key_off != "no"}
    known = [sound.sound for sound in parts.vehicle.protected_sounds]
    for sound in dict.fromkeys((*known, *parts.job.protect)):
        state = "retained" if sound in key_off else "run"
        yield _check(f"{sound}: as it was before work began", state, "it must not be lost")


def _draw(parts: JobParts) -> Iterator[BayTest]:
    """Parked draw, against what was read before where the job has it."""
    before = parts.job.supply.parked_ma
    most = bands.PARKED_MAX_MA
    why = f"no more than {bands.PARKED_INCREASE_MAX_MA:g} mA above what it was before work began"
    if before is not None:
        most = before + bands.PARKED_INCREASE_MAX_MA
        why = f"{before:g} mA were read before work began, {bands.PARKED_INCREASE_MAX_MA:g} added"
    yield BayTest(
        "", "close", "parked draw, asleep for an hour, clamp or across the fuse", "asleep", "ma",
        None, most, "mA", why, None,
    )  # fmt: skip
