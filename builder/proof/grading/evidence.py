"""Everything that speaks for or against a pin, weighed item by item."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

from builder.model.house_defaults import HouseDefaults
from builder.model.plugs import Pin, Reading, Session
from builder.model.vehicle import Vehicle
from builder.model.words import ALL, UNKNOWN
from builder.proof.grading.item import Item, item_of_claim
from builder.proof.grading.visits import judged_visit, proved_otherwise
from builder.proof.grading.weighing import Place, Tally, Visit, mates_of, place_of, visits_of
from builder.proof.judging import with_article
from builder.proof.set_aside import retired_at
from builder.proof.signatures.of_pins import kinds_of_pin
from builder.proof.signatures.shapes import Kind


def gather(vehicle: Vehicle, pin: Pin, defaults: HouseDefaults) -> tuple[list[Item], bool]:
    """Return every item on a pin, and whether some visit said nothing about it."""
    place = place_of(vehicle, pin)
    mates = mates_of(vehicle, place)
    retired = retired_at(vehicle, *place.cavity)
    said = [claim for claim in pin.claims if claim.says != "unknown"]
    items = [item_of_claim(vehicle, claim, pin, defaults, retired) for claim in said]
    if not pin.readings and not any(mate.pin.readings for mate in mates):
        return items, False
    measured, silent = _measured_items(vehicle, place, mates, defaults, retired)
    return items + measured, silent


def _measured_items(
    vehicle: Vehicle,
    place: Place,
    mates: tuple[Place, ...],
    defaults: HouseDefaults,
    retired: frozenset[str],
) -> tuple[list[Item], bool]:
    choices = kinds_of_pin(vehicle, place.pin, defaults)
    sessions = {session.id: session for session in vehicle.sessions}
    items: list[Item] = []
    groups: dict[tuple[str, str], list[_Judged]] = {}
    visits = visits_of(place, mates)
    for name, visit in visits.items():
        session = sessions.get(name)
        if session is None or not choices:
            continue
        tallies = judged_visit(vehicle, place, mates, visit, choices, defaults)
        one = _Judged(session, tallies, visit)
        item = _of_one(vehicle, place, one, defaults)
        if item is not None:
            items.append(_finished(item, [session], [visit], retired))
            groups.setdefault((session.by, session.car_tag), []).append(one)
    silent = len(items) < len(visits)
    for group in groups.values():
        items.extend(_joined(vehicle, place.pin, choices, group, defaults, retired))
    return items, silent


class _Judged(NamedTuple):
    """A visit, and what it comes to by each kind that the pin may be."""

    session: Session
    tallies: list[Tally]
    visit: Visit


def _of_one(vehicle: Vehicle, place: Place, one: _Judged, defaults: HouseDefaults) -> Item | None:
    """Weigh a visit by the kind that it fits best, or by what else it proves."""
    best = min(one.tallies, key=Tally.rank)
    open_to_doubt = best.faults or not best.met
    another = proved_otherwise(place, one.visit, defaults) if open_to_doubt else None
    return _of_visit(vehicle, place.pin, [one.session], best, defaults, another)


def _joined(
    vehicle: Vehicle,
    pin: Pin,
    choices: Sequence[Kind],
    group: list[_Judged],
    defaults: HouseDefaults,
    retired: frozenset[str],
) -> Iterator[Item]:
    """Yield what several visits of one person to one car prove together, if they do."""
    usable = [one for one in group if _may_join(one.session, retired)]
    for index, kind in enumerate(choices):
        good = [one for one in usable if _bears_out(one.tallies[index])]
        if len(good) < 2:
            continue
        sessions = [one.session for one in good]
        whole = _union(kind, [one.tallies[index] for one in good])
        item = _of_visit(vehicle, pin, sessions, whole, defaults)
        if item is not None:
            yield _finished(item, sessions, [one.visit for one in good], retired)


def _may_join(session: Session, retired: frozenset[str]) -> bool:
    return session.read_from != "unknown" and not {session.id, session.by} & retired


def _bears_out(tally: Tally) -> bool:
    return bool(tally.measured) and not tally.faults


def _union(kind: Kind, tallies: list[Tally]) -> Tally:
    whole = Tally(kind)
    for one in tallies:
        whole.met += one.met
        whole.measured |= one.measured
        whole.proved |= one.proved
        whole.touched |= one.touched
        whole.battery_missing |= one.battery_missing
    return whole


def _of_visit(
    vehicle: Vehicle,
    pin: Pin,
    sessions: list[Session],
    result: Tally,
    defaults: HouseDefaults,
    another: Kind | None = None,
) -> Item | None:
    """Weigh a visit; None when it says nothing that defines the function.

    `another` is the kind of another function that it proves: that speaks against this one with
    the weight of a full proof.
    """
    supports = not result.faults and another is None
    if supports and not result.measured:
        return None
    first = sessions[0]
    full = another is not None or _is_full(result, supports)
    face_known = all(session.read_from != "unknown" for session in sessions)
    weight = defaults.weight_full if full else defaults.weight_part
    return Item(
        first.by,
        "full" if full else "part",
        weight if face_known else min(weight, defaults.cap_unknown_face),
        supports,
        _because(first, result, full, another),
        tuple(session.id for session in sessions),
        True,
        tuple(sorted({s.car_year for s in sessions if s.car_year is not None})),
        all(_in_scope(vehicle, pin, session) for session in sessions),
        face_known,
        result.battery_missing,
        False,
        result.kind.id,
        result.missing,
        dates=tuple(sorted({session.date for session in sessions})),
        counts_as=vehicle.contributor(first.by),
        car=first.car_tag,
    )


def _is_full(result: Tally, supports: bool) -> bool:
    """Whether every defining state was read: met, or against the pin touched at least."""
    whole = not result.missing if supports else not set(result.kind.defining) - result.touched
    return whole and bool(result.kind.defining) and not result.battery_missing


def _because(session: Session, result: Tally, full: bool, another: Kind | None) -> str:
    car = " ".join(str(part) for part in (session.car_year, session.car_trim) if part)
    head = f"{session.by} ({session.date}{', ' + car if car else ''})"
    if another is not None:
        told = f": {'; '.join(result.sentences())}" if result.faults else ""
        return f"{head} measured what proves {with_article(another.name)} in full{told}"
    if result.faults:
        return f"{head} measured {'; '.join(result.sentences())}"
    return f"{head}: {'full' if full else 'partial'} proof as {with_article(result.kind.name)}"


def _in_scope(vehicle: Vehicle, pin: Pin, session: Session) -> bool:
    """Whether the measured car is one the line is about; what is not recorded is not held
    against it, because the record's scope is what the contributor filed it under."""
    trims = pin.only_if.trims if pin.only_if and pin.only_if.trims else vehicle.scope.trims
    trim, side = session.car_trim, session.car_drive_side
    trim_fits = trim in (None, UNKNOWN) or ALL in trims or UNKNOWN in trims or trim in trims
    wanted = vehicle.scope.drive_side
    return trim_fits and (side is None or wanted in ("both", side))


def _finished(
    item: Item, sessions: list[Session], visits: list[Visit], retired: frozenset[str]
) -> Item:
    gone = bool({item.contributor, *item.sessions} & retired)
    marks = tuple(sorted(_mark(s, v) for s, v in zip(sessions, visits, strict=True)))
    weight = 0.0 if gone else item.weight
    return replace(item, weight=weight, retired=gone, fingerprint=marks)


def _mark(session: Session, visit: Visit) -> tuple[str, tuple[str, ...]]:
    readings = (*visit.own, *(reading for _, reading in visit.mates))
    return (session.date, tuple(sorted(_figures(reading) for reading in readings)))


def _figures(reading: Reading) -> str:
    value = "open" if reading.value is None else f"{reading.value:.2f}"
    battery = "" if reading.battery_v is None else f"{reading.battery_v:.2f}"
    return f"{reading.state} {reading.quantity} {reading.load} {value} {battery}"
