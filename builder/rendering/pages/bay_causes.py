"""What a phone in the bay says of a line that failed: its likely causes, and what to read next."""

from __future__ import annotations

import json

from builder.planning.comeback.ask import Cause, Comeback
from builder.planning.comeback.failed_lines import FailedLine, failed_lines
from builder.planning.comeback.reading_made import Reading
from builder.rendering.comeback_text import at_words
from builder.rendering.pages.bay_lines import bay_band, state_words


class _Texts:
    """Texts by number, each once: many lines have causes in common."""

    def __init__(self) -> None:
        self.known: dict[str, int] = {}

    def number(self, text: str) -> int:
        return self.known.setdefault(text, len(self.known))


def bay_causes(back: Comeback) -> str:
    """Return as JSON {texts, lines}: the texts that the lines have by number, and of each line by
    the way it fails ("low", "high", or "none" of a line that is answered with yes or no) what to do
    and where to look, two by two, how many more causes there are, and what to read next, or -1.
    """
    texts, numbers = _Texts(), {test.id: test.number for test in back.job.pack.tests}
    lines = {
        line: {each.where: _said(each, texts, numbers) for each in found}
        for line, found in failed_lines(back).items()
    }
    said = {"texts": list(texts.known), "lines": lines}
    return json.dumps(said, ensure_ascii=False, separators=(",", ":"))


def _said(failed: FailedLine, texts: _Texts, numbers: dict[str, int]) -> list[object]:
    causes = [texts.number(text) for cause in failed.causes for text in _cause(cause)]
    following = texts.number(_read(failed.next, numbers)) if failed.next else -1
    return [causes, failed.more, following]


def _cause(cause: Cause) -> tuple[str, str]:
    """What mends it, and the likeliest place of it."""
    fault = cause.faults[0]
    return cause.remedy, f"{fault.place}: {fault.what}"


def _read(reading: Reading, numbers: dict[str, int]) -> str:
    """A reading: of the sheet by its number, in its state, with what is in order."""
    test = reading.test
    line = f"line {numbers[test.id]}, " if test.id in numbers else ""
    what = f"{line}{test.what}{at_words(reading)}"
    return f"{what}; {state_words(test.state)}; in order: {bay_band(test)}"
