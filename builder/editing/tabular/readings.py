"""Readings and claims out of a row: a column a state, or one further row a reading."""

from __future__ import annotations

from typing import Any

from builder.editing.tabular.columns import Group
from builder.editing.tabular.draft import Draft
from builder.editing.tabular.faults import Place
from builder.editing.tabular.headings import PARTNER, Wide
from builder.editing.tabular.pin_rows import PinRow
from builder.findings import DataPath
from builder.model.words import PAIRED, Quantity

_VOLTS: frozenset[Quantity] = frozenset({"dc_v", "ac_v"})
_COUNTED = frozenset({"wire_side", "mating_side"})


def is_mirrored(plug: Any, of: Any) -> bool:
    """Whether a visit or claim is known to be counted on the other face than its plug's data.

    Its row then stands at the cavity as counted, and what the row says of a wire is another wire's.
    """
    faces = {(part or {}).get("read_from") for part in (plug, of)}
    return faces == _COUNTED


def add_readings(row: PinRow, pin: DataPath, session: str | None, draft: Draft) -> None:
    """Add what the columns of states say, then the reading that the row spells out."""
    for wide, value, place in row.wide:
        if wide.beside == "value":
            mirrored = is_mirrored(draft.get(pin[:2]), _visit(session, draft))
            data = _wide_reading(row, wide, value, place, draft, mirrored)
            if data is not None:
                _add(row, data, pin, session, place, draft)
    _say_stray(row, draft)
    spelt = row.nested("reading")
    if spelt:
        place = row.places["reading", next(iter(row.of("reading")))]
        _add(row, spelt, pin, session, place, draft)


def _wide_reading(
    row: PinRow, wide: Wide, value: Any, place: Place, draft: Draft, mirrored: bool
) -> dict[str, Any] | None:
    data: dict[str, Any] = {"state": wide.state, "quantity": wide.quantity, "value": value}
    if wide.load:
        data["load"] = wide.load
    if wide.against:
        against = _against(row, wide.against, place, draft, mirrored)
        if against is None:
            return None
        data["against"] = against
    for other, beside, _ in row.wide:
        if other.beside != "value" and (other.state, other.load) == (wide.state, wide.load):
            if other.beside == "battery_v" and wide.quantity not in _VOLTS:
                continue
            data[other.beside] = beside
    return data


def _against(
    row: PinRow, against: str, place: Place, draft: Draft, mirrored: bool
) -> int | str | None:
    """What a column's readings are against; None where that is another wire, which is told."""
    if against != PARTNER:
        return int(against) if against.isdigit() else against
    partner = draft.partners.get((row.plug, str(row.cavity)))
    name = f"{row.plug} {row.cavity}"
    if mirrored:
        draft.say(
            *(place, "TAB108", f"{name} was counted on the other face of the plug"),
            "the other leg of this row is another wire's: use the columns reading …, and type the "
            "number that was counted under reading against",
        )
    elif partner is None:
        draft.say(
            *(place, "TAB108", f"{name} has no other leg in this plug"),
            "fill function, channel and polarity of both wires, or use the columns reading …",
        )
    return None if mirrored else partner


def _visit(session: str | None, draft: Draft) -> Any:
    visits = draft.data["sessions"]
    if session is None and len(visits) == 1:
        return visits[0]
    return next((visit for visit in visits if visit.get("id") == session), None)


def partners_of(rows: list[PinRow]) -> dict[tuple[str, str], Any]:
    """Of each leg of a speaker or line pair, the cavity of the other leg in the same plug."""
    legs: dict[tuple[str, Any, Any], dict[str, Any]] = {}
    for row in rows:
        pin = row.of("pin")
        if pin.get(("function",)) in PAIRED:
            pair = (row.plug, pin["function",], pin.get(("channel",)))
            legs.setdefault(pair, {})[str(pin.get(("leg",)))] = row.cavity
    return {
        (plug, str(cavity)): other
        for (plug, _, _), pair in legs.items()
        if len(pair) == 2
        for cavity, other in (tuple(pair.values()), tuple(pair.values())[::-1])
    }


def _say_stray(row: PinRow, draft: Draft) -> None:
    """Minutes or a battery voltage beside a reading that is not there."""
    if any(fault.code == "TAB103" for fault in draft.faults):
        return  # the reading may stand under the heading that is not understood
    taken = {(wide.state, wide.load) for wide, _, _ in row.wide if wide.beside == "value"}
    for wide, _, place in row.wide:
        if wide.beside != "value" and (wide.state, wide.load) not in taken:
            draft.say(
                *(place, "TAB111", f"{wide.heading} is filled, but not the reading it belongs to"),
                "fill the reading beside it, or clear this cell",
            )


def _add(
    row: PinRow,
    data: dict[str, Any],
    pin: DataPath,
    session: str | None,
    place: Place,
    draft: Draft,
) -> None:
    battery = row.of("row").get(("battery_v",))
    if data.get("quantity") in _VOLTS and battery is not None:
        data.setdefault("battery_v", battery)
    visit = _visit(session, draft)
    if session is None and visit is not None:
        session = str(visit["id"])
    if session is None:
        columns = "the column visit" if draft.data["sessions"][1:] else "who, date and car tag"
        said = "nobody is said to have taken this reading"
        draft.say(place, "TAB111", said, f"fill {columns} of this row")
        return
    path = draft.append((*pin, "readings"), {"session": session, **data}, place)
    _remember(row, "reading", path, draft)


def _remember(row: PinRow, group: Group, path: DataPath, draft: Draft) -> None:
    """Note which cells of a row what stands at a path came from."""
    for (of_group, key), place in row.places.items():
        if of_group == group:
            draft.places[(*path, *key)] = place


def add_old_note(row: PinRow, pin: DataPath, draft: Draft) -> None:
    """Add the old note of the row, as it was written down."""
    note = row.nested("old note")
    if note:
        _remember(row, "old note", draft.append((*pin, "old_notes"), note, row.place), draft)


def add_claim(row: PinRow, pin: DataPath, draft: Draft) -> None:
    """Add the claim of the row; what it says is, left out, the function of the pin.

    Not so when it was counted on the other face: the pin of the row is then another wire.
    """
    claim = row.nested("claim")
    if not claim:
        return
    about = draft.get(pin)
    if is_mirrored(draft.get(pin[:2]), claim):
        about = {}
        if "says" not in claim:
            draft.say(
                *(row.places["claim", ("read_from",)], "TAB111"),
                "this claim, counted on the other face of the plug, does not say its function",
                "fill claim says: the function of this row is another wire's",
            )
            return
    claim.setdefault("says", about.get("function"))
    if claim["says"] in PAIRED and claim["says"] == about.get("function"):
        for word in ("channel", "leg"):
            if word in about:
                claim.setdefault(word, about[word])
    _remember(row, "claim", draft.append((*pin, "claims"), claim, row.place), draft)
