"""The course of a job: the fewest changes in which all of it can be done, in one order."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from builder.planning.bay.work import BayWork, fader_end
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import Circuit
from builder.planning.course.batteries import Batteries
from builder.planning.course.car_changes import (
    CarHands,
    part_changes,
    plug_changes,
    radio_changes,
)
from builder.planning.course.car_states import KEY, PLAY, RADIO_SET, speakers_of
from builder.planning.course.finishing import ground_point_acts, hold_up_acts, tying_acts
from builder.planning.course.fixing import fixing_acts
from builder.planning.course.hands import begins, order, whole
from builder.planning.course.job_acts import JobWork
from builder.planning.course.job_hands import job_hands
from builder.planning.course.joining import Joining
from builder.planning.course.key_changes import AS_NOTED, TO_READ, key_changes, play_changes
from builder.planning.course.laying import closing_off_acts, laying_acts
from builder.planning.course.looms import interface_acts, plug_acts, table_acts
from builder.planning.course.model import Act, Change, Problem, Said, among
from builder.planning.course.noting import last_acts, noting_acts, zone_acts
from builder.planning.course.open_ends import at_open_ends
from builder.planning.course.passing import passing_acts
from builder.planning.course.powering import held_words, power_acts, tune_acts, waiting_for
from builder.planning.course.reading import Reading, reading_acts
from builder.planning.course.search import shortest
from builder.planning.course.settings import setting_acts
from builder.planning.course.sheet import CourseSheet, course_sheet
from builder.planning.course.trade import every_constraint, phase_tag
from builder.planning.course.waiting import after_the_wait
from builder.planning.levels.tone_heard import besides_tone
from builder.planning.words import HowItStands
from builder.planning.work_pack import BayTest


class _Making:
    """One job with all its acts and changes."""

    def __init__(
        self, bay: BayWork, index: CircuitIndex, tests: Sequence[BayTest], labels: int
    ) -> None:
        self.bay, self.parts, self.tests, self.house = bay, bay.parts, tests, bay.defaults
        self.index = index
        moved = job_hands(
            self.parts,
            index,
            tests,
            self.house,
            besides_tone=besides_tone(self.parts.vehicle, bay.selection),
        )
        self.hands, self.places, self.open = moved.hands, moved.places, moved.open
        self.batteries = moved.batteries
        self.work = JobWork(bay, self.index, self.open, labels, self.batteries)
        driving = (speaker.amplifier for speaker in self.parts.job.speakers)
        self.amplifiers = tuple(dict.fromkeys(driving))

    def problem(self) -> Problem:
        """Return everything, tagged by its phase."""
        speakers: dict[str, HowItStands] = {speakers_of(each): "open" for each in self.amplifiers}
        ends: dict[str, frozenset[HowItStands]] = {
            **whole(self.hands),
            PLAY: among("off"),
            RADIO_SET: among("noted"),
        }
        ends |= {name: among("on") for name in speakers}
        ends |= {**self.batteries.live, KEY: among("off", "asleep")}
        problem = Problem(
            begins=begins(self.hands, {**speakers, **self.batteries.start(built=False)}),
            ends=ends,
            acts=tuple(tagged(act) for act in self._acts()),
            changes=tuple(self._changes()),
            trade=tuple(every_constraint()),
            order=order(self.hands, tuple(speakers), self.batteries.over),
        )
        return after_the_wait(self.hands, problem)

    def _pulled(self) -> frozenset[str]:
        """The amplifiers whose speakers come off by a plug."""
        return frozenset(
            name for name in self.amplifiers if self.parts.amplifiers[name].speakers_pull_off
        )

    def _acts(self) -> Iterator[Act]:
        yield from table_acts(self.index, self.house)
        yield from noting_acts(self.parts.vehicle)
        yield from reading_acts(self.tests, self._reading())
        yield from zone_acts(self.parts)
        yield from fixing_acts(
            self.parts.job, self.index, self.open, self.house, waiting_for(self.bay.tune)
        )
        yield from ground_point_acts(self.work)
        yield from passing_acts(self.work)
        yield from laying_acts(self.work)
        yield from tying_acts(self.work)
        yield from self._joints()
        yield from plug_acts(self.index, self.places, self.house)
        yield from interface_acts(self.index, self.places, self.house)
        yield from setting_acts(self.work)
        yield from hold_up_acts(self.work)
        yield from closing_off_acts(self.work)
        yield from power_acts(self.work)
        yield from tune_acts(self.work)
        yield from last_acts(whole(self.hands), fades=fader_end(self.bay) is None)

    def _joints(self) -> Iterator[Act]:
        """What is joined; speakers by screws wait as those by a plug do."""
        dead = self.batteries.dead
        for act in Joining(self.index, self.places, self.house, self._pulled(), dead).acts():
            on = [each for each in self.amplifiers if act.does.get(speakers_of(each)) == "on"]
            held = " ".join(self._held(each) for each in on)
            yield replace(act, said=replace(act.said, blocked=held)) if held else act

    def _held(self, amplifier: str) -> str:
        """What has to be known before the speakers of an amplifier are put on."""
        return held_words([row for row in self.bay.tune if row.amplifier == amplifier])

    def _reading(self) -> Reading:
        pairs = [tap.pair for tap in self.bay.selection.touched]
        read = tuple(dict.fromkeys(leg.plug.id for pair in pairs for leg in pair.legs))
        return Reading(
            self.places, self.house, self.open, whole(self.hands), read, self.amplifiers,
            self.batteries.live, held_words(self.bay.tune),
        )  # fmt: skip

    def _changes(self) -> Iterator[Change]:
        yield from car_changes_of(self.hands, self.batteries, TO_READ)
        for name in self._pulled():
            yield from _speaker_changes(name, self._held(name))


def car_changes_of(
    hands: CarHands, batteries: Batteries, radio_set: str = AS_NOTED
) -> Iterator[Change]:
    """Yield every change of a car by hand, with what of a job hangs on its batteries, and how the
    radio is set once power is back."""
    yield from part_changes(hands)
    yield from radio_changes(hands)
    yield from plug_changes(hands)
    yield from batteries.changes(hands)
    hybrid = hands.vehicle.features.hybrid == "yes"
    yield from key_changes(hands.house, hands.asleep_min, hybrid=hybrid)
    yield from play_changes(hands.house, hands.tone_at, radio_set)


def _speaker_changes(amplifier: str, held: str) -> Iterator[Change]:
    """Onto an amplifier that is off: an output that is touched by its plug while it works dies."""
    dead = {KEY: among("off", "asleep"), PLAY: among("off")}
    what = speakers_of(amplifier)
    said = Said(f"{amplifier} off, its turn-on let go; then its speaker plug into it", blocked=held)
    yield Change(what, among("open"), "on", "job", said, dead, minutes=1.0)


def tagged(act: Act) -> Act:
    """Return an act that also has the tag of its phase."""
    return replace(act, tags=act.tags | {phase_tag(act.phase)})


def job_sheet(bay: BayWork, circuit: Circuit, tests: Sequence[BayTest], labels: int) -> CourseSheet:
    """Return steps and lines of a whole job, in the order with the fewest changes."""
    index = CircuitIndex(circuit)
    problem = _Making(bay, index, at_open_ends(tests, index), labels).problem()
    return course_sheet(shortest(problem), problem, tests)
