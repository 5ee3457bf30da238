"""What a record accepts, how disputes in it ended, and the photos beside it."""

from __future__ import annotations

from builder.declaring import listed, record, text
from builder.findings import DataPath
from builder.model.car_forms import PHOTO_FILE
from builder.model.forms import DATE, ID, RULE_ID, SENTENCE
from builder.model.plug_forms import AT


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
