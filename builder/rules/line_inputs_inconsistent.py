"""Line inputs that do not fit the amplifier's channels.

What it catches
---------------
A group of line inputs whose count is neither one for each of its channels, nor two, nor one that
feeds them all, nor none; a channel that two groups feed, or that the amplifier does not have; a
switch that takes a group which the record does not have; two groups of one name.

Why it matters in the bay
-------------------------
Which input feeds which channel decides where the leads go. A record that does not say it plainly
sends the sound of the left to the right.

Example
-------
Fails::

    inputs:
      - {name: inputs 1/2, count: 3, feeds: [1, 2]}

Passes::

    inputs:
      - {name: inputs 1/2, count: 2, feeds: [1, 2]}

How to mend it
--------------
Look at the amplifier, and describe each group of its inputs once.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import DataPath, Fault, Severity
from builder.model.parts import Amplifier
from builder.model.parts.amplifier_inputs import InputGroup
from builder.rules.rule import Scope, rule
from builder.rules.wording import missing


def check(amplifier: Amplifier) -> Iterator[Fault]:
    """Yield what a group of inputs says against itself, the others or the channels."""
    names: list[str] = []
    fed: set[int] = set()
    channels = sum(group.count for group in amplifier.channels)
    for at, group in enumerate(amplifier.inputs):
        path = ("inputs", at)
        if group.name in names:
            said = f'"{group.name}" is the name of two groups of inputs'
            yield Fault((*path, "name"), said, "rename one of them")
        names.append(group.name)
        if not group.fits:
            yield Fault(
                (*path, "count"),
                f"{group.count} inputs for {len(group.feeds)} channels: which feeds which?",
                "one for each channel, two for each that sums left and right, 1 for all, or 0",
            )
        yield from _channels(path, group, fed, channels)
        fed |= set(group.feeds)
        yield from _taken(path, group, amplifier)


def _channels(path: DataPath, group: InputGroup, fed: set[int], channels: int) -> Iterator[Fault]:
    for at, channel in enumerate(group.feeds):
        where = (*path, "feeds", at)
        if channel > channels:
            said = f"there is no channel {channel}: the amplifier has {channels}"
            yield Fault(where, said, "type the number of a channel that it has")
        elif channel in fed:
            said = f"channel {channel} is fed by another group already"
            yield Fault(where, said, "name each channel in one group")


def _taken(path: DataPath, group: InputGroup, amplifier: Amplifier) -> Iterator[Fault]:
    known = [each.name for each in amplifier.inputs]
    for key, names in (("copies", group.copies), ("sums", group.sums)):
        for at, name in enumerate(names):
            if name not in known:
                why = "its switch would take nothing"
                yield missing((*path, key, at), "group of inputs", name, known, why)


RULE = rule("CIR109", Severity.STOP, Scope.RECORD, check, kinds=("amplifier",))
