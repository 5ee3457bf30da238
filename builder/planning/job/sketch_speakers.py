"""Who plays what in a sketched job: amplifier channels, and the speakers that suit them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from builder.model.house_defaults import HouseDefaults
from builder.model.job import DrivenBy, JobSpeaker, NewLead
from builder.model.parts import Amplifier, AmplifierChannels, Converter
from builder.model.vehicle import Vehicle
from builder.model.words import Channel
from builder.planning.car.demands import channel_order
from builder.planning.car.output_sums import corner_of
from builder.planning.car.sources import Sources
from builder.planning.feeds.doors import choose_doors
from builder.planning.feeds.sub_source import choose_sub_source
from builder.planning.plan import Reason
from builder.planning.tables import AMPLIFIER_RECORD, HOUSE_DEFAULT, RECORD
from builder.planning.trust import Trust

_ENDS: tuple[tuple[Channel, Channel], ...] = (
    ("front-left", "front-right"),
    ("rear-left", "rear-right"),
)


@dataclass(frozen=True, slots=True)
class Outlet:
    """One amplifier channel: the job's name of the amplifier, the number from 1, its group."""

    amplifier: str
    number: int
    group: AmplifierChannels

    @property
    def is_sub(self) -> bool:
        """Whether it is made for a subwoofer, which adds up its left and right input."""
        return self.group.use == "sub"


@dataclass(frozen=True, slots=True)
class Stage:
    """What speakers are chosen from."""

    vehicle: Vehicle
    converter: Converter
    outlets: tuple[Outlet, ...]
    sources: Sources
    trust: Trust
    defaults: HouseDefaults


@dataclass(frozen=True, slots=True)
class Cast:
    """Speakers of a sketched job, and what was assumed of them."""

    speakers: tuple[JobSpeaker, ...]
    assumed: tuple[Reason, ...]


def outlets_of(amplifiers: Iterable[tuple[str, Amplifier]]) -> tuple[Outlet, ...]:
    """Return every channel of the amplifiers, by the name each has in the job."""
    return tuple(
        Outlet(name, number, group)
        for name, amplifier in amplifiers
        for number, group in enumerate(
            (group for group in amplifier.channels for _ in range(group.count)), 1
        )
    )


def subwoofers(stage: Stage) -> Cast:
    """Return new subwoofers that listen to the pairs the tap plan would listen to."""
    found = choose_sub_source(
        stage.vehicle, stage.converter, stage.sources, stage.trust, stage.defaults
    )
    played = tuple(tap.pair.channel for tap in found.taps) or _first_end(stage.vehicle)
    return _subs(stage, list(_sub_outlets(stage, played)))


