"""Was the car in another state than was written down, or not asleep yet?"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from builder.model.names import STATE_NAMES
from builder.model.plugs import Reading
from builder.model.words import State
from builder.proof.asleep import taken_too_soon
from builder.proof.contradictions.dispute import Against, readings_against
from builder.proof.contradictions.explaining import Case, Explanation
from builder.proof.judging import Outcome, judge, with_article
from builder.proof.wording import reading_words

TAKEN_FOR: dict[State, tuple[State, ...]] = {
    "asleep": ("door_open", "retained"),
    "door_open": ("retained", "accessory"),
    "retained": ("door_open", "accessory"),
    "accessory": ("run", "retained", "door_open"),
    "run": ("accessory", "engine"),
    "engine": ("run",),
    "crank": ("run", "accessory"),
    "auto_restart": ("engine",),
    "lights_on": ("lights_off", "lights_dimmed"),
    "lights_dimmed": ("lights_on", "lights_off"),
    "lights_off": ("lights_on",),
    "radio_off": ("tuner", "radio_on_zero"),
    "radio_on_zero": ("radio_off", "radio_on_tone"),
    "radio_on_tone": ("radio_on_zero",),
    "tuner": ("other_source", "radio_off"),
    "other_source": ("tuner", "radio_off"),
}
"""The states that one is mistaken for: a key one notch off, a door that was opened, a lamp or a
source that was not what was thought. Source: common practice, no source."""


def explain_state(case: Case) -> Explanation:
    """Say whether the readings against a pin fit it in another state of the car."""
    if case.claimed():
        who = case.claimed()[0].contributor
        return Explanation("state", "does not fit", f"{who} measured nothing in any state")
    against = list(readings_against(case.vehicle, case.place.pin, case.theirs, case.defaults))
    if not against:
        why = "what speaks against it is a difference between readings, in whatever state"
        return Explanation("state", "does not fit", why)
    tried = [(one, next(_states_that_fit(case, one), None)) for one in against]
    stuck = next((one for one, state in tried if state is None), None)
    if stuck is not None:
        why = f"{reading_words(stuck.reading)}: it does not fit {with_article(stuck.kind.name)}"
        return Explanation("state", "does not fit", f"{why} in any state it is mistaken for")
    return _fits(case, [(one, state) for one, state in tried if state is not None])


def _states_that_fit(case: Case, one: Against) -> Iterator[State]:
    """Yield the states in which the reading is as it should be."""
    reading = one.reading
    if reading.state == "asleep" and not taken_too_soon(reading, case.defaults.asleep_proved_min):
        return
    for state in TAKEN_FOR.get(reading.state, ()):
        moved: Reading = replace(reading, state=state, minutes=None)
        if judge(moved, one.kind, one.against).outcome is Outcome.MET:
            yield state


def _fits(case: Case, tried: list[tuple[Against, State]]) -> Explanation:
    said = [
        f"{reading_words(one.reading)} is what {with_article(one.kind.name)} reads with "
        f"{STATE_NAMES[state]}"
        for one, state in tried
    ]
    reading, state = tried[0][0].reading, tried[0][1]
    if reading.state == "asleep":
        limit_min = case.defaults.asleep_proved_min
        return Explanation(
            "state",
            "fits",
            f"taken awake? {'; '.join(said)}, and networks stay awake for up to {limit_min:g} min "
            "(house default: asleep_proved_min)",
            f"lock it, wait {limit_min:g} min and read again; else type state: {state}",
        )
    do = f"read it again and look at the key; if it was {STATE_NAMES[state]}, type state: {state}"
    return Explanation("state", "fits", "; ".join(said), do)
