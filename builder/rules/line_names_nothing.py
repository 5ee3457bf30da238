"""A switch or a line lead that names what is not there.

What it catches
---------------
A switch of a job whose group of inputs the amplifier does not have, or that is to do what its
record does not say it can; a line lead from an output that the converter does not have, to an
amplifier that the job does not have, to an input that the amplifier does not have, or to one that
another lead is in already.

Why it matters in the bay
-------------------------
The lead is bought and has no place to go, or the switch is looked for on the wrong side of the
amplifier, and its channels stay silent.

Example
-------
Fails::

    amplifiers:
      - name: amp
        part: five-channels
        place: boot
        switches: [{group: inputs 3/4, does: sums, of: [inputs 1/2]}]   # that one copies only

Passes::

    amplifiers:
      - name: amp
        part: five-channels
        place: boot
        switches: [{group: inputs 3/4, does: copies, of: [inputs 1/2]}]

How to mend it
--------------
Type the name as the amplifier's record has it, or describe its inputs there.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import DataPath, Fault, Severity
from builder.model.book import Shelf
from builder.model.job import Job, JobAmplifier
from builder.model.job.lines import JobSwitch, LineEnd
from builder.model.parts import Amplifier
from builder.model.vehicle import Vehicle
from builder.rules.rule import Scope, rule
from builder.rules.wording import missing


def check(job: Job, shelf: Shelf, vehicle: Vehicle | None) -> Iterator[Fault]:
    """Yield each name of the line side that leads nowhere."""
    del vehicle
    for fitted in job.amplifiers:
        part = shelf.amplifiers.get(fitted.part)
        for at, switch in enumerate(fitted.switches):
            if part is not None:
                yield from _switch((*fitted.path, "switches", at), switch, fitted, part)
    yield from _outputs(job, shelf)
    yield from _ends(job, shelf)


def _switch(
    path: DataPath, switch: JobSwitch, fitted: JobAmplifier, part: Amplifier
) -> Iterator[Fault]:
    group = part.group(switch.group)
    if group is None:
        known = [each.name for each in part.inputs]
        why = f"{fitted.name} has no such switch"
        yield missing((*path, "group"), "group of inputs", switch.group, known, why)
        return
    able = {"own": (), "copies": group.copies, "sums": group.sums}[switch.does]
    for at, name in enumerate(switch.of):
        if name not in able:
            can = f"{', '.join(able)}" if able else "nothing"
            verb = "copy" if switch.does == "copies" else "sum"
            yield Fault(
                (*path, "of", at),
                f"the switch beside {group.name} of {fitted.name} can {verb} {can}, not {name}",
                "set it to what it can do, or describe the amplifier's inputs in its record",
            )


def _outputs(job: Job, shelf: Shelf) -> Iterator[Fault]:
    converter = shelf.converters.get(job.converter)
    for lead in job.line_leads:
        if converter is not None and lead.output > converter.outputs:
            yield Fault(
                (*lead.path, "output"),
                f"{converter.name} has {converter.outputs} line outputs, this lead begins at "
                f"output {lead.output}",
                "type the number of an output that it has",
            )


def _ends(job: Job, shelf: Shelf) -> Iterator[Fault]:
    names = [each.name for each in job.amplifiers]
    taken: set[tuple[str, int, str]] = set()
    for lead in job.line_leads:
        for at, end in enumerate(lead.to):
            path = (*lead.path, "to", at)
            fitted = job.amplifier(end.amplifier)
            part = shelf.amplifiers.get(fitted.part) if fitted else None
            if fitted is None:
                why = "the lead ends in the air"
                yield missing((*path, "amplifier"), "amplifier", end.amplifier, names, why)
            elif part is not None and not _has(part, end):
                yield Fault(
                    (*path, "input"),
                    f"{end.amplifier} has no input {end.socket.words.removeprefix('in ')}",
                    "type an input that its record has; side is left or right where two are summed",
                )
            key = (end.amplifier, end.input, end.side)
            if key in taken:
                said = f"{end.amplifier} {end.socket.words} has a lead in it already"
                yield Fault((*path, "input"), said, "an input takes one plug: leave one lead out")
            taken.add(key)


def _has(part: Amplifier, end: LineEnd) -> bool:
    """Whether an amplifier has an input; one whose inputs nobody recorded has one a channel."""
    if part.inputs:
        return any(end.socket in group.sockets for group in part.inputs)
    return end.input <= sum(group.count for group in part.channels)


RULE = rule("CIR107", Severity.STOP, Scope.NAMES, check)
