"""One line about a pin in an interview: what is wrong with it there, and what was understood."""

from __future__ import annotations

from collections.abc import Container, Iterable, Mapping, Sequence
from typing import Any, NamedTuple

from builder.editing.drafts.pin_text import Meant, PinSaid, pin_of, read_pin, trims_meet
from builder.editing.drafts.question import AnswerError, IncompleteError
from builder.editing.drafts.vehicle_lines import plug_line
from builder.model.housing import Housing
from builder.model.names import FUNCTION_NAMES, LEG_SIGNS, channel_name
from builder.model.said.pin_words import Phrase
from builder.model.words import Face
from builder.schema_check.yaml_words import listed


class PlugSaid(NamedTuple):
    """A plug as the interview knows it; no housing where the book has none of that id.

    `face` is the one that its cavities are counted on, None before that is said; `stands` says
    whether pins of it were taken already. `counted` is how many cavities somebody counted, None
    where nobody was asked.
    """

    id: str
    housing: Housing | None
    face: Face | None = None
    stands: bool = False
    counted: int | None = None


def plugs_said(
    lines: Iterable[str],
    housings: Mapping[str, Housing],
    pins: Iterable[str],
    counted: Mapping[str, int],
) -> list[PlugSaid]:
    """Return the plugs that lines describe; `pins` are the lines of pins that were taken,
    `counted` the number of cavities by the letter of the plug.
    """
    begun = {line.split(maxsplit=1)[0] for line in pins}
    said = [_plug_said(line, housings, begun) for line in lines if len(line.split()) > 1]
    return [plug._replace(counted=counted.get(plug.id)) for plug in said]


def _plug_said(line: str, housings: Mapping[str, Housing], begun: Container[str]) -> PlugSaid:
    letter, housing = line.split()[:2]
    try:
        face: Face | None = plug_line(line)["read_from"]
    except AnswerError:  # the line itself is refused where it is read
        face = None
    return PlugSaid(letter.upper(), housings.get(housing), face, letter.upper() in begun)


class TakenError(AnswerError):
    """A line about a cavity that an earlier line is about; `line` is the earlier."""

    def __init__(self, place: str, line: str) -> None:
        super().__init__(f'{place} stands already: "{line}"')
        self.line = line


def read_line(text: str, plugs: Sequence[PlugSaid], meant: Meant) -> PinSaid:
    """Return what a line says of a pin of these plugs.

    Raises:
        AnswerError: it names no cavity of these plugs, or says nothing of it.
    """
    try:
        found = read_pin(text, [plug.id for plug in plugs], meant)
    except IncompleteError as error:
        raise AnswerError(
            f'"{text.strip()}" is not complete: type plug, cavity, then what the wire does'
        ) from error
    _in_housing(found, plugs)
    return found


def _in_housing(found: PinSaid, plugs: Sequence[PlugSaid]) -> None:
    plug = next((each for each in plugs if each.id == found.plug), None)
    if plug is None:
        names = listed([each.id for each in plugs], "and")
        raise AnswerError(f"no plug {found.plug} is described; there is {names}")
    if plug.housing is None:
        _among_counted(found, plug)
        return
    name, cavities = str(found.cavity), plug.housing.cavities
    if name not in cavities:
        raise AnswerError(
            f"plug {plug.id} has no cavity {name}: {plug.housing.id} has "
            f"{cavities[0]} to {cavities[-1]}"
        )
    if name in plug.housing.blocked:
        raise AnswerError(f"{plug.id}.{name} is moulded shut in {plug.housing.id}")


def _among_counted(found: PinSaid, plug: PlugSaid) -> None:
    """Of a housing that nobody drew, the number of its cavities is all that is known."""
    name, counted = str(found.cavity), plug.counted
    if counted is not None and name.isdecimal() and int(name) > counted:
        raise AnswerError(
            f"plug {plug.id} has no cavity {name}: you counted {counted}. Where its numbers go "
            "further, describe its housing first: loombook new housing"
        )


def taken_place(found: PinSaid, earlier: Sequence[str]) -> None:
    """Refuse a line about a place that an earlier one is about, in one car at least.

    `earlier` are lines as they were kept. Lines that hold for different trims stand side by side.

    Raises:
        TakenError: there is one.
        AnswerError: there are several, each for trims of its own.
    """
    place = place_name(found)
    there = [line for line in earlier if _of_one_car(found, read_pin(line, (), {}))]
    if there[1:]:
        raise AnswerError(f"{place} stands already, once for each trim: take those back first")
    if there:
        raise TakenError(place, there[0])


def _of_one_car(found: PinSaid, other: PinSaid) -> bool:
    """Whether two lines are about one cavity of one car."""
    same = place_name(found) == place_name(other)
    return same and trims_meet(found.trims, other.trims)


def place_name(found: PinSaid) -> str:
    """The place of a pin in short: A.4."""
    return f"{found.plug}.{found.cavity}"


def plain_line(found: PinSaid) -> str:
    """The line in the words of the records, as an option or an answers file takes it."""
    pin = pin_of(found)
    what = "empty" if pin is None else _plain_pin(pin)
    return f"{found.plug} {found.cavity} {what}"


def _plain_pin(pin: Mapping[str, Any]) -> str:
    words = [str(pin["function"])] if pin["function"] != "speaker" else []
    if "channel" in pin:
        words.append(f"{pin['channel']} {'+' if pin['leg'] == 'positive' else '-'}")
    wire = pin.get("wire", {})
    if wire:
        words.append("/".join(wire[key] for key in ("base", "stripe") if key in wire))
    words += [f"{wire['size_mm2']} mm2"] if "size_mm2" in wire else []
    words += [f"{wire['size_awg']} awg"] if "size_awg" in wire else []
    words += [f"only {', '.join(_trims(pin))}"] if _trims(pin) else []
    return " ".join(words)


def _trims(pin: Mapping[str, Any]) -> list[str]:
    trims: list[str] = pin.get("only_if", {}).get("trims", [])
    return trims


def told(found: PinSaid) -> str:
    """What was understood of a line, for a person: `A.4: accessory supply, yellow with red`."""
    pin = pin_of(found)
    return f"{place_name(found)}: {'empty, no terminal' if pin is None else _told_pin(pin)}"


def _told_pin(pin: Mapping[str, Any]) -> str:
    what = FUNCTION_NAMES[pin["function"]]
    if "channel" in pin:
        what = f"{what} {channel_name(pin['channel'])} {LEG_SIGNS[pin['leg']]}"
    wire = pin.get("wire", {})
    colour = " with ".join(wire[key] for key in ("base", "stripe") if key in wire)
    size = f"{wire['size_mm2']} mm²" if "size_mm2" in wire else ""
    size = f"{wire['size_awg']} AWG" if "size_awg" in wire else size
    only = f"only in {listed(_trims(pin), 'and')}" if _trims(pin) else ""
    return ", ".join(part for part in (what, colour, size, only) if part)


def short_words(found: PinSaid, known: Meant) -> list[Phrase]:
    """Colours that were written short and not yet confirmed: `blk`, `yel`."""
    return [
        each
        for each in found.words.of("colour")
        if each.meant.sure and each.written not in (*each.meant.means, *known)
        and each not in found.guessed
    ]  # fmt: skip
