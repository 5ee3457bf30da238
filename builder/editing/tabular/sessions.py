"""Visits out of rows: who, when, on which car, with what."""

from __future__ import annotations

from collections.abc import Sequence

from builder.editing.tabular.columns import held_at
from builder.editing.tabular.draft import Draft
from builder.editing.tabular.faults import Place
from builder.editing.tabular.pin_rows import PinRow

_SAID = {("method",): "meter", ("against",): "battery_negative"}
"""What a visit is taken to be when the table does not say."""


def sessions_of(rows: Sequence[PinRow], draft: Draft) -> dict[int, str]:
    """Add the visits of the rows to the draft; the session id of each row, by its number."""
    draft.data.setdefault("sessions", [])
    ids: dict[int, str] = {}
    for number, row in enumerate(rows):
        if row.of("visit"):
            found = _named(row, draft) or _matching(row, draft) or _added(row, draft)
            ids[number] = found
    _fill_in(draft)
    return ids


def _named(row: PinRow, draft: Draft) -> str | None:
    """The session that the row names by its id; what it says besides must agree."""
    named = row.of("visit").get(("id",))
    if named is None:
        return None
    known = [str(session.get("id")) for session in draft.data["sessions"]]
    if named not in known and len(row.of("visit")) == 1:
        draft.say(
            *(row.places["visit", ("id",)], "TAB108", f'no visit "{named}" is described'),
            f"known are {', '.join(known)}" if known else "fill the columns who, date and car tag",
        )
        return str(named)
    return str(named) if named in known else None


def _matching(row: PinRow, draft: Draft) -> str | None:
    """The one session that says all that the row says."""
    said = row.of("visit")
    same = [
        str(session["id"])
        for session in draft.data["sessions"]
        if all(held_at(session, key) == value for key, value in said.items())
    ]
    return same[0] if len(same) == 1 else None


def _added(row: PinRow, draft: Draft) -> str:
    taken = {session.get("id") for session in draft.data["sessions"]}
    free = next(f"s{n}" for n in range(1, len(taken) + 2) if f"s{n}" not in taken)
    session = row.nested("visit")
    session["id"] = session.get("id", free)
    path = draft.append(("sessions",), session, row.place)
    for (group, key), place in row.places.items():
        if group == "visit":
            draft.places[(*path, *key)] = place
    return str(session["id"])


def _fill_in(draft: Draft) -> None:
    faces = {plug.get("read_from") for plug in draft.data.get("plugs", ())}
    face = faces.pop() if len(faces) == 1 else None
    for index, session in enumerate(draft.data["sessions"]):
        place = draft.places.get(("sessions", index)) or Place("", 1, 1)
        said = {**_SAID, **({("read_from",): face} if face else {})}
        for key, word in said.items():
            if key[0] not in session:
                session[key[0]] = word
                draft.say(
                    *(place, "TAB112"),
                    f"visit {session['id']}: {key[0]} is not said; {word} is written",
                )
