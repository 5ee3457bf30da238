"""What came of a job: results of the bay sheet, findings that may stand, what was heard later."""

from __future__ import annotations

from builder.declaring import Form, figure, record, text, without, word
from builder.findings import DataPath
from builder.model.car_forms import PHOTO_FILE
from builder.model.forms import DATE, ID, RULE_ID, SENTENCE, YES_NO, is_yes

LINE_OF_A_SHEET = Form(
    "", "", {"type": "string", "pattern": "^[a-z0-9]+(?:-[a-z0-9]+)*$", "maxLength": 80,
    "not": {"type": "string", "pattern": "[\\n\\r\\t]"},
    "formMeaning": "lower-case letters, digits and single hyphens, for example a-7-acc"},
)  # fmt: skip


@record
class JobAcceptance:
    """One finding that the job expects."""

    rule: str = text(
        "The id of the rule, as printed in front of the finding.", "PWR105", form=RULE_ID,
    )  # fmt: skip
    reason: str = text(
        "Why it may stand, in at least ten characters.",
        "the customer listens with the engine on", form=SENTENCE, least=10,
    )  # fmt: skip
    who: str = text("Who says so: your shop or handle.", "alder-pit-audio", form=ID, label="says")
    path: DataPath = ()

    @property
    def at(self) -> str | None:
        """A job's acceptance covers all of it, no place of its own."""
        return None


@record
class Result:
    """What one line of the bay sheet came to."""

    test: str = text(
        "The name of the line, as printed on the sheet: it says what is measured.", "battery-rest",
        "a-7-acc", form=LINE_OF_A_SHEET,
    )  # fmt: skip
    value: float | None = figure(
        "What was read, in the unit printed on the sheet.", "as on the sheet", None, least=-1000000,
        most=100000000, default=None,
    )  # fmt: skip
    battery_v: float | None = figure(
        "The battery's own voltage at the same moment, in volts: what passes moves with it.", "V",
        None, least=0, most=60, default=None,
    )  # fmt: skip
    current_a: float | None = figure(
        "The amperes read by a clamp at the same moment, for a line that asks for them: its volts "
        "over these are milliohms.", "A", None, above=0, most=1000, default=None,
    )  # fmt: skip
    passed: bool | None = word(
        "Whether it came out as it should, for a line without a figure.", "yes", form=YES_NO,
        read=is_yes, default=None,
    )  # fmt: skip
    by: str = text("Who tested: your shop or handle.", "alder-pit-audio", form=ID)
    date: str = text("The day, as YYYY-MM-DD.", "2024-06-01", form=DATE)
    path: DataPath = ()

    RULES = (
        without(
            "A line of the sheet that says nothing is no result: give value or passed.", "value"
        ).needs("passed"),
    )


@record
class BayNote:
    """What somebody wrote down or photographed at one step or line of the work."""

    at: str = text(
        "The line of the bay sheet by its name, or the step in its words.", "battery-rest",
        "step 12: radio plug A off", form=SENTENCE,
    )  # fmt: skip
    note: str | None = text(
        "What there is to say.", "latch of plug A is cracked, holds", form=SENTENCE, default=None,
    )  # fmt: skip
    photo: str | None = text(
        "The file name of the photo, which lies beside the job's record.", "tansy-step-12-1.jpg",
        form=PHOTO_FILE, default=None,
    )  # fmt: skip
    by: str = text("Who noted it: your shop or handle.", "alder-pit-audio", form=ID)
    date: str = text("The day, as YYYY-MM-DD.", "2024-06-01", form=DATE)
    path: DataPath = ()

    RULES = (
        without("A note that says and shows nothing is none: give note or photo.", "note").needs(
            "photo"
        ),
    )


@record
class StepTick:
    """That somebody ticked a step of the work, or took the tick off again."""

    at: str = text(
        "The step in its words, as its sheet says it.", "step 12: radio plug A off", form=SENTENCE,
    )  # fmt: skip
    done: bool = word(
        "Whether it is done; no where a tick was taken off again.", "yes", form=YES_NO, read=is_yes
    )
    by: str = text("Who ticked it: your shop or handle.", "alder-pit-audio", form=ID)
    date: str = text("The day, as YYYY-MM-DD.", "2024-06-01", form=DATE)
    path: DataPath = ()


@record
class FollowUp:
    """What was heard of the job later."""

    date: str = text("The day, as YYYY-MM-DD.", "2024-06-20", form=DATE)
    outcome: str = text("How it went.", "no fault", form=SENTENCE)
