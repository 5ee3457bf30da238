"""How far a job is, in words: on its page, its sheets in a terminal and the recall list."""

from __future__ import annotations

import json
from collections.abc import Iterator

from builder.model.job import AsBuilt, JoinedPin, LaidConductor
from builder.planning.job.recalled import Recall
from builder.planning.job.standing import JobStanding
from builder.planning.words import JobState
from builder.planning.work_pack import WorkPack
from builder.rendering.pages.wording import figure

STATES: dict[JobState, str] = {
    "planned": "Planned",
    "begun": "Begun",
    "failing": "A line failed",
    "done": "Done",
    "recalled": "Recalled",
}
_SAYS: dict[JobState, str] = {
    "planned": "Nothing is joined yet.",
    "begun": "Its plan stands as it was begun; lines of the bay sheet are still open.",
    "failing": "Its plan stands as it was begun; find the cause, mend it, and read the line again.",
    "done": "Every line that its bay sheet had has passed.",
    "recalled": "The book speaks against what is joined. Join nothing more: have the car back, "
    "take the readings below, and undo what they say.",
}


def state_says(standing: JobStanding) -> str:
    """What the state of a job means for who works on it, after its name."""
    return f"{_since(standing)}{_SAYS[standing.state]}"


def _since(standing: JobStanding) -> str:
    if not standing.begun:
        return ""
    if not standing.by:
        return (
            f"Read as begun on {standing.begun}, the day of its first result; what is joined is "
            "reconstructed. "
        )
    marked = ", reconstructed" if standing.reconstructed else ""
    return f"Begun on {standing.begun} by {standing.by}{marked}. "


def state_lines(standing: JobStanding, job: str) -> Iterator[str]:
    """What speaks against a job, what failed and what is left, one thing a line."""
    yield from map(recall_line, standing.recalls)
    for line in standing.failed:
        yield f"{line} did not pass; its causes: loombook comeback {job} --line {line}"
    if standing.left:
        yield f"to read: {', '.join(standing.left)}"
    if standing.later:
        said = ", ".join(standing.later)
        yield f"on sheets since, nobody read them here; worth a look when the car is back: {said}"


def recall_line(recall: Recall) -> str:
    """What speaks against one pin, and the reading that settles it."""
    where = f"{recall.at}: " if recall.at else ""
    return f"{where}{recall.because}" + (f". Next: {recall.reading}" if recall.reading else "")


def state_view(standing: JobStanding, job: str) -> dict[str, object]:
    """What the page of a job says of its state."""
    return {
        "job_standing": standing,
        "state": STATES[standing.state],
        "state_says": state_says(standing),
        "state_lines": list(state_lines(standing, job)),
        "as_built": as_built_tables(standing.as_built) if standing.as_built else [],
    }


def bay_standing(standing: JobStanding, pack: WorkPack) -> str:
    """Return as JSON what the bar of bay mode has to know: {begun, names, passed, failed}."""
    left = {*standing.left, *standing.failed}
    passed = [test.id for test in pack.tests if standing.begun and test.id not in left]
    said = {"begun": bool(standing.begun), "names": STATES, "passed": passed}
    return json.dumps({**said, "failed": standing.failed}, separators=(",", ":"))


def pin_row(pin: JoinedPin) -> tuple[str, ...]:
    """A joined pin: where, its wire, where it is joined, what for, how far it was proved."""
    return (pin.at, pin.wire or "not recorded", pin.place, pin.purpose, pin.grade or "")


def conductor_row(wire: LaidConductor) -> tuple[str, ...]:
    """A conductor that was added: its name, colour, size, length, and where it runs."""
    length = figure(wire.length_m, "m", "")
    return (wire.name, wire.colour, wire.size, length, f"{wire.begins} to {wire.ends}")


def as_built_tables(as_built: AsBuilt) -> list[tuple[str, tuple[str, ...], list[tuple[str, ...]]]]:
    """Return the tables of the as-built sheet that have a row: title, heads, rows."""
    joints = [(j.id, j.place, j.meets, j.how, j.way_back) for j in as_built.joints]
    looms = [(loom.record, loom.plug) for loom in as_built.looms]
    fuses = [(fuse.name, fuse.rating, fuse.place, fuse.purpose) for fuse in as_built.fuses]
    records = [(each.kind, each.id, each.sum) for each in as_built.records]
    tables: list[tuple[str, tuple[str, ...], list[tuple[str, ...]]]] = [
        ("Pins that are joined", ("pin", "wire", "joined at", "for", "proof that day"),
         list(map(pin_row, as_built.pins))),
        ("Joints", ("joint", "place", "what meets", "how", "way back"), list(joints)),
        ("Conductors", ("name", "colour", "size", "length", "from and to"),
         list(map(conductor_row, as_built.conductors))),
        ("Looms", ("loom", "at plug"), list(looms)),
        ("Fuses", ("fuse", "rating", "place", "for"), list(fuses)),
        ("Made from these records", ("kind", "id", "sum"), list(records)),
    ]  # fmt: skip
    return [table for table in tables if table[2]]
