"""Findings a record declares as expected.

An acceptance names a rule, a reason and who says so; `at` narrows it to a plug ("A") or a
cavity ("A.4"). One that accepts nothing is itself a finding, so that it goes when its
reason has gone. Electrical and safety stops cannot be accepted.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from builder.findings import CatalogueEntry, DataPath, Fault, Finding, Severity
from builder.model.vehicle import Acceptance, Vehicle
from builder.pipeline.records import ReadRecord
from builder.rules.registry import HAZARDS

UNUSED = CatalogueEntry(
    id="BOK110",
    slug="acceptance-unused",
    title="An acceptance that accepts nothing",
    severity=Severity.FIX,
    what="An entry of `accept` whose rule finds nothing at the place it names.",
    why="An exception that nobody needs any more hides the next fault of the same kind.",
    example="accept:\n  - {rule: PIN111, at: A.4, reason: long gone, who: some-shop}",
    fix="Delete the entry, or correct its rule id or place.",
    source="Chosen by this project.",
)

REFUSED = CatalogueEntry(
    id="BOK111",
    slug="hazard-accepted",
    title="An acceptance of something that can do harm",
    severity=Severity.FIX,
    what="An entry of `accept` for an electrical or safety stop.",
    why="These stand for burnt outputs, flat batteries and hurt people. No reason makes them safe.",
    example="accept:\n  - {rule: MET102, reason: it will be fine, who: some-shop}",
    fix="Delete the entry and correct what the rule found.",
    source="Chosen by this project.",
)


@dataclass(frozen=True, slots=True)
class PlacedAcceptance:
    """An acceptance with the data paths it covers and its own place in the file."""

    rule: str
    reason: str
    covers: tuple[DataPath, ...]
    place: Finding  # an unused-acceptance finding, ready to be reported

    def matches(self, finding: Finding) -> bool:
        """Whether this acceptance is about that finding."""
        return finding.rule_id == self.rule and any(
            finding.path[: len(prefix)] == prefix for prefix in self.covers
        )


def place_acceptances(vehicle: Vehicle, read: ReadRecord) -> list[PlacedAcceptance]:
    """Return the acceptances of a vehicle with what each covers."""
    return [_placed(acceptance, vehicle, read) for acceptance in vehicle.accept]


def _placed(acceptance: Acceptance, vehicle: Vehicle, read: ReadRecord) -> PlacedAcceptance:
    where = f" at {acceptance.at}" if acceptance.at else ""
    fault = Fault(
        acceptance.path,
        f"accepts {acceptance.rule}{where}, but that rule finds nothing there",
        "delete this entry, or correct its rule id or its place",
    )
    return PlacedAcceptance(
        acceptance.rule,
        acceptance.reason,
        _covered_paths(acceptance.at, vehicle),
        read.locate(fault, UNUSED.id, UNUSED.slug, UNUSED.severity),
    )


def _covered_paths(at: str | None, vehicle: Vehicle) -> tuple[DataPath, ...]:
    if at is None:
        return ((),)
    plug_id, _, cavity = at.partition(".")
    plugs = [plug for plug in vehicle.plugs if plug.id == plug_id]
    if not cavity:
        return tuple(plug.path for plug in plugs)
    return tuple(pin.path for plug in plugs for pin in plug.pins if pin.cavity == cavity)


def apply_acceptances(
    findings: list[Finding], acceptances: list[PlacedAcceptance]
) -> list[Finding]:
    """Return the findings of one record with accepted ones marked and bad acceptances added."""
    allowed = [entry for entry in acceptances if entry.rule not in HAZARDS]
    marked = [_marked(finding, allowed) for finding in findings]
    unused = [entry.place for entry in allowed if not any(map(entry.matches, findings))]
    refused = [_refused(entry) for entry in acceptances if entry.rule in HAZARDS]
    return marked + unused + refused


def _marked(finding: Finding, allowed: list[PlacedAcceptance]) -> Finding:
    reason = next((entry.reason for entry in allowed if entry.matches(finding)), None)
    return finding if reason is None else replace(finding, accepted=reason)


def _refused(entry: PlacedAcceptance) -> Finding:
    return replace(
        entry.place,
        rule_id=REFUSED.id,
        slug=REFUSED.slug,
        severity=REFUSED.severity,
        message=f"{entry.rule} can do harm and cannot be accepted",
        help="delete this entry and correct what the rule found",
    )
