"""Looms of a job: which one goes between which plug of the car and its unit."""

from __future__ import annotations

from builder.declaring import record, text
from builder.findings import DataPath
from builder.model.forms import ID
from builder.model.plug_forms import PLUG_ID


@record
class JobLoom:
    """A loom that goes between a plug of the car and its unit."""

    record: str = text(
        "The loom record.", "through-8", form=ID, label="",
    )  # fmt: skip
    plug: str = text(
        "The car's plug that goes into it.", "A", form=PLUG_ID, label="at plug",
    )  # fmt: skip
    path: DataPath = ()
