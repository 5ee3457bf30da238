"""The car of a job, and what was answered to the questions that tell cars apart."""

from __future__ import annotations

from builder.declaring import figure, listed, part, record, text
from builder.model.forms import CODE, LINE, MONTH, SENTENCE, YEAR
from builder.model.session import tagged


@record
class Told:
    """One question and its answer."""

    question: str = text(
        "The question, as the vehicle record has it.",
        "Is there a finned box behind the left luggage trim?", form=SENTENCE,
    )  # fmt: skip
    answer: str = text("The answer, as the vehicle record has it.", "no box", form=LINE)


@record
class JobCar:
    """The car in the bay; its tag is a word that you choose, never the chassis number."""

    tag: str = text(
        "A random word that you choose for this car; never the chassis number or anything made "
        "from it.", "k7m2", form=CODE,
        ask="A random word for this car, never its chassis number", option="car",
        sketch="not chosen",
    )  # fmt: skip
    year: int | None = figure(
        "Its model year.", "", 2018, form=YEAR, default=None,
        ask="Its model year",
    )  # fmt: skip
    built: str | None = text("Its month of build, as YYYY-MM.", "2018-04", form=MONTH, default=None)
    trim: str | None = text("Its trim.", "base", form=CODE, default=None)
    answers: tuple[Told, ...] = listed(
        "What was answered to the questions of the vehicle record; [] when it asks none.", [],
        item=part({"question": "Is there a finned box behind the left luggage trim?",
        "answer": "no box"}), most=20,
    )  # fmt: skip

    @property
    def tagged(self) -> str:
        """The tag as it is printed."""
        return tagged(self.tag)
