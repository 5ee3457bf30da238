"""What people call the speakers of a car."""

from __future__ import annotations

from builder.model.said.meaning import COMMON, Meaning

PARTS: tuple[str, str] = ("woofer", "tweeter")
"""Parts of a corner, which a question may ask for in any corner."""

_SIDES = {
    (end, side): (f"{end} {side}", f"{side} {end}", f"{end} {side}h", f"{side}h {end}")
    for end in ("front", "rear")
    for side in ("l", "r")
}
"""A corner with its side as one letter: "front l", "lh rear"."""

CHANNELS: tuple[Meaning, ...] = (
    Meaning(
        "channel",
        ("front-left",),
        ("front left", "left front", "fl", "lf", *_SIDES["front", "l"]),
        COMMON,
    ),
    Meaning(
        "channel",
        ("front-right",),
        ("front right", "right front", "fr", "rf", *_SIDES["front", "r"]),
        COMMON,
    ),
    Meaning(
        "channel",
        ("rear-left",),
        ("rear left", "left rear", "back left", "left back", "rl", "lr", *_SIDES["rear", "l"]),
        COMMON,
    ),
    Meaning(
        "channel",
        ("rear-right",),
        ("rear right", "right rear", "back right", "right back", "rr", *_SIDES["rear", "r"]),
        COMMON,
    ),
    Meaning("channel", ("front-left", "front-right"), ("front", "fronts"), COMMON),
    Meaning("channel", ("rear-left", "rear-right"), ("rear", "rears", "back"), COMMON),
    Meaning("channel", ("front-left", "rear-left"), ("left",), COMMON),
    Meaning("channel", ("front-right", "rear-right"), ("right",), COMMON),
    Meaning("channel", ("centre",), ("centre", "center", "ctr", "cntr"), COMMON),
    Meaning("channel", ("sub",), ("sub", "subwoofer", "subs"), COMMON),
    Meaning("channel", PARTS[:1], ("woofer", "woofers", "midbass"), COMMON),
    Meaning("channel", PARTS[1:], ("tweeter", "tweeters"), COMMON),
)
