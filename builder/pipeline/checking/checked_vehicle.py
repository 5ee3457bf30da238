"""One vehicle file, read and judged by the rules that look at a vehicle and the parts it names."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from builder.book import RecordFile
from builder.findings import Finding
from builder.model.dates import newest_in_vehicle
from builder.model.summary import VehicleSummary, summarise
from builder.model.vehicle import Vehicle
from builder.pipeline.checking.acceptance import PlacedAcceptance, place_acceptances
from builder.pipeline.checking.own_fault import own_fault
from builder.pipeline.checking.privacy import names_private
from builder.pipeline.checking.records import ReadRecord, as_counted, read_record
from builder.pipeline.checking.ruling import run_rules
from builder.pipeline.checking.shelf import Shelves
from builder.rules.registry import rules_for
from builder.rules.rule import Scope


class CheckedVehicle(NamedTuple):
    """What a checked vehicle file leaves behind; small, because there may be many."""

    file: RecordFile
    id: str | None  # None of a file that cannot be used
    told: VehicleSummary | Callable[[], VehicleSummary] | None
    findings: list[Finding]
    acceptances: list[PlacedAcceptance]
    newest: str  # date of the newest reading or edit, "" when there is none
    told_sum: str = ""  # a digest of the summary, where anything is kept

    @property
    def summary(self) -> VehicleSummary | None:
        """What book-wide rules need of it; of one that was kept it is made when it is asked for."""
        return self.told() if callable(self.told) else self.told


def check_vehicle(shelves: Shelves, file: RecordFile) -> CheckedVehicle:
    """Read one vehicle file and run the record and vehicle rules on it."""
    read = as_counted(read_record(file), shelves.for_file(file))
    if not isinstance(read.record, Vehicle):
        return CheckedVehicle(file, None, None, read.findings, [], "")
    try:
        return _judged(shelves, read, read.record)
    except Exception as error:
        findings = [*read.findings, own_fault(file.shown, error)]
        return CheckedVehicle(file, None, None, findings, [], newest_in_vehicle(read.record))


def _judged(shelves: Shelves, read: ReadRecord, vehicle: Vehicle) -> CheckedVehicle:
    file = read.file
    findings = read.findings + run_rules(rules_for(Scope.RECORD, "vehicle"), read, vehicle)
    shelf = shelves.for_file(file)
    findings += run_rules(rules_for(Scope.VEHICLE), read, vehicle, shelf)
    findings += names_private(read, vehicle, shelf, shelves.public)
    return CheckedVehicle(
        file,
        vehicle.id,
        summarise(vehicle, file.shown),
        findings,
        place_acceptances(vehicle, read),
        newest_in_vehicle(vehicle),
    )
