"""Housings: the plastic bodies of plugs, and where their cavities sit."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from builder.declaring import Form, figure, listed, record, text, word
from builder.figures import plain_name
from builder.model.forms import CAVITY, EDGE, ID, LINE, NOTE
from builder.model.recorded import OWN_ID, Recorded
from builder.model.words import Edge, View

KeyedCorner = Literal["top_left", "top_right", "bottom_left", "bottom_right"]
ContactKind = Literal["pins", "sockets"]


def _with_gaps(rows: Sequence[Sequence[int | str]]) -> tuple[tuple[str | None, ...], ...]:
    """Rows of cavity names; None is a gap."""
    return tuple(tuple(None if cell == "_" else plain_name(cell) for cell in row) for row in rows)


@record
class BladeSize:
    """Cavities of one width."""

    cavities: tuple[str, ...] = listed(
        "The cavities of this width.", [1, 5], least=1, most=199, unique=True, form=CAVITY,
        label="cavities",
    )  # fmt: skip
    blade_mm: float = figure(
        "Their terminal width in millimetres.", "mm", 2.8, least=0.3, most=15,
        label="of",
    )  # fmt: skip
    contact: str | None = text(
        "The part that is crimped on a wire for one of them.", "TP-28 example", form=LINE,
        default=None,
        label="contact", absent="",
    )  # fmt: skip


@record
class Housing(Recorded):
    """A housing: the plastic body of a plug, drawn as rows of cavities.

    Its other face is looked at with the latch at the same edge: `rows_swap` says what that does.
    Whatever turns, draws or compares faces asks it, so that a count on a drawing is a count.
    """

    id: str = text(OWN_ID, "eight-cavity-shell", "template-eight", form=ID)
    name: str = text(
        "What a person calls the housing.", "8-cavity example housing", form=LINE,
        ask="Name printed on it",
    )  # fmt: skip
    seen_from: View = word(
        "The face that the rows below show.", "wire_side",
        means={"wire_side": "The wires as they enter, towards you.",
        "mating_side": "The open face, towards you."},
        label="Rows were typed from", ask="The face you look at: wire_side or mating_side",
    )  # fmt: skip
    latch: Edge = word(
        "Where the latch is, as you hold the plug to type the rows.", "top", form=EDGE,
        label="Latch", ask="The latch as you hold it: top, bottom, left or right",
    )  # fmt: skip
    rows: tuple[tuple[str | None, ...], ...] = listed(
        "The cavities as you see them: one list a row, from left to right; _ leaves a gap.",
        [[1, 2, 3, 4], [5, 6, "_", 8]], least=1, most=12, read=_with_gaps,
        item=listed("One row of cavities, from left to right.", least=1, most=60, form=Form("",
        "A cavity, or _ for a gap.", {"type": ["integer", "string"], "minimum": 1, "maximum": 199,
        "pattern": "^(?:_|[A-Z][0-9]{0,2})$", "maxLength": 3,
        "not": {"type": "string", "pattern": "[\\n\\r\\t]"},
        "formMeaning": "a number from 1 to 199, a capital letter with up to two digits, or _ "
        "for a gap"})),
        ask="Rows as you see them: 1-10 / 11-20, _ for a gap",
    )  # fmt: skip
    row_shift: tuple[float, ...] = listed(
        "How far each row is moved to the right, in cavity widths; one number a row.", [0, 0.5],
        least=1, most=12, item=figure("How far one row is moved to the right, in cavity widths.",
        "cavity widths", least=0, most=60), default=(),
        label="Rows moved to the right", absent="none",
    )  # fmt: skip
    sizes: tuple[BladeSize, ...] = listed(
        "The cavities that have another terminal width than blade_mm.",
        [{"cavities": [1, 5], "blade_mm": 2.8}], most=20, default=(),
        label="Other blades", absent="none",
    )  # fmt: skip
    blade_mm: float = figure(
        "The terminal width of all other cavities, in millimetres.", "mm", 1.5, least=0.3, most=15,
        label="Usual blade", ask="Terminal width in mm", option="blade",
    )  # fmt: skip
    contacts: ContactKind | None = word(
        "What sits in its cavities.", "sockets",
        means={"pins": "Pins or blades, which go into the other plug's contacts.",
        "sockets": "Contacts that the other plug's pins or blades go into."},
        default=None,
        label="Contacts", absent="not recorded",
    )  # fmt: skip
    contact: str | None = text(
        "The part that is crimped on a wire for one of the other cavities.", "TP-15 example",
        form=LINE, default=None,
        label="Usual contact", absent="not recorded",
    )  # fmt: skip
    blocked: tuple[str, ...] = listed(
        "The cavities that are moulded shut; [] when there are none.", [], [3], most=199,
        unique=True, form=CAVITY,
        label="Moulded shut", absent="none", ask="Cavities moulded shut, with commas",
        answer="none",
    )  # fmt: skip
    keyed_corner: KeyedCorner | None = word(
        "The corner of the housing that is cut or ribbed so that it goes in one way only, in the "
        "view of the rows.", "bottom_right",
        means={"top_left": "Top left.", "top_right": "Top right.", "bottom_left": "Bottom left.",
        "bottom_right": "Bottom right."},
        default=None,
        label="Keyed corner", absent="none recorded",
    )  # fmt: skip
    mates_with: tuple[str, ...] = listed(
        "The ids of the housings that this one plugs into; [unknown] when nobody tried, or unknown "
        "beside those that are known.", ["eight-cavity-header"], most=20,
        unique=True, form=ID, default=(),
        label="Mates with", absent="none recorded",
    )  # fmt: skip
    note: str | None = text(
        "Anything a person should know about the housing.", "the latch breaks easily in the cold",
        form=NOTE, default=None,
        label="Note", absent="none",
    )  # fmt: skip

    @property
    def cavities(self) -> tuple[str, ...]:
        """Every cavity name in reading order."""
        return tuple(name for row in self.rows for name in row if name is not None)

    @property
    def blades_mm(self) -> dict[str, float]:
        """The terminal width [mm] of each cavity that has not the usual one."""
        return {name: size.blade_mm for size in self.sizes for name in size.cavities}

    def contact_of(self, cavity: str) -> str | None:
        """The part that is crimped on the wire of a cavity; None when nobody recorded it."""
        for size in self.sizes:
            if cavity in size.cavities:
                return size.contact
        return self.contact

    @property
    def rows_swap(self) -> bool:
        """Whether the other face, held with the latch at the same edge, shows the rows swapped.

        With the latch at the left or right the plug is turned over top for bottom, and left and
        right stay; with the latch at the top or bottom it is turned over left for right.
        """
        return self.latch in ("left", "right")
