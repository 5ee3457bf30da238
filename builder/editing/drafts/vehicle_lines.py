"""Lines of a new vehicle: a plug, a sound, a panel, a bulkhead, where the list of pins is from."""

from __future__ import annotations

import re
from typing import Any

from builder.editing.drafts.compact import channels_of
from builder.editing.drafts.question import NOTHING, AnswerError, IncompleteError, read_text
from builder.model.words import UNKNOWN


def plug_line(text: str) -> dict[str, Any]:
    """`ID HOUSING COLOUR[+COLOUR] READ_FROM [LOCATION]`."""
    words = text.split(maxsplit=4)
    if len(words) < 4:
        raise IncompleteError(text)
    place = ("plugs", 0)
    plug_id = read_text("vehicle", (*place, "id"), words[0].upper())
    colours = ",".join(words[2].split("+")).replace("_", " ")
    return {
        "id": plug_id,
        "name": f"plug {plug_id}",
        "unit": "radio",
        "location": words[4] if len(words) > 4 else "behind the radio",
        "housing": read_text("vehicle", (*place, "housing"), words[1]),
        "shell_colours": read_text("vehicle", (*place, "shell_colours"), colours),
        "read_from": read_text("vehicle", (*place, "read_from"), words[3]),
    }


def sound_line(text: str) -> dict[str, Any] | str:
    """`SOUND: CHANNEL CHANNEL ...`, or unknown where nobody has listened for all of them."""
    if text.strip().lower() == UNKNOWN:
        return UNKNOWN
    sound, _, channels = text.partition(":")
    if not channels.strip():
        raise AnswerError(f'which channels play it? type "{sound}: front-left front-right"')
    return {"sound": sound.strip(), "channels": channels_of(channels), "plays_key_off": "unknown"}


def claim_line(text: str) -> dict[str, Any]:
    """Who says so, when, and from what, as `METHOD WHO DAY`; empty for none."""
    words = text.split()
    if text.strip().lower() in NOTHING:
        return {}
    if len(words) != 3:
        raise IncompleteError(text)
    place = ("plugs", 0, "pins", 0, "claims", 0)
    keys = (("by", words[1]), ("date", words[2]), ("method", words[0]))
    return {key: read_text("vehicle", (*place, key), word) for key, word in keys}


def access_line(text: str) -> dict[str, Any]:
    """`NAME: KIND, uncovers PLACE, PLACE ..., after PART, PART ...`."""
    name, colon, rest = text.partition(":")
    kind, _, places = rest.partition(" uncovers ")
    uncovers, _, before = places.partition(" after ")
    if not colon or not uncovers.strip():
        raise IncompleteError(text)
    place = ("access", 0)
    made = {
        "name": read_text("vehicle", (*place, "name"), name),
        "kind": read_text("vehicle", (*place, "kind"), kind.strip(" ,")),
        "uncovers": _listed(uncovers),
    }
    return made | ({"behind": _listed(before)} if before.strip() else {})


def passage_line(text: str) -> dict[str, Any]:
    """`NAME: GROMMET, WHERE, PLACE > PLACE`."""
    name, _, rest = text.partition(":")
    grommet, _, more = rest.partition(",")
    where, _, ends = more.rpartition(",")
    start, arrow, end = ends.partition(">")
    if not arrow or not where.strip():
        raise IncompleteError(text)
    place = ("passages", 0)
    return {
        "name": read_text("vehicle", (*place, "name"), name),
        "where": read_text("vehicle", (*place, "where"), where),
        "between": [start.strip(), end.strip()],
        "grommet": read_text("vehicle", (*place, "grommet"), grommet),
    }


def _listed(text: str) -> list[str]:
    return [one for each in text.split(",") if (one := each.strip())]


_SHOWN = "; shown under "
_OF_PLUG = re.compile(r"plug ([A-Z][A-Z0-9]{0,3})\b")


def shown_under(given: str) -> str:
    """Return what a line about a photo ends with that pages may show; `given` is `LICENCE HANDLE`.

    The handle of who took it may be left out: then the check asks for it.
    """
    licence, _, handle = given.strip().partition(" ")
    return f"{_SHOWN}{licence}" + (f" by {handle.strip()}" if handle.strip() else "")


def photo_line(text: str) -> dict[str, Any]:
    """`FILE WHAT IT SHOWS[; shown under LICENCE[ by HANDLE]]`."""
    file, _, rest = text.strip().partition(" ")
    shows, _, given = rest.partition(_SHOWN)
    if not shows.strip():
        raise IncompleteError(text)
    place = ("photos", 0)
    photo = {
        "file": read_text("vehicle", (*place, "file"), file),
        "shows": read_text("vehicle", (*place, "shows"), shows),
    }
    return photo | (_given(shows, given) if given else {})


def _given(shows: str, given: str) -> dict[str, Any]:
    """What a page needs of a photo; what it shows often begins with the plug."""
    licence, _, handle = given.partition(" by ")
    plug = _OF_PLUG.match(shows.strip())
    said = {"plug": plug and plug[1], "by": handle.strip(), "licence": licence.strip()}
    read = {key: read_text("vehicle", ("photos", 0, key), v) for key, v in said.items() if v}
    return read | {"consent": "yes"}
