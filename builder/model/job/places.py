"""What is screwed to the car, every hole made for it, every cable through a bulkhead."""

from __future__ import annotations

from typing import Final, Literal

from builder.declaring import figure, listed, record, text, word
from builder.findings import DataPath
from builder.model.forms import ID, LINE, TRI
from builder.model.job.routes import CARRIES
from builder.model.words import Carries, Tri

BOARD: Final = "board"
"""What `mounts` call a board of the shop's own: it goes in before what it holds, and comes out."""
FixedBy = Literal["screws", "bolts", "strap", "rail", "glue"]
Seal = Literal["grommet", "sealant", "unknown"]


@record
class Mount:
    """Where one device is fixed, and how."""

    device: str = text(
        "What is fixed: converter, the name of an amplifier, a speaker or a load of this job, of a "
        "data interface, distribution block, second battery, or board: what the shop brings to "
        "fix others to.", "amp 1",
        form=LINE,
        label="",
    )  # fmt: skip
    fixed_to: str = text(
        "What it is fixed to.", "a board under the left luggage trim", form=LINE, label="on",
    )  # fmt: skip
    by: FixedBy = word(
        "What holds it.", "screws",
        means={"screws": "Screws, each of which makes a hole.",
        "bolts": "Bolts through holes that were there or are listed.",
        "strap": "A strap, no hole.", "rail": "A rail or bracket of the car's own, no hole.",
        "glue": "Glue or tape, no hole."},
        label="by",
    )  # fmt: skip
    path: DataPath = ()


@record
class Hole:
    """A hole that is drilled, screwed or cut into the car."""

    where: str = text("Where it is made.", "floor of the left luggage side", form=LINE, label="")
    purpose: str = text("What it is for.", "screws of amp 1", form=LINE, label="for")
    size_mm: float = figure(
        "How wide it is, in millimetres.", "mm", 4, above=0, most=200, label="",
    )  # fmt: skip
    behind: str | None = text(
        "What is behind it, seen or felt, or unknown.", "free air, 60 mm to the wheel arch",
        form=LINE, unknown=True,
        label="behind it",
    )  # fmt: skip
    looked_by: str | None = text(
        "Who looked behind it: your shop or handle; leave it out until somebody has.",
        "alder-pit-audio", form=ID, default=None,
        label="looked at by", absent="nobody yet",
    )  # fmt: skip
    path: DataPath = ()

    @property
    def known(self) -> bool:
        """Whether somebody has looked, and knows what is behind."""
        return self.behind is not None and self.looked_by is not None


@record
class CablePass:
    """What is taken through a bulkhead, and how the place is closed again."""

    through: str = text(
        "What it goes through: the name of a passage of the vehicle record, or where a hole of "
        "this job is made.", "main grommet", form=LINE,
        label="",
    )  # fmt: skip
    carries: tuple[Carries, ...] = listed(
        "What goes through, in the words of routes.", ["supply"], least=1, most=6, unique=True,
        form=CARRIES,
        label="for",
    )  # fmt: skip
    seal: Seal = word(
        "What keeps edge and water off the cable.", "grommet",
        means={"grommet": "A grommet, sealed around the cable.",
        "sealant": "Sealant alone, around a cable in its own sleeve.",
        "unknown": "Nobody has decided."},
        label="closed with",
    )  # fmt: skip
    drip_loop: Tri = word(
        "Whether the cable hangs lower than the hole on the wet side, so that water drips off "
        "before it.", "yes", form=TRI,
        label="drip loop",
    )  # fmt: skip
    path: DataPath = ()

    @property
    def closed(self) -> bool:
        """Whether it is decided how edge and water are kept off."""
        return self.seal != "unknown" and self.drip_loop != "unknown"