def doors(stage: Stage) -> Cast:
    """Return the factory speakers that full-range channels take over, and a subwoofer if any.

    A subwoofer channel plays the factory subwoofer pair when there is room for it, else the
    fronts. Which ends are broken is the tap plan's choice, as far as there are channels.
    """
    channels = [outlet for outlet in stage.outlets if not outlet.is_sub]
    taken = _corners(stage)
    ends = [end for end in _ENDS if all(corner in taken for corner in end)]
    corners = [corner for end in ends for corner in end][: len(channels) // 2 * 2]
    pairs = list(zip(corners, channels, strict=False))
    speakers = [_factory_speaker(stage, corner, taken[corner], to) for corner, to in pairs]
    plays = _under_the_doors(stage, taken, corners)
    subs = [(outlet, plays) for outlet in stage.outlets if outlet.is_sub and plays]
    added = _subs(stage, subs)
    assumed = tuple(_of_speaker(stage, speaker) for speaker in speakers)
    return Cast((*speakers, *added.speakers), (*assumed, *added.assumed))


def _corners(stage: Stage) -> dict[Channel, tuple[Channel, ...]]:
    """The corners that the tap plan would break, else those described, with their pairs."""
    selection = choose_doors(stage.converter, stage.sources, stage.defaults)
    broken = [tap.pair.channel for tap in selection.taps if tap.treatment == "intercept"]
    named = broken or _described(stage.vehicle)
    found: dict[Channel, tuple[Channel, ...]] = {}
    for name in sorted(named, key=channel_order):
        found[corner_of(name)] = (*found.get(corner_of(name), ()), name)
    return found


def _described(vehicle: Vehicle) -> list[Channel]:
    """The channels of the record; bands of a corner that is described whole are left out."""
    known = [each.channel for each in vehicle.channels]
    return [name for name in known if corner_of(name) == name or corner_of(name) not in known]


def _under_the_doors(
    stage: Stage, taken: dict[Channel, tuple[Channel, ...]], corners: Sequence[Channel]
) -> tuple[Channel, ...]:
    used = sum(len(taken[corner]) for corner in corners)
    if "sub" in stage.sources.pairs and used < stage.converter.inputs:
        return ("sub",)
    fronts = [name for corner in corners[:2] for name in taken[corner]]
    return tuple(name for name in fronts if not name.endswith("-tweeter"))


def _first_end(vehicle: Vehicle) -> tuple[Channel, ...]:
    """Some pairs of a car that has none to use: the planner then says why not."""
    known = [each.channel for each in vehicle.channels]
    couples = (tuple(name for name in known if name in end) for end in reversed(_ENDS))
    return next((couple for couple in couples if couple), tuple(known[:1]))


def _sub_outlets(
    stage: Stage, played: tuple[Channel, ...]
) -> Iterator[tuple[Outlet, tuple[Channel, ...]]]:
    """Channels made for a subwoofer play all pairs; of the others, each plays one."""
    made_for_it = [outlet for outlet in stage.outlets if outlet.is_sub]
    if made_for_it and played:
        yield from ((outlet, played) for outlet in made_for_it)
    elif len(stage.outlets) == 1 and stage.converter.sum == "any" and played:
        yield stage.outlets[0], played
    else:
        yield from zip(stage.outlets, ((name,) for name in played), strict=False)


def _subs(stage: Stage, outlets: Sequence[tuple[Outlet, tuple[Channel, ...]]]) -> Cast:
    names = ["subwoofer"] if len(outlets) == 1 else [f"subwoofer {n + 1}" for n in range(9)]
    speakers, assumed = [], []
    for name, (outlet, plays) in zip(names, outlets, strict=False):
        speaker = _subwoofer(stage, name, outlet, plays)
        speakers.append(speaker)
        because = (
            f"no speaker is named; it is the heaviest load that {outlet.amplifier} is rated for, "
            "so wire and fuse are enough for any other"
        )
        what = f"{name} of {speaker.nominal_ohm:g} Ω, {speaker.rated_w_rms:g} W"
        assumed.append(Reason(what, because, AMPLIFIER_RECORD))
    if speakers:
        metres = stage.defaults.sketch_sub_lead_m
        said = "from the amplifier; nobody measured it"
        assumed.append(Reason(f"lead of {metres:g} m to a subwoofer", said, HOUSE_DEFAULT))
    return Cast(tuple(speakers), tuple(assumed))


def _subwoofer(stage: Stage, name: str, outlet: Outlet, plays: tuple[Channel, ...]) -> JobSpeaker:
    rated = {ohm: w for ohm, w in outlet.group.power_w.items() if ohm >= outlet.group.min_ohm}
    ohm, watts = min((rated or outlet.group.power_w).items())
    lead = NewLead(length_m=stage.defaults.sketch_sub_lead_m)
    return _speaker(name, "sub", ohm, watts, outlet, plays, lead)


def _factory_speaker(
    stage: Stage, corner: Channel, plays: tuple[Channel, ...], outlet: Outlet
) -> JobSpeaker:
    """The car's own speaker; of a split corner the lesser load of the two bands counts."""
    read = _read_ohm(stage, plays)
    ohm = stage.defaults.sketch_speaker_ohm if read is None else read
    name = f"{corner.replace('-', ' ')} speaker"
    return _speaker(name, corner, ohm, stage.defaults.sketch_speaker_w, outlet, plays, None)


def _read_ohm(stage: Stage, plays: Iterable[str]) -> float | None:
    found = [each.speaker_ohm for each in stage.vehicle.channels if each.channel in plays]
    return min((ohm for ohm in found if ohm), default=None)


def _speaker(
    name: str, channel: Channel, ohm: float, watts: float, outlet: Outlet,
    plays: tuple[Channel, ...], lead: NewLead | None,
) -> JobSpeaker:  # fmt: skip
    return JobSpeaker(
        name=name,
        channel=channel,
        nominal_ohm=ohm,
        rated_w_rms=watts,
        existing=lead is None,
        lead=lead,
        driven_by=DrivenBy(amplifier=outlet.amplifier, channel=outlet.number),
        plays=plays,
        path=("speakers",),
    )


def _of_speaker(stage: Stage, speaker: JobSpeaker) -> Reason:
    read = _read_ohm(stage, speaker.plays) is not None
    ohms = "its ohms are as the record says" if read else "nobody recorded its ohms"
    what = f"{speaker.name} of {speaker.nominal_ohm:g} Ω, {speaker.rated_w_rms:g} W"
    because = f"{ohms}; nobody said what it takes, nor how long the factory wire to it is"
    return Reason(what, because, f"{RECORD}, {HOUSE_DEFAULT}" if read else HOUSE_DEFAULT)
