"""What every record says of itself: its version, its name, whether it is real, what it replaces."""

from __future__ import annotations

from builder.declaring import figure, part, record, text, word
from builder.model.forms import DATA, ID, SCHEMA_VERSION, SENTENCE
from builder.model.words import Origin


@record(shared="replaces")
class Replaces:
    """The shared record that this private one stands in for; of the two, only this one is then in
    the book.
    """

    id: str = text(
        "The id of the shared record; it may be this record's own.", "sample-base", form=ID,
        label="record",
    )  # fmt: skip
    reason: str = text(
        "Why the shared record does not do.", "our cars of this scope have another radio",
        form=SENTENCE,
        label="because",
    )  # fmt: skip


OWN_ID = "The record's own name, equal to the file name without .yaml."


@record
class Recorded:
    """What every record says of itself."""

    schema: int = figure(
        "The version of the record format.", "", 1, form=SCHEMA_VERSION, default=1, optional=False,
    )  # fmt: skip
    id: str = text(OWN_ID, form=ID)
    data: Origin = word(
        "Whether a real thing stands behind the record.", "invented", form=DATA,
        ask="measured (a real thing) or invented", answer="measured",
        column=("data", "invented or measured"),
    )  # fmt: skip
    replaces: Replaces | None = part(
        {"id": "sample-base", "reason": "our cars of this scope have another radio"},
        description="The shared record that this private one stands in for; of the two, only this "
        "one is then in the book.", default=None,
        label="Stands in for", absent="",
    )  # fmt: skip
