"""Misspell one word a function, all over the code, and list what the type checker lets through.

    .venv/bin/python tests/long/misspellings.py             # every function
    .venv/bin/python tests/long/misspellings.py --places 20 --seed 7

Of each function that compares anything with a word, one such word is spelt wrong in a copy of the
code; then the checker runs once over all of it. Exit 1 when a misspelling is not reported on its
line, unless it is compared with raw data or stands in a module that compares typed text.
"""

from __future__ import annotations

import argparse
import ast
import random
import re
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "tests"))

from builder_code import files, nodes_of  # noqa: E402
from typed_words import TEXT, is_word  # noqa: E402

RAW = {
    "builder.editing.drafts.question": "keywords of schemas",
    "builder.editing.tabular.missing": "paths into a record that is not parsed yet",
    "builder.editing.tabular.pin_rows": "paths into a record that is not parsed yet",
    "builder.editing.tabular.template": "paths into a record that is not parsed yet",
    "builder.editing.writing": "paths into a record that is not parsed",
    "builder.pipeline.comparing.changes": "keys of two records as they were typed",
    "builder.rendering.validator_js": "keywords of schemas",
    "builder.schema_check.type_wording": "keywords of schemas",
    "builder.schema_check.value_wording": "keywords of schemas",
}
"""Modules that compare what is no word of a list and has no type: data as it was read."""


class Place(NamedTuple):
    """A word that is compared: its file, its line, and its columns with the quotes."""

    file: str
    statement: range  # lines of the comparison: an error may stand on any of them
    line: int
    start: int
    end: int
    raw: bool  # compared with what was read from a file

    @property
    def module(self) -> str:
        """The module as the type checker calls it."""
        return self.file.removesuffix(".py").replace("/", ".")


def places() -> list[Place]:
    """Every word that is compared, one for each function at most, in the order of the files."""
    found = []
    for path in files():
        for function in nodes_of(path):
            if isinstance(function, ast.FunctionDef):
                here = list(_words_in(function, path.relative_to(ROOT).as_posix()))
                found += here[:1]
    return found


def known_places() -> list[Place]:
    """The same without what is raw, and without modules that compare typed text."""
    skipped = TEXT.keys() | RAW.keys()
    return [place for place in places() if not place.raw and place.module not in skipped]


def drawn(count: int, seed: int) -> list[Place]:
    """So many of them, drawn by a seed."""
    return random.Random(seed).sample(known_places(), count)


def _words_in(function: ast.FunctionDef, file: str) -> Iterator[Place]:
    for node in ast.walk(function):
        if not isinstance(node, ast.Compare) or isinstance(node.ops[0], ast.Is | ast.IsNot):
            continue
        sides = [node.left, *node.comparators]
        raw = any(_is_raw(side) for side in sides)
        for side in sides:
            for word in side.elts if isinstance(side, ast.Tuple | ast.Set | ast.List) else [side]:
                if isinstance(word, ast.Constant) and is_word(word.value) and not _in_text(node):
                    lines = range(node.lineno, (node.end_lineno or node.lineno) + 1)
                    ends = (word.col_offset, word.end_col_offset or 0)
                    yield Place(file, lines, word.lineno, *ends, raw)


def _in_text(node: ast.Compare) -> bool:
    """Whether a part of a text is looked for: `"emergency" in sound.lower()`."""
    looked_for = isinstance(node.ops[0], ast.In | ast.NotIn)
    return looked_for and any(isinstance(n, ast.Constant) for n in (node.left, *node.comparators))


def _is_raw(node: ast.expr) -> bool:
    """Whether an expression takes a value out of data as it was read: `data["kind"]`, `.get()`."""
    if isinstance(node, ast.Subscript):
        return isinstance(node.slice, ast.Constant) and isinstance(node.slice.value, str)
    return (
        isinstance(node, ast.Call)
        and isinstance(node.func, ast.Attribute)
        and node.func.attr == "get"
    )


def misspell(folder: Path, chosen: list[Place]) -> None:
    """Put a letter too many into each of the words."""
    for place in sorted(chosen, key=lambda place: (place.file, place.line, -place.start)):
        path = folder / place.file
        lines = path.read_bytes().splitlines(keepends=True)
        line = lines[place.line - 1]
        lines[place.line - 1] = line[: place.end - 1] + b"x" + line[place.end - 1 :]
        path.write_bytes(b"".join(lines))


def let_through(chosen: list[Place]) -> list[Place]:
    """Return the misspelt words of which the type checker says nothing."""
    with tempfile.TemporaryDirectory() as home:
        folder = Path(home)
        for name in ("builder", ".mypy_cache"):  # what was checked before need not be again
            if (ROOT / name).is_dir():
                shutil.copytree(ROOT / name, folder / name)
        (folder / "tests").mkdir()
        shutil.copy(ROOT / "tests/typed_words.py", folder / "tests")
        shutil.copy(ROOT / "pyproject.toml", folder)
        misspell(folder, chosen)
        mypy = Path(sys.executable).parent / "mypy"
        said = subprocess.run([mypy], cwd=folder, capture_output=True, text=True, check=False)
    told = {
        (file, int(line)) for file, line in re.findall(r"^(.+?):(\d+): error", said.stdout, re.M)
    }
    return [
        place for place in chosen if not any((place.file, line) in told for line in place.statement)
    ]


def main() -> int:
    """Misspell, check, and print what was let through."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--places", type=int, default=0, help="how many; 0 for every function")
    parser.add_argument("--seed", type=int, default=0)
    asked = parser.parse_args()
    chosen = drawn(asked.places, asked.seed) if asked.places else known_places()
    lost = let_through(chosen)
    for place in lost:
        print(f"{place.file}:{place.line}: nothing is said of the misspelt word")
    print(f"{len(chosen)} words misspelt, {len(chosen) - len(lost)} reported")
    return 1 if lost else 0


if __name__ == "__main__":
    sys.exit(main())
