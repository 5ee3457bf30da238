"""Old notes of a pin as a page shows them: what they say, what they leave out, what they weigh."""

from __future__ import annotations

from builder.model.names import LOAD_NAMES, QUANTITY_NAMES, STATE_NAMES
from builder.model.old_note import OldNote
from builder.proof.wording import figure
from builder.rendering.pages.wording import plain


def old_note_words(note: OldNote) -> str:
    """Return an old note as one sentence, with what nobody wrote down.

    >>> old_note_words(OldNote(by="alder-pit-audio", quantity="dc_v", value=11.8))
    'alder-pit-audio: 11.80 V (DC volts); day, state, load and battery not written down'
    """
    when = f", {note.date}" if note.date else ""
    where = f" ({note.source})" if note.source else ""
    kind = f" ({QUANTITY_NAMES[note.quantity][0]})"
    said = [figure(note.value, note.quantity) + kind, *_said(note)]
    lacks = _lacking(note)
    left_out = f"; {_listed(lacks)} not written down" if lacks else ""
    return f"{note.by}{when}{where}: {', '.join(said)}{left_out}"


def _said(note: OldNote) -> list[str]:
    words = [STATE_NAMES[note.state]] if note.state else []
    words += [f"after {note.minutes:g} min"] if note.minutes is not None else []
    words += [LOAD_NAMES[note.load]] if note.load else []
    words += [f"against {plain(note.against)}"] if note.against else []
    words += [f"battery {note.battery_v:.10g} V"] if note.battery_v is not None else []
    return words


def _lacking(note: OldNote) -> list[str]:
    volts = note.quantity in ("dc_v", "ac_v")
    facts = {
        "day": note.date,
        "state": note.state,
        "time in the state": note.minutes if note.state == "asleep" else "",
        "load": note.load if volts else "",
        "battery": note.battery_v if volts else "",
    }
    return [word for word, said in facts.items() if said is None]


def _listed(words: list[str]) -> str:
    *first, last = words
    return f"{', '.join(first)} and {last}" if first else last
