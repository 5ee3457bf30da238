"""An old note that a later reading does not bear out.

What it catches
---------------
An old note of a pin beside a reading of the same quantity in the same state, or in any state where
the note tells none, when the two are further apart than readings of one wire are: a volt, a fifth
of the larger for any other quantity, or open against a figure.

Why it matters in the bay
-------------------------
The reading counts and the note proves nothing, so no grade changes. But whoever wrote the note read
it somewhere: at another plug, on another car, or in another state.

Example
-------
Fails::

    - cavity: 4
      old_notes: [{by: alder-pit-audio, state: accessory, quantity: dc_v, value: 11.8}]
      readings:
        - {session: s1, state: accessory, quantity: dc_v, value: 0.02, battery_v: 12.4}

Passes::

    - cavity: 4
      old_notes: [{by: alder-pit-audio, state: accessory, quantity: dc_v, value: 11.8}]
      readings:
        - {session: s1, state: accessory, quantity: dc_v, value: 12.2, battery_v: 12.4}

How to mend it
--------------
Look whether the note is about another cavity, trim or car, and put it there. When nobody can tell,
leave it: it is a note, and it weighs nothing.

Source
------
Common practice, no source; how far apart is chosen by this project.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.old_note import OldNote
from builder.model.plugs import Reading
from builder.model.vehicle import Vehicle
from builder.proof.wording import figure
from builder.rules.rule import Scope, rule
from builder.rules.wiring import Site, wiring_of
from builder.rules.wording import called

_APART_V = 1.0
_APART_SHARE = 0.2
_ROUNDING = 1e-9
"""How far a note and a reading may lie apart: volts, and the share of the larger for the rest."""


def check(vehicle: Vehicle) -> Iterator[Fault]:
    """Yield each old note that no reading of its kind bears out."""
    wiring = wiring_of(vehicle)
    for site in wiring.sites:
        for note in site.pin.old_notes:
            alike = [each for each in site.pin.readings if _alike(note, each)]
            if alike and not any(_agree(note, each) for each in alike):
                yield _fault(site, note, alike[-1])


def _fault(site: Site, note: OldNote, reading: Reading) -> Fault:
    said, read = (figure(one.value, note.quantity) for one in (note, reading))
    return Fault(
        note.path,
        f"{called(site)}: the old note of {note.by} says {said}, and visit {reading.session} read "
        f"{read} in {reading.state}: the reading counts, the note proves nothing",
        "look whether the note is about another cavity, trim or car; else leave it as it is",
    )


def _alike(note: OldNote, reading: Reading) -> bool:
    """Whether both are of one quantity, in one state as far as the note tells, to one point."""
    if note.quantity != reading.quantity or note.state not in (None, reading.state):
        return False
    return not note.against or note.against == reading.against


def _agree(note: OldNote, reading: Reading) -> bool:
    if note.value is None or reading.value is None:
        return note.value is reading.value
    apart = abs(note.value - reading.value)
    share = _APART_SHARE * max(abs(note.value), abs(reading.value))
    most = _APART_V if note.quantity in ("dc_v", "ac_v") else share
    return apart <= most * (1 + _ROUNDING)


RULE = rule("MET127", Severity.NOTE, Scope.RECORD, check)
