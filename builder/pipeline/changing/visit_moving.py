"""`mend`: visits that stand in a vehicle's record, moved into files of their own.

What was typed is moved as it was typed, comments too. Nothing is moved unless the vehicle reads the
very same afterwards: every reading under its pin, every visit with all that it says.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any, NamedTuple

from builder.book import Book, RecordFile, home_of, shown_path
from builder.data_files import schema_ref
from builder.editing import UneditableError
from builder.editing.visit_moving import MovedVisits, moved_visits
from builder.loading import load_text, read_bounded
from builder.model.housing import Housing
from builder.model.reading import Reading
from builder.model.vehicle import Vehicle
from builder.model.visit import Visit, visit_id
from builder.parsing import parse_record
from builder.pipeline.changing.evidence_record import visits_folder
from builder.pipeline.changing.record_files import create_new, replace_text, text_of
from builder.pipeline.checking.shape import shape_of
from builder.pipeline.checking.shelf import housings_of
from builder.pipeline.checking.signatures import visit_signature
from builder.pipeline.checking.ssh_keygen import LARGEST_SIGNATURE_BYTES
from builder.proof.faces.turning import turned
from builder.proof.visits import with_visits
from builder.unfinished import undisturbed

_LONGEST_MARK = 20
_PATHS = re.compile(r"path=\([^()]*\)")
"""Where a part of a recording stands, in its representation: moving changes nothing else."""


@dataclass(frozen=True, slots=True)
class MovedCar:
    """A vehicle's file without its visits, and the files that those go to.

    `signatures` are files beside the record that go along: from where, to where.
    """

    file: RecordFile
    old: str
    new: str
    visits: dict[Path, str]
    signatures: tuple[tuple[Path, Path], ...] = ()

    @property
    def told(self) -> str:
        """What is done, as one line."""
        folder = shown_path(next(iter(self.visits)).parent)
        names = ", ".join(path.name for path in self.visits)
        return f"{self.file.shown}: visits moved to {folder}: {names}"


class Stays(NamedTuple):
    """A vehicle whose visits stay where they are, and why; `unread`: its record says nothing."""

    file: RecordFile
    why: str
    unread: bool = False


def moved_cars(book: Book, files: Iterable[RecordFile]) -> Iterator[MovedCar | Stays]:
    """Yield what moving the visits of these vehicles does; those without any are passed over."""
    housings = housings_of(book)
    for file in files:
        if file.kind == "vehicle" and not file.is_template:
            try:
                found = _moved(book, file, housings)
            except UneditableError as error:
                found = Stays(file, str(error))
            if found is not None:
                yield found


@undisturbed()
def write_moved(moved: MovedCar) -> None:
    """Write the visits, then the record without them: killed between, the same command goes on.

    Raises:
        ChangedMeanwhileError: somebody changed the record meanwhile.
        OSError: a file cannot be written.
    """
    for path, text in moved.visits.items():
        if not path.exists():
            create_new(path, text)
    for old, new in moved.signatures:
        if not new.exists():
            create_new(new, read_bounded(old, LARGEST_SIGNATURE_BYTES))
    replace_text(moved.file.path, moved.old, moved.new)
    for old, _ in moved.signatures:
        old.unlink(missing_ok=True)


def _moved(
    book: Book, file: RecordFile, housings: Mapping[str, Housing]
) -> MovedCar | Stays | None:
    text = text_of(file)
    loaded = load_text(text.encode("utf-8"), file.shown)
    shape = shape_of("vehicle", loaded, "")
    data = shape.data
    if data is None or shape.fails:
        return Stays(file, "the record cannot be read: loombook check says why", unread=True)
    if not data["sessions"]:
        return None
    folder = visits_folder(book, file) / data["id"]
    sessions = _by_visit(data["sessions"], _session_ids(file))
    paths = {name: folder / f"{name}.yaml" for name in sessions}
    ref = schema_ref(next(iter(paths.values())), "visit", home_of(file.path))
    moved = moved_visits(text, data, sessions, ref)
    there = {each.path: text_of(each) for each in file.visits}
    new = {paths[name]: visit for name, visit in moved.visits.items()}
    taken = [path for path, visit in new.items() if there.get(path, visit) != visit]
    if taken:
        return Stays(file, f"{shown_path(taken[0])} exists already and says something else")
    if not _reads_the_same(data, moved, housings):
        return Stays(file, "a reading would not be found again under its pin")
    return MovedCar(
        file,
        text,
        moved.vehicle,
        new,
        tuple(_signatures(file.path, sessions, paths)),
    )


def _session_ids(file: RecordFile) -> dict[str, frozenset[str]]:
    """The sessions of each visit that a vehicle has in files, by the visit's name."""
    reads = [(visit.path.stem, _record(text_of(visit), "visit")) for visit in file.visits]
    return {
        name: frozenset(session.id for session in visit.sessions)
        for name, visit in reads
        if isinstance(visit, Visit)
    }


