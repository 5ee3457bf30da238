"""The acts of a job that join and read nothing: noted, laid, set, closed off, handed over."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from builder.figures import shown
from builder.planning.bay.bands import JOINT_PULL_N
from builder.planning.bay.tune_words import tune_words
from builder.planning.bay.work import BayWork
from builder.planning.car.kept_sounds import microphones_out
from builder.planning.car.route_zones import restraint_zones_touched
from builder.planning.circuit.board import WRAP
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import CircuitWire, Link
from builder.planning.course import trade
from builder.planning.course.car_states import DEAD, FILTERS, GAINS, MAIN_FUSE
from builder.planning.course.model import Act, Needs, Said, among, needs
from builder.planning.tune_sheet import TuneRow
from builder.planning.turn_on.loads import WAKES_BY_ITSELF
from builder.planning.views.lead_lines import leads_of
from builder.planning.views.loom_joints import looms_of, made_in
from builder.planning.views.names import side_fuses
from builder.planning.words import HowItStands, Phase
from builder.planning.work_pack import JobParts


@dataclass(frozen=True, slots=True)
class JobWork:
    """A job with its circuit, and what has to be open while it is built."""

    bay: BayWork
    index: CircuitIndex
    open: Needs
    labels: int

    @property
    def parts(self) -> JobParts:
        """The job with its records."""
        return self.bay.parts


def _act(
    id: str, phase: Phase, said: Said, *tags: str, wanted: Needs | None = None,
    minutes: float = 0.0, does: dict[str, HowItStands] | None = None, sets: tuple[str, ...] = (),
) -> Act:  # fmt: skip
    return Act(
        id, phase, said, wanted or {}, frozenset(tags), does or {}, sets=sets, minutes=minutes
    )


def noting_acts(parts: JobParts) -> Iterator[Act]:
    """Yield what is written down and minded before anything is touched."""
    cautions = tuple(f"mind: {each}" for each in parts.vehicle.safety.cautions)
    yield _act(
        "note", "before",
        Said("write down faults, lit lamps, radio presets and code, clock, window positions",
             cautions),
        trade.NOTED, minutes=5.0,
    )  # fmt: skip
    zones = parts.vehicle.safety.high_voltage_zones
    if zones or parts.vehicle.features.hybrid != "no":
        where = ", ".join(zones) or "not recorded"
        text = (
            f"orange cables ({where}): stay 0.10 m away with every lead and tool, share no "
            "grommet, pull no service plug"
        )
        yield _act("high voltage", "before", Said(text), trade.NOTED)


def zone_acts(parts: JobParts) -> Iterator[Act]:
    """Yield each restraint part that the work comes near; it is pointed out after the wait."""
    for zone in restraint_zones_touched(parts.job, parts.vehicle):
        text = (
            f"restraint part near the work: {zone}. Slide a seat on its rails only; unbolt or "
            "unplug there only now. Never probe, tap, tie to or ground on yellow plugs and sleeves"
        )
        gate = "after the wait; never switch on with such a plug apart"
        yield _act(
            f"zone {zone}", "before", Said(text, gate=gate), trade.ZONES,
            wanted=needs(battery="waited"),
        )  # fmt: skip


_LAY = "lay every cable dry, everything in its final place, then cut"
_LABELS = (
    "label every piece before it is stripped, as the list of labels says: both ends, a jacket also "
    "mid-way"
)
_JOINTS = (
    "at every joint: sleeve on first, then crimp or solder, sleeve over it, the joints of a cable "
    "30 to 40 mm apart, then tape; nothing that bites through insulation"
)
_WRAPPED = (
    "; over a wire that stays whole no sleeve can be slid: two layers of self-sealing tape, 10 mm "
    "over the insulation on either side"
)
_MAKE_LEADS = (
    "make these line leads at the bench: centre to centre, shield to shield, then ring each out; "
    "neither conductor meets the other"
)


def laying_acts(work: JobWork) -> Iterator[Act]:
    """Yield what is laid and labelled, and how every joint is made."""
    house, routes = work.bay.defaults, work.parts.job.routes
    metres = sum(route.length_m for route in routes)
    yield _act(
        "lay", "build", Said(f"{_LAY}{_cut_before(work.index)}"),
        trade.LAID, wanted={**DEAD, **work.open}, minutes=metres * house.hand_lay_a_metre_min,
    )  # fmt: skip
    yield _act(
        "label", "build", Said(_LABELS), trade.LABELLED, minutes=work.labels * house.hand_label_min
    )
    by_hand = [
        f"{name}: {shown(wire.length_m or 0.0)} m"
        for name, wire in leads_of(work.index).items()
        if wire.made_here
    ]
    if by_hand:
        said = Said(_MAKE_LEADS, tuple(by_hand), "under 1 Ω through, open between")
        minutes = 2 * house.hand_joint_min * len(by_hand)
        yield _act("make line leads", "build", said, trade.LABELLED, minutes=minutes)
    pull = f"no joint parts at a pull of {JOINT_PULL_N:.0f} N on 18 AWG"
    said = Said(_JOINTS + (_WRAPPED if _is_wrapped(work.index) else ""), gate=pull)
    yield _act("joint rules", "build", said, trade.LABELLED)


def _is_wrapped(index: CircuitIndex) -> bool:
    """Whether a joint away from the table lies beside a wire that stays whole."""
    at_table = {joint.id for unit in looms_of(index) for joint in made_in(index, unit)}
    return any(x.closed_by == WRAP for x in index.circuit.joints if x.id not in at_table)


def _cut_before(index: CircuitIndex) -> str:
    """The pieces that were cut at the table: they hang on a loom when the car is opened."""
    done = dict.fromkeys(
        owner.piece
        for unit in looms_of(index)
        for joint in made_in(index, unit)
        for end in joint.joins
        if isinstance(owner := index.owners.get(end), CircuitWire) and not owner.loom
    )
    pieces = [piece for piece in done if piece]
    if not pieces:
        return ""
    said = f"{', '.join(pieces[:-1])} and {pieces[-1]} were" if pieces[1:] else f"{pieces[0]} was"
    return f"; {said} cut at the table"


def setting_acts(work: JobWork) -> Iterator[Act]:
    """Yield what is set by hand before anything is powered: switches, gains, microphones."""
    switched: dict[tuple[str, str], list[Link]] = {}
    for link in work.index.circuit.links:
        if link.set_by:
            unit = work.index.unit_of(link.begins).id
            switched.setdefault((unit, link.set_by), []).append(link)
    for (unit, setting), links in switched.items():
        said = Said(f"set a switch of {unit}: {setting}", tuple(link.purpose for link in links))
        yield _set(f"switch {unit} {setting}", said, tuple(link.id for link in links))
    parts = work.parts
    if work.bay.plan.turn_on.kind in WAKES_BY_ITSELF:
        yield _set("wake", Said(f"no turn-on wire: set {parts.converter.name} to wake by itself"))
    for speaker in parts.job.speakers:
        if speaker.driven_by.bridged_with is not None:
            text = _BRIDGED.format(speaker.amplifier, speaker.channel_name)
            yield _set(f"bridge {speaker.name}", Said(text))
    if microphones_out(parts.vehicle, work.bay.selection):
        yield _set("microphones", Said(_MICROPHONES))
    yield _act(
        "gains least", "build",
        Said("all gains at their lowest, amplifier filters flat, equaliser off, "
             f"{_correction(work.bay.tune)}"),
        trade.LEAST, does={GAINS: "least"}, minutes=3.0,
    )  # fmt: skip


def _set(id: str, said: Said, sets: tuple[str, ...] = ()) -> Act:
    return _act(id, "build", said, trade.SET, sets=sets, minutes=1.0)


_BRIDGED = (
    "{0}, channels {1}: bridge switch on, the speaker on the two terminals that it marks for it"
)
_MICROPHONES = (
    "noise cancellation: unplug its microphones, close their plugs off and write down where each "
    "one is; it was tuned for the car's own bass"
)


def _correction(tune: tuple[TuneRow, ...]) -> str:
    """Gains hold with the correction as it will be used, so it stands so from the beginning."""
    using = [row.speaker for row in tune if row.correction == "on"]
    if not using:
        return "bass correction off"
    return f"bass correction on for {', '.join(using)} and left on, it is used so"


def closing_off_acts(work: JobWork) -> Iterator[Act]:
    """Yield the ends that stay open on purpose, each closed off by itself."""
    looms = {unit.id for unit in looms_of(work.index)}
    ends = tuple(each.what for each in work.index.circuit.open_ends if each.place not in looms)
    if ends:
        said = Said("close off each of these by itself, never two together", ends)
        wanted = {**DEAD, **work.open}
        yield _act("close off", "build", said, trade.CLOSED, wanted=wanted, minutes=len(ends) * 1.0)


_LAMP = (
    "first a 21 W lamp across the holder of the main fuse: a brief glow is capacitors that fill, "
    "a steady glow is a short; then the main fuse in"
)


def power_acts(work: JobWork) -> Iterator[Act]:
    """Yield how the fuses go in, the main one last and behind a lamp."""
    lines = tuple(f"{x.purpose}: {x.rating}; place: {x.place}" for x in side_fuses(work.index))
    if lines:
        said = Said("every fuse but the main one into its holder", lines)
        yield _act(
            "side fuses", "build", said, trade.SIDE_FUSES, wanted={**DEAD, **work.open}, minutes=1.0
        )
    if MAIN_FUSE in work.index.elements:
        wanted = {**needs(battery="on", key="off"), **work.open, MAIN_FUSE: ABSENT}
        yield _act(
            "main fuse in", "bench", Said(_LAMP, gate="no steady glow"), trade.MAIN_IN,
            wanted=wanted, does={MAIN_FUSE: "in"}, minutes=3.0,
        )  # fmt: skip


ABSENT = among("absent")


def tune_acts(work: JobWork) -> Iterator[Act]:
    """Yield the filters; what nobody said is asked before anything is loud."""
    tune, house = work.bay.tune, work.bay.defaults
    if tune:
        lines = tuple(tune_words(row) for row in tune)
        said = Said("set the filters; nothing loud before this is done", lines)
        minutes = len(tune) * house.hand_filter_min
        does: dict[str, HowItStands] = {FILTERS: "set"}
        yield _act("filters", "bench", said, trade.FILTERS, does=does, minutes=minutes)
    for row in tune:
        for asked in row.asked:
            said = Said(f"{row.speaker}: nothing loud yet", blocked=asked)
            yield _act(f"asked {row.speaker} {asked}", "bench", said, trade.FILTERS)


def last_acts(whole: Needs) -> Iterator[Act]:
    """Yield what is written down and handed over once the car is whole."""
    wanted = {**whole, **needs(key="off")}
    text = "fill in gains, volume step and readings; send them in with the record"
    yield _act("fill in", "close", Said(text), trade.TOLD, wanted=wanted, minutes=10.0)
    said = Said("go through the customer's sheet with the customer")
    yield _act("hand over", "close", said, trade.TOLD, wanted=wanted)
