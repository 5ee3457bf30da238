"""What was answered in an interview, in its order: taken back, gone back in, kept as text."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from typing import Final, NamedTuple

PASTED: Final = "pasted"
"""Key of lines that were pasted and not taken: they stay in the draft for whoever looks."""
MEANT: Final = "meant"
"""Key of words that were asked back, as `bl = black`."""
PINS: Final = "pin"
PLUGS: Final = "plug"
"""Questions whose lines the interview reads itself."""
PHOTO: Final = "photo"
"""Key of the photos that were named, which is done at any question."""
_ASIDE = frozenset({PASTED, MEANT})
_STAYING = _ASIDE | {PHOTO}
_HEAD = "# The answers so far, one a line. Go on with them: loombook new"


class Entry(NamedTuple):
    """One line that was taken; of a list, an empty one ends it."""

    key: str
    text: str


@dataclass(slots=True)
class Log:
    """The answers so far. `ahead` are those that were gone back over: offered again, not lost."""

    entries: list[Entry] = field(default_factory=list)
    ahead: list[Entry] = field(default_factory=list)

    def take(self, key: str, text: str) -> None:
        """Add a line that was taken."""
        self.entries.append(Entry(key, text.replace("\r", " ").replace("\n", " ")))

    def lines(self, key: str) -> list[str]:
        """The lines of a list, without the empty one that ends it."""
        return [each.text for each in self.entries if each.key == key and each.text]

    def one(self, key: str) -> str | None:
        """The answer to a question of one line, None before it was given."""
        return next((each.text for each in self.entries if each.key == key), None)

    def is_ended(self, key: str) -> bool:
        """Whether a list was ended."""
        return Entry(key, "") in self.entries

    def answered(self) -> bool:
        """Whether a person has answered anything."""
        return bool(self.entries)

    def undo(self) -> Entry | None:
        """Take the last line back and return it; None when there is none."""
        last = self._last()
        if last is not None:
            self.entries.remove(last)
            self.ahead = [each for each in self.ahead if each.key != last.key]
        return last

    def back(self, now: str) -> bool:
        """Go back to the question before the one asked now; its lines are offered again."""
        before = next((e.key for e in reversed(self._said()) if e.key != now), None)
        if before is None:
            return False
        at = next(i for i, each in enumerate(self.entries) if each.key == before)
        gone = [each for each in self.entries[at:] if each.key not in _STAYING]
        self.entries = self.entries[:at] + [e for e in self.entries[at:] if e.key in _STAYING]
        self.ahead = gone + self.ahead
        return True

    def offered(self, key: str) -> str | None:
        """What was answered before somebody went back, for a question of one line."""
        return next((each.text for each in self.ahead if each.key == key and each.text), None)

    def again(self, key: str) -> int:
        """Take the lines of a list again that were gone back over; return how many."""
        lines = [each for each in self.ahead if each.key == key and each.text]
        self.ahead = [each for each in self.ahead if each.key != key]
        self.entries += lines
        return len(lines)

    def settle(self, key: str) -> None:
        """Forget what was offered for a question that was answered anew."""
        self.ahead = [each for each in self.ahead if each.key != key]

    def replace(self, key: str, old: str, new: str) -> None:
        """Put one line of a list in the place of another."""
        self.entries[self.entries.index(Entry(key, old))] = Entry(key, new)

    def answer_anew(self, key: str, text: str) -> None:
        """Put another answer in the place of the one to a question of one line."""
        self.entries = [Entry(key, text) if each.key == key else each for each in self.entries]

    def remember(self, word: str, means: str) -> None:
        """Keep what a word was said to mean; a later answer stands over an earlier."""
        self.entries.append(Entry(MEANT, f"{word} = {means}"))

    def meant(self) -> dict[str, str]:
        """What words were said to mean, by the word."""
        pairs = (each.text.split(" = ", 1) for each in self.entries if each.key == MEANT)
        return {pair[0]: pair[1] for pair in pairs if len(pair) == 2}

    def _said(self) -> list[Entry]:
        return [each for each in self.entries if each.key not in _STAYING]

    def _last(self) -> Entry | None:
        return next((each for each in reversed(self.entries) if each.key not in _ASIDE), None)


def log_text(kind: str, log: Log) -> str:
    """The draft as a file holds it; what was gone back over stands in it too."""
    entries = [*log.entries, *(each for each in log.ahead if each.text)]
    return "\n".join([f"{_HEAD} {kind}", *(f"{e.key}: {e.text}" for e in entries)]) + "\n"


def log_of(lines: Iterable[str]) -> Log:
    """The log that a draft's text holds; a line that is none is passed over."""
    return Log(list(_entries(lines)))


def _entries(lines: Iterable[str]) -> Iterator[Entry]:
    for line in lines:
        key, colon, text = line.rstrip("\r\n").partition(": ")
        if not colon and line.rstrip("\r\n").endswith(":"):
            key, colon = line.rstrip("\r\n")[:-1], ":"
        if colon and not line.startswith("#"):
            yield Entry(key, text)