def _by_visit(
    sessions: Sequence[Mapping[str, Any]], taken: Mapping[str, frozenset[str]]
) -> dict[str, list[str]]:
    """The sessions of each visit: those of one contributor, day and car.

    Where another visit has the usual name, one that has none of these sessions, that of the first
    session stands behind it.
    """
    groups: dict[tuple[str, str, str], list[str]] = {}
    for each in sessions:
        who = each["by"], str(each["date"]), each["car"]["tag"]
        groups.setdefault(who, []).append(each["id"])
    found = {}
    for who, ids in groups.items():
        usual = visit_id(*who, "")
        others = taken.get(usual, frozenset(ids))
        mark = ids[0][:_LONGEST_MARK].rstrip("-")
        found[usual if others & set(ids) else visit_id(*who, mark)] = ids
    return found


def _signatures(
    record: Path, sessions: Mapping[str, Sequence[str]], paths: Mapping[str, Path]
) -> Iterator[tuple[Path, Path]]:
    for name, ids in sessions.items():
        for session in ids:
            old = visit_signature(record, session)
            if old.is_file():
                yield old, visit_signature(paths[name], session)


def _reads_the_same(
    data: dict[str, Any], moved: MovedVisits, housings: Mapping[str, Housing]
) -> bool:
    """Whether the vehicle with its visits is what it was, but for where things stand."""
    before, after = parse_record("vehicle", data), _record(moved.vehicle, "vehicle")
    visits = [_record(text, "visit") for text in moved.visits.values()]
    assert isinstance(before, Vehicle)
    if not isinstance(after, Vehicle):
        return False
    joined = with_visits(after, [each for each in visits if isinstance(each, Visit)], housings)
    return not joined.faults and _plain(joined.vehicle) == _plain(turned(before, housings))


def _record(text: str, kind: Any) -> object:
    loaded = load_text(text.encode("utf-8"), "")
    shape = shape_of(kind, loaded, "")
    return None if shape.data is None or shape.fails else parse_record(kind, shape.data)


def _plain(vehicle: Vehicle) -> object:
    """All that a vehicle says, without the places and the order of what was measured."""
    pins = [pin for plug in vehicle.plugs for pin in plug.pins]
    readings = [_unplaced(pin.readings) for pin in pins]
    readings += [_unplaced(each.readings) for each in vehicle.fuse_positions]
    pins = [replace(pin, readings=()) for pin in pins]
    sessions = sorted(repr(replace(session, path=())) for session in vehicle.sessions)
    recordings = sorted(_PATHS.sub("", repr(each)) for each in vehicle.recordings)
    bare = replace(vehicle, sessions=(), plugs=(), fuse_positions=(), visits=(), recordings=())
    return readings, pins, sessions, recordings, bare


def _unplaced(readings: Sequence[Reading]) -> list[str]:
    return sorted(repr(replace(reading, path=())) for reading in readings)
