"""Rules run on what they look at; their faults become findings with places in the file."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from builder.findings import Fault, Finding
from builder.pipeline.checking.records import ReadRecord
from builder.rules.rule import Rule


def run_rules(rules: Sequence[Rule], read: ReadRecord, *subjects: object) -> list[Finding]:
    """Run rules on what they look at and return their faults with places in the file."""
    return [
        located(read, rule, fault)
        for rule in rules
        for fault in rule.check(*subjects)
        if isinstance(fault, Fault)
    ]


def located(read: ReadRecord, rule: Rule, fault: Fault) -> Finding:
    """Return the finding of a rule's fault: its place in the file, and what the rule says by it."""
    found = read.locate(fault, rule.id, rule.slug, rule.severity)
    says = rule.says(fault)
    return found if says == found.says else replace(found, says=says)
