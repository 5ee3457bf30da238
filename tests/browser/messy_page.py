"""A session on the record page as a hand does it, from a text; its taps and keys are counted.

press NAME           a button, by its id or its text
go STEP              a step, by its name
PATH = VALUE | ...   a field: typed, chosen from a list, or pressed
none PATH, all PATH, unknown PATH, add PATH    the buttons beside a field
shell PLUG COUNT NAME    a housing, from those with so many cavities
line TEXT            typed into the field for pin tables; "~ TEXT" is pasted
means WORD BUTTON    what a word that is asked back means
cavity NAME          pressed in the drawing
visit ID             the visit that readings belong to
reading TEXT         typed, and Enter
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from maker_page import MakerPage
from messy_cars import Cost, wanted_facts
from messy_facts import facts_of

_KIND = "const n = document.getElementById(arguments[0]); return n ? n.localName : ''"
_PASTE = """
  const node = document.getElementById("maker-paste");
  node.value += (node.value ? "\\n" : "") + arguments[0];
  node.dispatchEvent(new Event("input"));
"""
_MEANS = """
  const rows = [...document.querySelectorAll(".maker-pasted .maker-choices")];
  const row = rows.find(r => r.textContent.startsWith("“" + arguments[0] + "”"));
  const all = row ? [...row.querySelectorAll("button")] : [];
  const press = all.find(b => b.textContent === arguments[1]);
  if (press) press.click();
  return !!press;
"""
_VISIT = """
  const node = document.querySelector('.maker-pin select[id$="-readings-session"]');
  node.value = arguments[0];
  node.dispatchEvent(new Event("change"));
  return node.value;
"""
_READINGS = "return document.querySelector('.maker-pin form input[id$=\"-readings-line\"]').id"
_SHOWN = "return document.getElementById(arguments[0]).innerText"


@dataclass
class Hand:
    """Somebody at the page: what was done so far."""

    page: MakerPage
    taps: int = 0
    keys: int = 0
    thought: int = 0
    heard: list[str] = field(default_factory=list)  # what was shown before it was taken
    pasted: bool = False
    typing: bool = False  # whether the field for tables has the focus

    def do(self, text: str) -> None:
        """Do the lines of a session."""
        for line in filter(str.strip, text.splitlines()):
            self._do(line)

    def _do(self, line: str) -> None:
        word, _, rest = line.partition(" ")
        if word not in ("line", "~"):
            self.typing = False
        elif not self.typing:
            self.typing, self.taps = True, self.taps + 1
        if " = " in line and word not in ("line", "reading", "~"):
            path, _, values = line.partition(" = ")
            self._answer(path, values)
        elif word in _BESIDE:
            self._beside(word, rest)
        else:
            getattr(self, f"_{_NAMES.get(word, word)}")(rest)

    # ---- going about ---------------------------------------------------------------------------
    def _press(self, name: str) -> None:
        if name == "maker-paste-take":
            self.heard += [self._shown("maker-paste-said"), self._shown("maker-paste-lines")]
        self.page.press(name)
        self.taps += 1

    def _go(self, step: str) -> None:
        self.page.step(step)
        self.taps += 1

    def _cavity(self, name: str) -> None:
        self.page.cavity(name)
        self.taps += 1

    # ---- answers -------------------------------------------------------------------------------
    def _answer(self, path: str, values: str) -> None:
        kind = self.page.browser.run(_KIND, f"maker-vehicle-{path.replace('.', '-')}")
        each = values.split(" | ") if kind == "" else [values]
        self.page.answer(path, *each)
        self.thought += 1
        self.taps += 2 if kind == "select" else len(each)
        self.keys += len(values) if kind in ("input", "textarea") else 0

    def _beside(self, word: str, path: str) -> None:
        self.page.press(f"maker-vehicle-{path.replace('.', '-')}-{word}")
        self._chose(1)

    def _add(self, path: str) -> None:
        self.page.add(path)
        self.taps += 1

    def _shell(self, rest: str) -> None:
        plug, count, name = rest.split(" ", 2)
        self.page.browser.run(
            "const s = document.getElementById(arguments[0]); s.value = arguments[1];"
            "s.dispatchEvent(new Event('change'))",
            f"maker-plug-{plug}-count",
            count,
        )
        self.page.press(f"Take {name}")
        self._chose(3)

    def _chose(self, taps: int) -> None:
        self.taps += taps
        self.thought += 1

    # ---- lines ---------------------------------------------------------------------------------
    def _line(self, text: str) -> None:
        self.page.browser.run(_PASTE, text)
        self.keys += len(text) + 1
        self.thought += 1

    def _pasted(self, text: str) -> None:
        self.page.browser.run(_PASTE, text)
        if not self.pasted:
            self.pasted, self.taps = True, self.taps + 4  # marked and copied there, pasted here

    def _means(self, rest: str) -> None:
        word, _, button = rest.partition(" ")
        assert self.page.browser.run(_MEANS, word, button), self._shown("maker-paste-box")
        self._chose(1)

    def _visit(self, name: str) -> None:
        assert self.page.browser.run(_VISIT, name) == name
        self._chose(2)

    def _reading(self, text: str) -> None:
        field = str(self.page.browser.run(_READINGS)).removeprefix("maker-vehicle-")
        self.page.reading(field.removesuffix("-line").replace("-", "."), text)
        self.keys += len(text) + 1
        self._chose(1)

    def cost(self, book: Path, car: str, findings: Sequence[str]) -> Cost:
        """What it all cost, once the file is in a book; `findings` are those of page and check."""
        got, wanted = frozenset(facts_of(book, car)), wanted_facts(car)
        words = sum(len(text.split()) for text in (*self.heard, *findings))
        return Cost(
            self.thought, self.keys, 0, self.taps, self.thought, len(findings), words,
            tuple(sorted(wanted - got)), tuple(sorted(got - wanted)),
        )  # fmt: skip

    def _shown(self, name: str) -> str:
        return str(self.page.browser.run(_SHOWN, name))


_NAMES: dict[str, Any] = {"~": "pasted"}
_BESIDE = frozenset({"none", "all", "unknown"})
