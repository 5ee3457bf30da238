"""What every finding id means: rules, and what loading, shape, tables, sheets and books say."""

from __future__ import annotations

from functools import cache

from builder.book import (
    LEAD_UNFIT,
    LINKED_FOLDER,
    NAMED_TWICE,
    NOT_FETCHED,
    OLD_NAME,
    RENAMED_WRONGLY,
    ROOT_MISSING,
    UNREAD_FOLDER,
)
from builder.editing.evidence_catalogue import EVIDENCE_CATALOGUE
from builder.editing.tabular import CATALOGUE as TABLE_CATALOGUE
from builder.loading import CATALOGUE as LOADING_CATALOGUE
from builder.pipeline.checking.acceptance import NEEDLESS, REFUSED, UNUSED
from builder.pipeline.checking.begun_edits import EDITED_AFTER_BEGUN
from builder.pipeline.checking.begun_findings import (
    BEGUN_FILE_UNUSED,
    CANNOT_BEGIN,
    JOB_RECALLED,
    NOT_RECONSTRUCTED,
)
from builder.pipeline.checking.own_fault import OWN_FAULT
from builder.pipeline.checking.privacy import SHARED_NAMES_PRIVATE
from builder.pipeline.checking.records import ID_NOT_FILE_NAME, REPLACES_NOTHING
from builder.pipeline.checking.reserved_ids import RESERVED_ID
from builder.pipeline.checking.shelf import ID_USED_TWICE
from builder.pipeline.checking.signatures import (
    NOT_SIGNED,
    SIGNATURE_OF_NOTHING,
    SIGNATURE_WRONG,
)
from builder.pipeline.checking.visits import NO_SUCH_PLACE, NOT_ITS_VEHICLE, NOT_ONE_DAY
from builder.rendering.pages.catalogue import Explained, explain_entry
from builder.rules.pages import catalogue_entry
from builder.rules.registry import RULES
from builder.rules.rule import Rule
from builder.schema_check import CATALOGUE as SHAPE_CATALOGUE

BOOK_CATALOGUE = (
    *EVIDENCE_CATALOGUE,
    *TABLE_CATALOGUE,
    BEGUN_FILE_UNUSED,
    CANNOT_BEGIN,
    EDITED_AFTER_BEGUN,
    JOB_RECALLED,
    NOT_RECONSTRUCTED,
    ID_NOT_FILE_NAME,
    ID_USED_TWICE,
    REPLACES_NOTHING,
    OLD_NAME,
    LEAD_UNFIT,
    LINKED_FOLDER,
    UNREAD_FOLDER,
    NAMED_TWICE,
    NOT_FETCHED,
    NOT_ITS_VEHICLE,
    NOT_ONE_DAY,
    NO_SUCH_PLACE,
    OWN_FAULT,
    RENAMED_WRONGLY,
    RESERVED_ID,
    ROOT_MISSING,
    SHARED_NAMES_PRIVATE,
    UNUSED,
    REFUSED,
    NEEDLESS,
    SIGNATURE_WRONG,
    SIGNATURE_OF_NOTHING,
    NOT_SIGNED,
)


@cache
def every_explanation() -> tuple[Explained, ...]:
    """Return what every finding id means, rules and others, by id."""
    entries = (*LOADING_CATALOGUE, *SHAPE_CATALOGUE, *BOOK_CATALOGUE)
    explained = [explain_entry(entry) for entry in entries] + [explain_rule(r) for r in RULES]
    return tuple(sorted(explained, key=lambda item: item.id))


def explain_rule(rule: Rule) -> Explained:
    """Return a rule's docstring in the form of its page."""
    entry = catalogue_entry(rule, rule.page)
    return explain_entry(entry)._replace(
        hazard=rule.hazard, not_known=rule.not_known, partly=rule.partly
    )
