"""What a record accepts, how disputes in it ended, and the photos beside it."""

from __future__ import annotations

from builder.declaring import given, listed, record, text, word
from builder.findings import DataPath
from builder.model.car_forms import PHOTO_FILE, PHOTO_LICENCE
from builder.model.forms import DATE, ID, LINE, RULE_ID, SENTENCE, YesNo
from builder.model.plug_forms import AT, PLUG_ID


@record
class Acceptance:
    """One finding that the record expects."""

    rule: str = text(
        "The id of the rule, as printed in front of the finding.", "PIN111", form=RULE_ID,
    )  # fmt: skip
    at: str | None = text(
        "The plug or cavity it is about; leave it out for anywhere in the record.", "A", "A.4",
        form=AT, default=None,
        label="at",
    )  # fmt: skip
    reason: str = text(
        "Why it is left as it is, in at least ten characters.", "two white wires in this plug and "
        "no way round it", form=SENTENCE, least=10,
    )  # fmt: skip
    who: str = text("Who says so: your shop or handle.", "alder-pit-audio", form=ID, label="says")
    path: DataPath = ()


@record
class Resolution:
    """The end of one dispute."""

    pin: str = text("The cavity it was about, with its plug.", "A.4", form=AT)
    by: str = text("Who settled it: your shop or handle.", "alder-pit-audio", form=ID)
    date: str = text("The day it was settled.", "2024-06-01", form=DATE)
    deciding: str = text(
        "The reading that decided, in at least ten characters.", "12.6 V after 70 minutes locked, "
        "with both of us watching", form=SENTENCE, least=10,
    )  # fmt: skip
    outcome: str | None = text(
        "What the pin is held for since, in words.", "a constant supply, as the meters said",
        form=SENTENCE, default=None,
    )  # fmt: skip
    retires: tuple[str, ...] = listed(
        "The visits or contributors whose word on this pin no longer counts.", ["s2"],
        ["harbour-sound"], least=1, most=20, unique=True, form=ID,
    )  # fmt: skip
    path: DataPath = ()


@record
class Photo:
    """One photo."""

    file: str = text("Its file name.", "radio-a.jpg", form=PHOTO_FILE)
    shows: str = text(
        "What it shows and from which side.", "plug A from the wire side", form=SENTENCE,
    )  # fmt: skip
    plug: str | None = text(
        "The plug that it shows, by its letter: the page has it beside that plug.", "A",
        form=PLUG_ID, default=None,
        label="of plug", absent="",
    )  # fmt: skip
    place: str | None = text(
        "The place that it shows, where that is no plug.", "cabin fuse panel", form=LINE,
        default=None,
        label="of the", absent="",
    )  # fmt: skip
    alt: str | None = text(
        "What is to be seen in it, for who cannot see it; left out, what it shows.",
        "a grey plug with two rows of cavities, the latch up, behind an open radio bay",
        form=SENTENCE, default=None,
        label="to be seen:", absent="",
    )  # fmt: skip
    by: str | None = text(
        "Who took it, by the handle.", "alder-pit-audio", form=ID, default=None,
        label="taken by", absent="",
    )  # fmt: skip
    licence: str | None = text(
        "The licence that it is given under: an SPDX identifier, or own where who took it lets "
        "only this book show it.", "CC0-1.0", form=PHOTO_LICENCE, default=None,
        label="licence", absent="",
    )  # fmt: skip
    consent: YesNo | None = word(
        "Whether it may be published; left out, nobody was asked and no page shows it.", "yes",
        means={"yes": "Who took it and whose car it is were asked and agree, and it shows no "
        "person, no number plate and no chassis number.",
        "no": "It stays in the book and is shown on no page."},
        default=None,
        label="may be shown:", absent="",
    )  # fmt: skip
    path: DataPath = ()

    RULES = (given("A photo of a plug needs no place.", "plug").bars("place"),)

    @property
    def lacks(self) -> tuple[str, ...]:
        """The keys without which it is shown on no page, and that are not there."""
        said = {"by": self.by, "licence": self.licence, "consent": self.consent}
        return tuple(key for key, value in said.items() if value is None)

    @property
    def may_be_shown(self) -> bool:
        """Whether a page may show it, as far as the record says."""
        return self.consent == "yes" and not self.lacks
