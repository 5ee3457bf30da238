"""What load may be put on what pin. A wrong load can destroy a radio or disturb a network."""

from __future__ import annotations

from builder.figures import shown
from builder.model.names import SINGULAR_NAMES
from builder.model.plugs import Pin
from builder.model.words import SUPPLIES, Function, Load
from builder.proof.judging import with_article

LOAD_MA: dict[Load, float] = {
    "none": 0.0,
    "5ma": 5.0,
    "50ma": 50.0,
    "lamp_0.4a": 400.0,
    "1a": 1000.0,
}
"""Current of each test load at 12 V [mA]."""

TURN_ON_OUTPUTS: frozenset[Function] = frozenset({"amplifier_on", "aerial_on"})
OPEN_FIRST_V = 9.0
"""A turn-on output that reads less than this open gets 5 mA at most [V]. Chosen by this project."""


def load_refusal(
    function: Function, load: Load, *, open_v: float | None = None, limit_ma: float | None = None
) -> str | None:
    """Return why `load` must not be put on a pin of this function, or None when it may.

    Args:
        function: What the pin is said to be.
        load: The test load.
        open_v: What the pin read with no load, in the state of the test [V]; None: not read yet.
        limit_ma: What the source is rated or fused for [mA]; None: not known.
    Source: common practice, no source.
    """
    if load == "none":
        return None
    if function == "ground":
        return None if LOAD_MA[load] >= 400 else "a ground is tested with at least 0.4 A"
    if function not in SUPPLIES and function not in TURN_ON_OUTPUTS:
        return f"never load {with_article(SINGULAR_NAMES[function])}: read it open"
    if open_v is None:
        return "read it open first"
    if limit_ma is not None and LOAD_MA[load] > limit_ma:
        return f"the load draws {LOAD_MA[load]:g} mA and the source is good for {limit_ma:g} mA"
    return (
        _turn_on_refusal(load, open_v)
        if function in TURN_ON_OUTPUTS
        else (_supply_refusal(load, limit_ma))
    )


def _turn_on_refusal(load: Load, open_v: float) -> str | None:
    if LOAD_MA[load] > LOAD_MA["50ma"]:
        return "a turn-on output is tested with 50 mA at most, never with a lamp"
    if load == "50ma" and open_v < OPEN_FIRST_V:
        return (
            f"it reads {shown(open_v, 1, beside=OPEN_FIRST_V)} V open: under "
            f"{shown(OPEN_FIRST_V)} V use 5 mA at most"
        )
    return None


def _supply_refusal(load: Load, limit_ma: float | None) -> str | None:
    if load == "1a" and limit_ma is None:
        return "nobody has stated its fuse: use the 0.4 A lamp at most"
    return None


def limit_of_pin(pin: Pin) -> float | None:
    """What the pin's source is rated or fused for [mA], or None when not known."""
    if pin.max_source_ma is not None:
        return pin.max_source_ma
    if pin.fuse and pin.fuse.rating_a is not None:
        return pin.fuse.rating_a * 1000
    return None
