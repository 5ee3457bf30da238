"""The acts in which power comes, and the filters that stand before anything is loud."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.planning.bay.tune_words import tune_words
from builder.planning.circuit.model import Element
from builder.planning.circuit.terminal_names import LINK_FUSE, SECOND
from builder.planning.course import trade
from builder.planning.course.car_states import DEAD, FILTERS, MAIN_FUSE
from builder.planning.course.job_acts import JobWork, act
from builder.planning.course.model import Act, Said, among, needs
from builder.planning.tune_sheet import TuneRow
from builder.planning.views.names import side_fuses
from builder.planning.words import HowItStands

_LAMP = (
    "first a 21 W lamp across the holder of the main fuse: a brief glow is capacitors that fill, "
    "a steady glow is a short; then the main fuse in"
)


def power_acts(work: JobWork) -> Iterator[Act]:
    """Yield how the fuses go in: the main one behind a lamp, that of a link after it."""
    sides = [each for each in side_fuses(work.index) if each.id != LINK_FUSE]
    if sides:
        last = f" and the {LINK_FUSE}" if LINK_FUSE in work.index.elements else ""
        lines = tuple(_fuse_words(each) for each in sides)
        said = Said(f"every fuse but the main one{last} into its holder", lines)
        yield act(
            "side fuses", "build", said, trade.SIDE_FUSES, wanted={**DEAD, **work.open}, minutes=1.0
        )
    live = {each: how for each, how in work.batteries.live.items() if each == SECOND}
    still = {**needs(battery="on", key="off"), **live, **work.open}
    if MAIN_FUSE in work.index.elements:
        yield act(
            "main fuse in", "bench", Said(_LAMP, gate="no steady glow"), trade.MAIN_IN,
            wanted={**still, MAIN_FUSE: ABSENT}, does={MAIN_FUSE: "in"}, minutes=3.0,
        )  # fmt: skip
    link = work.index.elements.get(LINK_FUSE)
    if link is not None:
        said = Said("the last fuse into its holder", (_fuse_words(link),))
        yield act(
            "link fuse in", "bench", said, trade.LINK_IN,
            wanted={**still, LINK_FUSE: ABSENT}, does={LINK_FUSE: "in"}, minutes=1.0,
        )  # fmt: skip


def _fuse_words(fuse: Element) -> str:
    return f"{fuse.purpose}: {fuse.rating}; place: {fuse.place}"


ABSENT = among("absent")


def waiting_for(tune: Sequence[TuneRow]) -> dict[str, str]:
    """Return what is to be found out of a speaker before it is fixed: its box, by its name."""
    found = {row.speaker: [each for each in row.asked if "box" in each] for row in tune}
    return {speaker: "; ".join(asked) for speaker, asked in found.items() if asked}


def held_words(tune: Sequence[TuneRow]) -> str:
    """Return what is to be found out before anything is loud, and of which speaker."""
    asked = [f"{row.speaker}: {each}" for row in tune for each in row.asked]
    return f"nothing loud before this is settled: {'; '.join(asked)}" if asked else ""


def tune_acts(work: JobWork) -> Iterator[Act]:
    """Yield the filters; what nobody said is asked before anything is loud."""
    tune, house = work.bay.tune, work.bay.defaults
    if tune:
        lines = tuple(tune_words(row) for row in tune)
        said = Said("set the filters; nothing loud before this is done", lines)
        minutes = len(tune) * house.hand_filter_min
        does: dict[str, HowItStands] = {FILTERS: "set"}
        yield act("filters", "bench", said, trade.FILTERS, does=does, minutes=minutes)
    for row in tune:
        for asked in row.asked:
            said = Said(f"{row.speaker}: nothing loud yet", blocked=asked)
            yield act(f"asked {row.speaker} {asked}", "bench", said, trade.FILTERS)
