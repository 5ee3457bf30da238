"""What one look knows of answers, the next one tells as if it had worked all out anew."""

from __future__ import annotations

from collections import UserDict
from random import Random
from typing import Any

import pytest

from builder.pipeline.checking.asked import Ask, Sources

NAMES = ("one", "two", ("folder", "photo.png"))
ANSWERS = (1, 1.0, True, "text", [1, "text"], [1.0, "text"], [], None)


def drawn(random: Random) -> dict[str, Any]:
    """Sources at a moment: lists, and one that looks at a disk."""
    found: dict[str, Any] = {}
    for source in ("gate", "housings", "photos"):
        names = random.sample(NAMES, random.randrange(len(NAMES) + 1))
        answers = {name: random.choice(ANSWERS) for name in names}
        found[source] = UserDict(answers) if source == "photos" else answers
    return found


def asks(random: Random) -> list[Ask]:
    named = [(name,) if isinstance(name, str) else name for name in NAMES]
    every: list[Ask] = [(s, *n) for s in ("gate", "housings", "photos", "other") for n in named]
    return random.sample([*every, ("gate",), ("housings",), ("photos",)], 10)


def told(sources: Sources, given: dict[str, Any]) -> Sources:
    for name, answers in given.items():
        sources.add(name, answers)
    return sources


@pytest.mark.parametrize("seed", range(60))
def test_a_look_after_another_tells_what_one_from_nothing_does(seed: int) -> None:
    random = Random(seed)
    last: Sources | None = None
    for _ in range(5):
        given, asked = drawn(random), asks(random)
        last = told(Sources(last), given)
        assert last.answered(asked) == told(Sources(), given).answered(asked)
        if random.random() < 0.3:  # the same source again, in the same look
            again = drawn(random)
            assert told(last, again).answered(asked) == told(Sources(), again).answered(asked)
