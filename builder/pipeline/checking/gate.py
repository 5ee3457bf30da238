"""The one gate: what stands open against a plan, whoever asks for it and wherever it is shown.

A finding stands open while it is a stop, or a fix, that nobody accepts; `check` fails only for
those of them that say a record is wrong, never for what is not yet known. It counts against a plan
when it is of a record that the plan is made from, or of no record at all (the book's settings).
Commands, pages, data files, sketches and jobs all ask here.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from builder.book import FOLDER_OF, Name, RecordFile
from builder.findings import DataPath, Finding, Severity
from builder.model.book import Shelf
from builder.model.house_defaults import HouseDefaults
from builder.model.parts import Converter, Interface
from builder.model.vehicle import Vehicle
from builder.planning.feeds.wanted_readings import readings_at
from builder.planning.objections import Objection
from builder.planning.plan import Reason

_NOT_ABOUT_PINS = frozenset({"accept", "photos", "edited", "id", "how_to_tell"})
"""Parts of a record a stop may stand on without making a pin doubtful."""

_ABOUT_GRADES = frozenset({"EVD101", "EVD102", "EVD104"})
"""Rules that say how far a pin is proved. The planner weighs grades itself, and asks for the
reading that settles a doubt; barring the pin would only hide that."""

_WEIGHED_BY_PLANS = frozenset({"EVD101", "EVD102"})
"""Of these, a plan says itself which pins it uses and has to wait for; a pin that it leaves alone
may stay as thin as it is."""


@dataclass(frozen=True, slots=True)
class Gate:
    """The findings of a book by the record they are about.

    `everywhere` are those of no record. `printed` is how a file is named in a refusal, where that
    is not how its findings name it: no page says where a book stands on a disk.
    """

    on: Mapping[Name, Sequence[Finding]] = field(default_factory=dict)
    everywhere: Sequence[Finding] = ()
    printed: Mapping[str, str] = field(default_factory=dict)

    def standing(self, names: Iterable[Name]) -> tuple[Finding, ...]:
        """The open findings on these records and on the book, those of the first name first."""
        found = [finding for name in names for finding in self.on.get(name, ())]
        return still_open([*found, *self.everywhere])

    def bars(self, vehicle_id: str) -> dict[DataPath, str]:
        """What stops keep from use in a vehicle, by data path, each with its reason.

        A stop the record accepts bars all the same: accepting says "we know", not "it is safe".
        """
        return {
            finding.path: f"{finding.rule_id}: {finding.message}"
            for finding in self.on.get(("vehicle", vehicle_id), ())
            if finding.severity is Severity.STOP
            and vehicle_id not in finding.also
            and finding.rule_id not in _ABOUT_GRADES
            and not _NOT_ABOUT_PINS & set(finding.path[:1])
        }

    def refusals(self, standing: Iterable[Finding]) -> tuple[Reason, ...]:
        """Each finding as a reason why there is no plan: its weight and place, rule and message."""
        return tuple(self._refusal(finding) for finding in standing)

    def doubts(
        self, standing: Iterable[Finding], vehicle: Vehicle, defaults: HouseDefaults
    ) -> tuple[Objection, ...]:
        """Each finding about a grade as an objection, with the readings that would settle it."""
        return tuple(
            Objection(self._refusal(f), readings_at(vehicle, f.path, defaults)) for f in standing
        )

    def _refusal(self, finding: Finding) -> Reason:
        place = finding.place
        if finding.file in self.printed:
            place = self.printed[finding.file] + place.removeprefix(finding.file)
        said = f"{finding.rule_id}: {finding.message}"
        return Reason(f"{finding.severity.word} at {place}", said, finding.docs)


def still_open(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Return what keeps a plan back, each once: what is wrong and what is not yet known."""
    keeping = (f for f in findings if f.stands_open and f.rule_id not in _WEIGHED_BY_PLANS)
    return tuple(dict.fromkeys(keeping))


def closes(standing: Iterable[Finding]) -> bool:
    """Whether these findings leave not even something to measure first: stops do.

    Those that only say how far a pin is proved are what a probe plan is made for.
    """
    return any(
        finding.severity is Severity.STOP and finding.rule_id not in _ABOUT_GRADES
        for finding in standing
    )


def only_grades(standing: Sequence[Finding]) -> bool:
    """Whether all that stands open is how far pins are proved."""
    return bool(standing) and all(finding.rule_id in _ABOUT_GRADES for finding in standing)


def usable_interfaces(shelf: Shelf, gate: Gate) -> tuple[Interface, ...]:
    """Return the data interfaces of the shelf on which nothing stands open."""
    found = shelf.interfaces.values()
    return tuple(each for each in found if not still_open(gate.on.get(("interface", each.id), ())))


def names_of_plan(vehicle: Vehicle, converter: Converter) -> tuple[Name, ...]:
    """Return the records that a plan is made from."""
    return (("vehicle", vehicle.id), ("converter", converter.id), *names_of_housings(vehicle))


def names_of_housings(vehicle: Vehicle) -> tuple[Name, ...]:
    """Return the housings of a vehicle's plugs: what its cavities are counted on."""
    return tuple(dict.fromkeys(("housing", plug.housing) for plug in vehicle.plugs))


def gate_of(
    findings: Iterable[Finding], records: Mapping[str, Collection[Name]], *, pages: bool = False
) -> Gate:
    """Return the gate of a checked book.

    Args:
        findings: All of them.
        records: The names of the record in each file, by how the file is shown; a record whose id
            is not its file's name has two.
        pages: Whether refusals go to pages, which name a file by its folder and name alone.
    """
    on: defaultdict[Name, list[Finding]] = defaultdict(list)
    everywhere = []
    for finding in findings:
        if finding.file not in records:
            everywhere.append(finding)
        for name in (*records.get(finding.file, ()), *_also(finding)):
            on[name].append(finding)
    printed = dict(_on_pages({*records, *(f.file for f in everywhere)}, records)) if pages else {}
    return Gate(dict(on), tuple(everywhere), printed)


def _also(finding: Finding) -> Iterator[Name]:
    """A finding of two vehicles stands in the file of one, and doubts the other just as much."""
    return (("vehicle", vehicle_id) for vehicle_id in finding.also)


def _on_pages(
    files: Iterable[str], records: Mapping[str, Collection[Name]]
) -> Iterator[tuple[str, str]]:
    for shown in files:
        kinds = [FOLDER_OF[kind] for kind, _ in records.get(shown, ())]
        yield shown, "/".join((*kinds[:1], shown.rsplit("/", 1)[-1]))


def names_in(file: RecordFile, record_id: str | None) -> tuple[Name, ...]:
    """Return what the record in a file answers to: its file's name, and its id."""
    return tuple(dict.fromkeys((file.name, (file.kind, record_id or file.path.stem))))
