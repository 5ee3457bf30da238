"""What a car came back with, and what to read next, as plain text for a terminal."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from builder.figures import shown
from builder.planning.comeback.answered import two_figures
from builder.planning.comeback.ask import Cause, Question, Verdict
from builder.planning.comeback.caught import Catch
from builder.planning.comeback.condition import Fault
from builder.planning.comeback.failed_lines import by_remedy
from builder.planning.comeback.reading_made import Reading
from builder.planning.comeback.words import SYMPTOM_NAMES, Symptom
from builder.planning.work_pack import BayTest
from builder.rendering.pages.bay_lines import bay_band, state_words
from builder.rendering.pages.job_caught import why_words

NO_SINGLE_FAULT = (
    "No single fault of this job reads like that. Take the last readings again; when they stay, "
    "two things are wrong at once: mend what one of them points at, then begin anew."
)


def causes_text(line: str, faults: Sequence[Fault]) -> str:
    """Each cause of a line that failed, the likeliest first, with its place and what to do."""
    if not faults:
        return f"{line}: nothing of this circuit makes it fail by itself\n"
    said = f"{line}: any one of these makes it fail, the likeliest first"
    return "\n".join((said, *cause_lines(by_remedy(faults)))) + "\n"


def caught_text(job: str, found: Sequence[Catch]) -> str:
    """Each line of the bay sheet with the faults that it finds first; then what none finds."""
    by_line: dict[str, list[str]] = {}
    for each in sorted(found, key=_by_line):
        by_line.setdefault(_finder(each), []).append(f"{each.fault.place}: {each.fault.what}")
    in_time = sum(each.in_time for each in found)
    lines = [f"{job}: {len(found)} single faults, {in_time} found before trim goes home"]
    for name, faults in by_line.items():
        lines += [f"{name} ({len(faults)})", *(f"     {said}" for said in faults)]
    return "\n".join(lines) + "\n"


def _by_line(each: Catch) -> tuple[bool, int]:
    """In the order of the sheet; what is not found in time comes last."""
    return not each.in_time, each.line.number if each.line else 0


def _finder(each: Catch) -> str:
    if each.in_time and each.line:
        return f"test {each.line.number} {each.line.id}"
    late = f"test {each.line.number} {each.line.id}, " if each.line else ""
    return f"not found before trim goes home: {late}{why_words(each)}"


def cause_lines(causes: Sequence[Cause]) -> Iterator[str]:
    """What to do about each cause, with every fault that it may be."""
    for at, cause in enumerate(causes, 1):
        yield f"{at}. {cause.remedy}"
        yield from (f"     {fault.place}: {fault.what}" for fault in cause.faults)


def symptoms_text(job: str, faults: Mapping[Symptom, Sequence[Fault]]) -> str:
    """The symptoms of a job that a single fault can make, as they are typed."""
    width = max(map(len, faults))
    lines = [f"{job}: what does the customer say?"]
    for symptom, mine in faults.items():
        count = len({fault.remedy for fault in mine})
        said = f"{count} cause{'' if count == 1 else 's'}" if count else "no single fault makes it"
        lines.append(f"  {symptom:<{width}}  {SYMPTOM_NAMES[symptom]} ({said})")
    return "\n".join((*lines, f"then: loombook comeback {job} {next(iter(faults))}")) + "\n"


def at_words(reading: Reading) -> str:
    """Where the hands are for a reading, behind its words; empty where nothing is opened for it."""
    return f" (at: {', '.join(reading.places)})" if reading.places else ""


def question_lines(question: Question, left: int) -> Iterator[str]:
    """What to read next: where the probes go, how the car stands, what is in order."""
    test = question.reading.test
    yield f"{left} causes left; next, about {shown(question.minutes)} min:"
    yield f"  {test.id}"
    yield f"  {test.what}{at_words(question.reading)}"
    more = f"; type two figures, this and {beside}" if (beside := two_figures(test)) else ""
    yield f"  {state_words(test.state)}; in order: {bay_band(test)}{more}"


def verdict_lines(verdict: Verdict, again: Sequence[BayTest]) -> Iterator[str]:
    """What to do, and which lines of the bay sheet to read again afterwards."""
    if not verdict.causes:
        yield NO_SINGLE_FAULT
        return
    yield from cause_lines(verdict.causes)
    if again:
        yield f"then read again: {', '.join(test.id for test in again)}"
