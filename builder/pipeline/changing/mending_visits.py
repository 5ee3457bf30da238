"""The last step of `mend`: visits that still stand in a mended vehicle's record get their files."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path

from builder.book import Book, shown_path
from builder.pipeline.changing.mending import MendedBook, MendedFile, write_mended
from builder.pipeline.changing.visit_moving import MovedCar, Stays, moved_cars, write_moved


@dataclass(frozen=True, slots=True)
class MendedVisits:
    """Mended files, the vehicles among them whose visits move, and those left alone, with why."""

    mended: MendedBook
    moved: tuple[MovedCar, ...]
    stay: tuple[Stays, ...]

    def texts(self) -> Iterator[tuple[str, str, str]]:
        """Every file that is written, as it is shown: its name, its text before and after.

        What was not there before has the text "".
        """
        cars = {car.file.path: car for car in self.moved}
        for each in self.mended.files:
            new = cars[each.file.path].new if each.file.path in cars else each.new
            if new != each.old:
                yield each.file.shown, each.old, new
        for car in self.moved:
            yield from ((shown_path(path), "", text) for path, text in car.visits.items())


def visits_to_move(book: Book, mended: MendedBook) -> MendedVisits:
    """Return what moves out of these files as they are mended; nothing is written.

    A record that cannot be read is passed over: its findings say so.
    """
    trial = book.with_texts({each.file.path: each.new for each in mended.changed})
    by_path = {each.file.path: each for each in mended.files}
    found = list(moved_cars(trial, [file for file in trial.files() if file.path in by_path]))
    moved = [_from_disk(each, by_path) for each in found if isinstance(each, MovedCar)]
    stay = [each for each in found if isinstance(each, Stays) and not each.unread]
    return MendedVisits(mended, tuple(moved), tuple(stay))


def write_with_visits(visits: MendedVisits) -> None:
    """Write every changed file, each in one step, and visits before the record that they leave.

    Raises:
        ChangedMeanwhileError: somebody changed a file meanwhile; those before it are written.
        OSError: a file cannot be written.
    """
    leaving = {car.file.path for car in visits.moved}
    rest = tuple(each for each in visits.mended.files if each.file.path not in leaving)
    write_mended(replace(visits.mended, files=rest))
    for car in visits.moved:
        write_moved(car)


def _from_disk(car: MovedCar, by_path: dict[Path, MendedFile]) -> MovedCar:
    """The same change, made of the text that is on the disk."""
    return replace(car, old=by_path[car.file.path].old)
