"""Findings a record declares as expected.

An acceptance names a rule, a reason and who says so; `at` narrows it to a plug ("A") or a
cavity ("A.4") of a vehicle. One that accepts nothing is itself a finding, so that it goes when
its reason has gone. Electrical and safety stops cannot be accepted; milder findings of the same
rule can. What of a vehicle is not yet known needs none: its page says so and its plans wait for it,
whatever anybody writes. A fix is different: an acceptance is what lets a plan pass it.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from builder.findings import NOT_YET_KNOWN, CatalogueEntry, DataPath, Fault, Finding, Fix, Severity
from builder.model.job import Job, JobAcceptance
from builder.model.plugs import Plug
from builder.model.vehicle import Acceptance, Vehicle
from builder.pipeline.checking.records import ReadRecord
from builder.rules.registry import BY_ID, HAZARDS

UNUSED = CatalogueEntry(
    id="BOK110",
    slug="acceptance-unused",
    title="An acceptance that accepts nothing",
    severity=Severity.FIX,
    what="An entry of `accept` whose rule finds nothing at the place it names.",
    why="An exception that nobody needs any more hides the next fault of the same kind.",
    example="accept:\n  - {rule: PIN111, at: A.4, reason: long gone, who: some-shop}",
    fix="Delete the entry, or correct its rule id or place.",
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
)


NEEDLESS = CatalogueEntry(
    id="BOK116",
    slug="thinness-accepted",
    title="An acceptance of what is only not yet known",
    severity=Severity.NOTE,
    what="An entry of a vehicle's `accept` for findings that say that nobody knows something yet.",
    why="A thin record is no fault: no check fails for it, its page says what is proved and what "
    "is not, and its plans ask for what is missing. The entry changes nothing of that.",
    example="accept:\n  - {rule: EVD102, at: A.4, reason: not yet measured, who: some-shop}",
    fix="Run loombook mend, which takes the entry out.",
)


@dataclass(frozen=True, slots=True)
class PlacedAcceptance:
    """An acceptance with the data paths it covers and its own place in the file.

    One of a vehicle is for what is wrong alone (`of_wrong`); one of a job decides both.
    """

    rule: str
    reason: str
    covers: tuple[DataPath, ...]
    place: Finding  # an unused-acceptance finding, ready to be reported
    of_wrong: bool

    def matches(self, finding: Finding) -> bool:
        """Whether this acceptance is about that finding."""
        return finding.rule_id == self.rule and any(
            finding.path[: len(prefix)] == prefix for prefix in self.covers
        )


def place_acceptances(record: Vehicle | Job, read: ReadRecord) -> list[PlacedAcceptance]:
    """Return the acceptances of a vehicle or job with what each covers; a job's cover all of it."""
    plugs = record.plugs if isinstance(record, Vehicle) else ()
    of_wrong = isinstance(record, Vehicle)
    return [_placed(acceptance, plugs, read, of_wrong) for acceptance in record.accept]


def _placed(
    acceptance: Acceptance | JobAcceptance,
    plugs: tuple[Plug, ...],
    read: ReadRecord,
    of_wrong: bool,
) -> PlacedAcceptance:
    where = f" at {acceptance.at}" if acceptance.at else ""
    fault = Fault(
        acceptance.path,
        f"accepts {acceptance.rule}{where}, but that rule finds nothing there",
        "delete this entry, or correct its rule id or its place",
    )
    return PlacedAcceptance(
        acceptance.rule,
        acceptance.reason,
        _covered_paths(acceptance.at, plugs),
        read.locate(fault, UNUSED.id, UNUSED.slug, UNUSED.severity),
        of_wrong,
    )


def _covered_paths(at: str | None, plugs: tuple[Plug, ...]) -> tuple[DataPath, ...]:
    if at is None:
        return ((),)
    plug_id, _, cavity = at.partition(".")
    named = [plug for plug in plugs if plug.id == plug_id]
    if not cavity:
        return tuple(plug.path for plug in named)
    return tuple(pin.path for plug in named for pin in plug.pins if pin.cavity == cavity)


def apply_acceptances(
    findings: list[Finding], acceptances: list[PlacedAcceptance]
) -> list[Finding]:
    """Return the findings of one record with accepted ones marked and bad acceptances added."""
    needless = [entry for entry in acceptances if _only_thin(entry, findings)]
    acceptances = [entry for entry in acceptances if entry not in needless]
    harmless = [finding for finding in findings if not _can_do_harm(finding)]
    allowed = [e for e in acceptances if e.rule not in HAZARDS or any(map(e.matches, harmless))]
    marked = [_marked(finding, allowed) for finding in findings]
    unused = [_unused(entry, marked) for entry in allowed if not any(map(entry.matches, findings))]
    refused = [_refused(entry) for entry in acceptances if entry not in allowed]
    return marked + unused + refused + [_needless(entry) for entry in needless]


def _only_thin(entry: PlacedAcceptance, findings: list[Finding]) -> bool:
    """Whether all that an entry is about needs no acceptance."""
    matched = [finding for finding in findings if entry.matches(finding)]
    return bool(matched) and all(_needs_none(entry, finding) for finding in matched)


def _needs_none(entry: PlacedAcceptance, finding: Finding) -> bool:
    thin = finding.says == NOT_YET_KNOWN and finding.severity is not Severity.FIX
    return entry.of_wrong and thin


def _needless(entry: PlacedAcceptance) -> Finding:
    return replace(
        entry.place,
        rule_id=NEEDLESS.id,
        slug=NEEDLESS.slug,
        severity=NEEDLESS.severity,
        message=f"{entry.rule} only says what is not yet known: that needs no acceptance",
        help="delete this entry; the record stays as thin as it is. loombook mend does it",
        fix=Fix("remove", entry.place.path),
    )


def _unused(entry: PlacedAcceptance, findings: list[Finding]) -> Finding:
    """The finding of an acceptance that accepts nothing, with its fix where it is surely stale.

    It may be taken out unasked when its rule is a rule and finds nothing in the record that is not
    accepted elsewhere, and nothing is left to mend that a mistyped entry could be meant for.
    """
    bare = [f for f in findings if f.accepted is None and not _needs_none(entry, f)]
    meant = any(finding.rule_id == entry.rule or finding.fails_check for finding in bare)
    if meant or entry.rule not in BY_ID:
        return entry.place
    return replace(
        entry.place,
        help="delete this entry: the record has nothing left that it could be meant for. "
        "loombook mend does it",
        fix=Fix("remove", entry.place.path),
    )


def _can_do_harm(finding: Finding) -> bool:
    """Whether nothing makes a finding acceptable: a stop of a rule about harm."""
    return finding.rule_id in HAZARDS and finding.severity is Severity.STOP


def _accepts(entry: PlacedAcceptance, finding: Finding) -> bool:
    return entry.matches(finding) and not _needs_none(entry, finding)


def _marked(finding: Finding, allowed: list[PlacedAcceptance]) -> Finding:
    if _can_do_harm(finding):
        return finding
    reason = next((entry.reason for entry in allowed if _accepts(entry, finding)), None)
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
