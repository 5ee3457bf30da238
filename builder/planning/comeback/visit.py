"""What a reading costs in minutes, with the car as it stands when it is asked for."""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from dataclasses import dataclass

from builder.planning.car.access import job_spots
from builder.planning.car.route_zones import restraint_zones_touched
from builder.planning.circuit.model import Unit
from builder.planning.comeback.handed_over import HandedOver
from builder.planning.comeback.reading_made import Reading
from builder.planning.course.batteries import batteries_of
from builder.planning.course.car_changes import HOME
from builder.planning.course.car_states import PLAYABLE, RADIO_SET, asked_by, plug_of
from builder.planning.course.hands import begins, hands_of, order, whole
from builder.planning.course.job_hands import job_places_of
from builder.planning.course.make_course import car_changes_of
from builder.planning.course.model import Needs, Problem, State, needs
from builder.planning.course.moving import Moving, StuckError
from builder.planning.course.places import plug_in, reached_at
from builder.planning.levels.tone_heard import tone_at
from builder.planning.words import HowItStands


@dataclass(frozen=True, slots=True, eq=False)
class Standing:
    """How the car stands, in the order of names; of each way of standing a visit makes one object,
    since thousands of sets of causes are looked up by it."""

    state: tuple[tuple[str, HowItStands], ...]


@dataclass(frozen=True, slots=True)
class Way:
    """The way to a reading: how the car stands then, and how long it takes, reading and all."""

    standing: Standing
    minutes: float


class Visit:
    """The hands at a car that came back: whole, everything home, nothing open."""

    def __init__(self, job: HandedOver, readings: Sequence[Reading]) -> None:
        self.job, self.house = job, job.house
        vehicle = job.parts.vehicle
        spots = {reached_at(vehicle, each) for reading in readings for each in reading.places}
        spots |= set(job_spots(vehicle, job.parts.job))
        zones = restraint_zones_touched(job.parts.job, vehicle)
        plugs = [unit for unit in job.circuit.units if unit.kind == "plug"]
        at = tone_at(vehicle, job.parts.job, job.pack.besides_tone)
        self.hands = hands_of(
            vehicle, job.house, (), sorted(spots), _plugs_of(plugs), zones, tone_at=at
        )
        self.places = job_places_of(job.parts, self.hands)
        self.batteries = batteries_of(job.parts.job, job.index, self.places)
        self._standings: dict[tuple[tuple[str, HowItStands], ...], Standing] = {}
        self.start = self._standing({**begins(self.hands, self.batteries.start(built=True))})
        self._moving = Moving(
            Problem(
                begins=dict(self.start.state), acts=(),
                ends={**whole(self.hands), RADIO_SET: PLAYABLE},
                changes=tuple(car_changes_of(self.hands, self.batteries)), trade=(),
                order=order(self.hands, (), self.batteries.over),
            )
        )  # fmt: skip
        self._needs = {reading.test.id: self._wanted(reading) for reading in readings}
        self._hands_for = {
            reading.test.id: (frozenset(self._needs[reading.test.id].items()), reading.opened)
            for reading in readings
        }
        self._known: dict[tuple[Standing, object], Way | None] = {}

    def _wanted(self, reading: Reading) -> Needs:
        state = reading.test.state
        if state in ("battery_off", "unplugged"):
            return {**self.batteries.dead, **self.places.open_at(reading.places)}
        home = {plug_of(plug.id): HOME for plug in self.hands.plugs}
        loud = needs(play="loud") if reading.test.turn == "loud" else {}
        return {
            **asked_by(state),
            **loud,
            **home,
            **self.batteries.live,
            **self.places.open_at(reading.places),
        }

    def asks_like(self, reading: Reading) -> Hashable:
        """Return the same for two readings to which the way is alike from wherever the car
        stands."""
        return self._hands_for[reading.test.id]

    def to(self, standing: Standing, reading: Reading) -> Way | None:
        """Return the way to a reading from how the car stands; None where nobody can get there."""
        key = (standing, self._hands_for[reading.test.id])
        if key not in self._known:
            self._known[key] = self._moved(standing, reading)
        return self._known[key]

    def _moved(self, standing: Standing, reading: Reading) -> Way | None:
        try:
            wanted = self._needs[reading.test.id]
            state, moves = self._moving.to(dict(standing.state), wanted)
        except StuckError:
            return None
        minutes = sum(move.minutes for move in moves) + self._by_hand(reading)
        return Way(self._standing(state), minutes)

    def _standing(self, state: State) -> Standing:
        frozen = tuple(sorted(state.items()))
        return self._standings.setdefault(frozen, Standing(frozen))

    def _by_hand(self, reading: Reading) -> float:
        """The reading itself; a device's end is taken off for it and put back."""
        ends = 2 * self.house.hand_terminal_min if reading.opened else 0.0
        return self.house.hand_reading_min + ends


def _plugs_of(units: Sequence[Unit]) -> set[str]:
    return {plug_in(each.id) for unit in units for each in unit.terminals}
