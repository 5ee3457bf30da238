"""What is told of a job that is begun: what speaks against it, and what it is planned from."""

from __future__ import annotations

from collections.abc import Iterator

from builder.book import begun_path
from builder.findings import CatalogueEntry, Fault, Finding, Severity
from builder.model.job import Job
from builder.pipeline.checking.begun_edits import edits_since
from builder.pipeline.checking.frozen import frozen_in
from builder.pipeline.checking.records import ReadRecord
from builder.planning.job.recalled import Recall

JOB_RECALLED = CatalogueEntry(
    id="BOK113",
    slug="job-recalled",
    title="A job that is joined to something the book speaks against",
    severity=Severity.WARN,
    what="A job that is begun, and a pin it is joined to that is disputed since, barred by a stop, "
    "proved less than on that day, or called otherwise; or a stop on the job or a part of it. The "
    "job is on the recall list, and its page shows what is joined and the way back, and nothing "
    "to join.",
    why="Somebody drives that car. What is known better now does not reach a joint made before, "
    "unless the car comes back for a reading.",
    example="A.7 is read as asleep at 0 V by a second shop, a month after a turn-on was joined.",
    fix="Call the car back and take the reading that the finding names. Add it with evidence add: "
    "it settles the doubt, or says what must be undone.",
)

BEGUN_FILE_UNUSED = CatalogueEntry(
    id="BOK114",
    slug="begun-file-unused",
    title="The records that a job was begun with are not there",
    severity=Severity.WARN,
    what="A job with `begun` and without the file beside it that holds the records it was begun "
    "with, or with one that is broken or says something else than `as_built`. The pack is worked "
    "out from the book instead, without what came later.",
    why="A pack that is worked out again may name another pin than the one that is joined. The way "
    "back follows the as-built part all the same.",
    example="jobs/tansy-subwoofer.yaml has `begun`; jobs/tansy-subwoofer.begun.json is missing.",
    fix="Copy the file back from a backup; it has the name of the job's file. Without one, compare "
    "the sheets with the printed ones.",
)

CANNOT_BEGIN = CatalogueEntry(
    id="BOK115",
    slug="cannot-begin",
    title="A job that cannot be begun",
    severity=Severity.STOP,
    what="`loombook begin` of a job that is begun already, has no tap plan, or is planned with a "
    "record that only this shop may see while the job itself is shared.",
    why="What is begun is joined to a car: only a plan that may be built is written down as built, "
    "and only once.",
    example="loombook begin tansy-subwoofer, of which plan says that A.7 must be measured first",
    fix="Do what the finding says, then begin. A correction of what was joined is typed into "
    "`begun: as_built` of the job's record.",
)


NOT_RECONSTRUCTED = CatalogueEntry(
    id="BOK118",
    slug="plan-not-reconstructed",
    title="A job in a car whose plan of that day cannot be worked out again",
    severity=Severity.WARN,
    what="A job with results, or with `begun` and without the file beside it, of which the records "
    "of its day give no plan: the car was read again later, or its record or a part's was changed. "
    "What is shown is planned from the car's record of today.",
    why="The pins and places that are shown may not be those that are joined. Whoever works back "
    "from them looks for a joint where none is, and leaves one where it is.",
    example="A job of 2025-04-14 whose turn-on nobody had proved before a visit in September.",
    fix="Compare it with the printed sheets and with the car. Then write it down: loombook begin "
    "JOB, and type what is joined otherwise into `begun: as_built`.",
)


def not_reconstructed(read: ReadRecord, day: str) -> Finding:
    """Return that what is shown of a job is not the plan of its day, YYYY-MM-DD."""
    entry, begun = NOT_RECONSTRUCTED, "begun" in read.data
    fault = Fault(
        ("begun",) if begun else ("results",),
        f"what was known on {day} gives no plan any more: what is shown is planned from the record "
        "of today, and may name another pin than the one that is joined",
        "compare it with the printed sheets and the car; "
        + ("" if begun else f"then loombook begin {read.file.path.stem}, and ")
        + "type what is joined otherwise into begun: as_built",
    )
    return read.locate(fault, entry.id, entry.slug, entry.severity)


def not_known(read: ReadRecord, day: str) -> Finding:
    """Return that no record says what is joined of a job with results since a day, YYYY-MM-DD."""
    entry = NOT_RECONSTRUCTED
    fault = Fault(
        ("results",),
        f"lines were read since {day} that are read after joining, and neither the records of that "
        "day nor those of today give a plan: what is joined cannot be told from the book",
        "compare the printed sheets with the car, and type begun: {by: YOU, date: DAY, as_built: "
        "{pins: [{at: CAVITY, purpose: WHAT FOR, place: WHERE}]}}",
    )
    return read.locate(fault, entry.id, entry.slug, entry.severity)


def begun_findings(read: ReadRecord, job: Job, recalls: tuple[Recall, ...]) -> Iterator[Finding]:
    """Yield what a begun job's own file has to be told of."""
    entry = JOB_RECALLED
    path = ("begun",) if job.begun else ("results",)
    for recall in recalls:
        where = f"{recall.at} is joined, and " if recall.at else ""
        help_text = recall.reading or "have the car back, and look"
        fault = Fault(path, f"{where}{recall.because}", help_text)
        yield read.locate(fault, entry.id, entry.slug, entry.severity)
    if job.begun is None:
        return
    frozen = frozen_in(read.file.begun, job.begun.as_built.records)
    if frozen is None:
        yield _unused(read)
    else:
        yield from edits_since(read, frozen)


def _unused(read: ReadRecord) -> Finding:
    entry, name = BEGUN_FILE_UNUSED, begun_path(read.file.path).name
    if read.file.begun is None:
        told, weight = f"{name} is not beside it", Severity.NOTE
    else:
        told, weight = f"{name} does not hold the records that as_built names", entry.severity
    fault = Fault(
        ("begun", "as_built"),
        f"{told}: the pack is worked out from the book as it was on that day",
        "copy the file back from a backup, or compare the sheets with the printed ones",
        weight,
    )
    return read.locate(fault, entry.id, entry.slug, entry.severity)
