"""Which cars a vehicle record is about, and how it is told from its sisters."""

from __future__ import annotations

from builder.declaring import figure, listed, record, text, word
from builder.findings import DataPath
from builder.model.car_forms import COST, SIDE
from builder.model.forms import CODE, ID, LINE, MONTH, SENTENCE, YEAR
from builder.model.words import Cost, Side


@record
class Scope:
    """Which cars the record is about."""

    year_from: int = figure(
        "The first model year.", "", 2016, form=YEAR,
        column=("year from", "first year", "from year"),
    )  # fmt: skip
    year_to: int = figure(
        "The last model year.", "", 2019, form=YEAR,
        column=("year to", "last year", "to year"),
    )  # fmt: skip
    build_from: str | None = text(
        "The first month of build, as YYYY-MM; needed when a change came in mid-year.", "2016-03",
        form=MONTH, default=None,
        column=("built from", "build from"),
    )  # fmt: skip
    build_to: str | None = text(
        "The last month of build, as YYYY-MM.", "2019-08", form=MONTH, default=None,
        column=("built to", "build to"),
    )  # fmt: skip
    bodies: tuple[str, ...] = listed(
        "The bodies, or [all].", ["hatch"], ["all"], least=1, most=40, unique=True, form=CODE,
        ask="Bodies, with commas, or all", answer="all",
        column=("bodies", "body"),
    )  # fmt: skip
    markets: tuple[str, ...] = listed(
        "The markets, in your own short words, or [all].", ["all"], ["north", "south"], least=1,
        most=40, unique=True, form=CODE,
        ask="Markets", answer="all",
        column=("markets", "market"),
    )  # fmt: skip
    drive_side: Side = word(
        "The side the driver sits on.", "left", form=SIDE,
        ask="Side the driver sits on",
        column=("drive side", "steering", "driver side"),
    )  # fmt: skip
    trims: tuple[str, ...] = listed(
        "The trims, or [all].", ["base"], ["all"], least=1, most=40, unique=True, form=CODE,
        ask="Trims, with commas, or all", answer="all",
        column=("trims", "trim"),
    )  # fmt: skip
    options_any: tuple[str, ...] = listed(
        "The car has at least one of these options; [] asks for none.", [], ["tow-pack"], most=40,
        unique=True, form=CODE,
        ask="Options of which it has one", answer="none",
        column=("options, at least one of", "options any"),
    )  # fmt: skip
    options_none: tuple[str, ...] = listed(
        "The car has none of these options; [] forbids none.", [], ["audio-pack"], most=40,
        unique=True, form=CODE,
        ask="Options it has not", answer="none",
        column=("options, none of", "options none"),
    )  # fmt: skip
    radios: tuple[str, ...] = listed(
        "The part families printed on the radio; [unknown] if you did not look.", ["kr-210"],
        ["unknown"], least=1, most=40, unique=True, form=CODE,
        ask="Part family printed on the radio", answer="unknown",
        column=("radios", "radio"),
    )  # fmt: skip


@record
class Answer:
    """One answer."""

    answer: str = text("The answer.", "no", form=LINE)
    means: str = text(
        "The id of the record it leads to, or this for the record itself.", "this", form=ID,
    )  # fmt: skip


@record
class Question:
    """A question that tells this scope from a sister."""

    question: str = text(
        "The question, as you would ask it standing at the car.", "Is there a finned box behind "
        "the left luggage trim?", form=SENTENCE,
    )  # fmt: skip
    cost: Cost = word("What the answer costs.", "panel", form=COST)
    answers: tuple[Answer, ...] = listed(
        "The answers, and the record each of them leads to.", [{"answer": "no", "means": "this"},
        {"answer": "yes", "means": "sample-amplified"}], least=2, most=20,
    )  # fmt: skip
    path: DataPath = ()
