"""What people read, with where it stands: texts of the code, of templates, of built pages."""

from __future__ import annotations

import ast
import json
import re
from collections.abc import Iterator
from html.parser import HTMLParser
from pathlib import Path
from typing import Any, NamedTuple

PLACEHOLDER = "…"
"""What stands for a value that is only known when a sentence is made."""


class Text(NamedTuple):
    """One text, and the line of its file that it begins on."""

    line: int
    text: str


def of_python(source: str, docstrings: bool) -> Iterator[Text]:
    """Yield the sentences of a module: strings with a space in them, and, where they are printed,
    its own docstring and those of its commands. Other docstrings are for who works on the code."""
    tree = ast.parse(source)
    told = {id(node) for node in _docstrings(tree)}
    parts = {
        id(part) for one in ast.walk(tree) if isinstance(one, ast.JoinedStr) for part in one.values
    }
    for node in ast.walk(tree):
        if isinstance(node, ast.JoinedStr):
            yield from _sentence(node.lineno, "".join(map(_part, node.values)))
        elif isinstance(node, ast.Constant) and id(node) not in told | parts:
            yield from _sentence(node.lineno, node.value if isinstance(node.value, str) else "")
    if docstrings:
        yield from _lines(1, without_code(ast.get_docstring(tree, clean=False) or ""))
    for one in ast.walk(tree):
        if isinstance(one, ast.FunctionDef) and any(map(_is_command, one.decorator_list)):
            doc = one.body[0]
            yield from _lines(doc.lineno, without_code(ast.get_docstring(one, clean=False) or ""))


def _docstrings(tree: ast.Module) -> Iterator[ast.AST]:
    """Every string that stands as a statement, for whoever reads the code."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant):
            yield node.value


def _part(node: ast.expr) -> str:
    return str(node.value) if isinstance(node, ast.Constant) else PLACEHOLDER


def _is_command(decorator: ast.expr) -> bool:
    called = decorator.func if isinstance(decorator, ast.Call) else decorator
    return isinstance(called, ast.Attribute) and called.attr in ("command", "group")


def _sentence(line: int, text: str) -> Iterator[Text]:
    if " " in text.strip():
        yield Text(line, without_code(text))


def _lines(first: int, text: str) -> Iterator[Text]:
    """A long text paragraph by paragraph, so that a phrase over two lines is one."""
    at = first
    for block in re.split(r"(\n[ \t]*\n)", text):
        if block.strip():
            yield Text(at, " ".join(block.split()))
        at += block.count("\n")


_TICKED = re.compile(r"``?[^`\n]+``?")
_LITERAL = re.compile(r"^(?:Fails|Passes)::\n(?:\n|[ \t]+.*\n)*", re.M)
_FENCED = re.compile(r"^```.*?^```", re.M | re.S)
_INDENTED = re.compile(r"(?<=\n\n)(?:(?:    |\t).*\n|\n)+")


def without_code(text: str, keep: str = "loombook ") -> str:
    """The text without what is typed or stands in records: examples, and words in backticks.

    Commands stay: their names are words of ours.
    """
    for pattern in (_LITERAL, _FENCED):
        text = pattern.sub(lambda found: "\n" * found.group().count("\n"), text)
    return _TICKED.sub(lambda found: found.group() if keep in found.group() else "`…`", text)


def of_markdown(text: str) -> Iterator[Text]:
    """Yield the paragraphs of a page in Markdown, without examples and tags."""
    text = _INDENTED.sub(lambda found: "\n" * found.group().count("\n"), text)
    yield from _lines(1, re.sub(r"<[^>\n]+>|\]\([^)\n]*\)", "", without_code(text)))


_TEMPLATE_CODE = re.compile(r"\{#.*?#\}|\{%.*?%\}|\{\{.*?\}\}", re.S)
_TEMPLATE_STRING = re.compile(r"\"([^\"\n]* [^\"\n]*)\"|'([^'\n]* [^'\n]*)'")


def of_template(text: str) -> Iterator[Text]:
    """Yield the texts of a page's template: between its tags, and as strings in its code."""
    for code in _TEMPLATE_CODE.finditer(text):
        if not code.group().startswith("{#"):
            for found in _TEMPLATE_STRING.finditer(code.group()):
                yield Text(1 + text.count("\n", 0, code.start()), found.group(1) or found.group(2))
    bare = _TEMPLATE_CODE.sub(lambda found: PLACEHOLDER + "\n" * found.group().count("\n"), text)
    yield from of_page(bare)


_SCRIPT_COMMENT = re.compile(r"/\*.*?\*/|(?<![:\"'\\])//[^\n]*", re.S)
_SCRIPT_STRING = re.compile(r"\"((?:[^\"\\\n]|\\.)*)\"|'((?:[^'\\\n]|\\.)*)'")


_JOINED = re.compile(r"\s*\+[^;,{}]{0,80}(?<=\+)\s*|\s*\+\s*", re.S)
"""What stands between two strings of one sentence: a value, or nothing."""


def of_script(text: str) -> Iterator[Text]:
    """Yield the sentences of a script: strings with a space, and what is joined to them."""
    bare = _SCRIPT_COMMENT.sub(lambda found: "\n" * found.group().count("\n"), text)
    line, said, end = 0, "", -1
    for found in _SCRIPT_STRING.finditer(bare):
        between = bare[end : found.start()] if end >= 0 else ";"
        piece = found.group(1) or found.group(2) or ""
        if _JOINED.fullmatch(between):
            said += ("" if between.strip() == "+" else PLACEHOLDER) + piece
        else:
            yield from _sentence(line, said)
            line, said = 1 + bare.count("\n", 0, found.start()), piece
        end = found.end()
    yield from _sentence(line, said)


_TOLD_KEYS = ("description", "title", "wordMeanings")


def of_schema(text: str) -> Iterator[Text]:
    """Yield what a schema says of keys and words; the line is where the text stands first."""
    for said in _descriptions(json.loads(text)):
        at = text.find(json.dumps(said, ensure_ascii=False)[1:-1])
        yield Text(1 + text.count("\n", 0, max(at, 0)), without_code(said))


def _descriptions(node: Any, told: bool = False) -> Iterator[str]:
    if isinstance(node, str):
        if told:
            yield node
    elif isinstance(node, list):
        for one in node:
            yield from _descriptions(one, told)
    elif isinstance(node, dict):
        for key, value in node.items():
            yield from _descriptions(value, told or key in _TOLD_KEYS)


def of_data(text: str) -> Iterator[Text]:
    """Yield the sentences of a data file: its values with a space in them."""
    for said in _values(json.loads(text)):
        if " " in said:
            at = text.find(json.dumps(said, ensure_ascii=False)[1:-1])
            yield Text(1 + text.count("\n", 0, max(at, 0)), without_code(said))


def _values(node: Any) -> Iterator[str]:
    if isinstance(node, str):
        yield node
    elif isinstance(node, list):
        for one in node:
            yield from _values(one)
    elif isinstance(node, dict):
        for value in node.values():
            yield from _values(value)


_BLOCKS = re.compile(
    "p|li|td|th|tr|h[1-6]|d[tdl]|div|section|caption|summary|label|button|option|figcaption"
    "|legend|title|nav|ul|ol|table|main|header|footer|pre|text"
)


class _Reader(HTMLParser):
    """Texts of a page, one for each block, without what is code."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.found: list[Text] = []
        self._silent = 0
        self._at = 1
        self._words: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if _BLOCKS.fullmatch(tag):
            self.end()
        if tag in ("script", "style", "code"):
            self._silent += 1

    def handle_endtag(self, tag: str) -> None:
        if _BLOCKS.fullmatch(tag):
            self.end()
        if tag in ("script", "style", "code"):
            self._silent = max(0, self._silent - 1)

    def handle_data(self, data: str) -> None:
        if self._silent:
            return
        if not self._words:
            self._at = self.getpos()[0]
        self._words.append(data)

    def end(self) -> None:
        """Close the block that is being read."""
        text = without_code(" ".join("".join(self._words).split()))
        if text:
            self.found.append(Text(self._at, text))
        self._words = []


def of_page(text: str) -> list[Text]:
    """The texts of a page, each block one, without code, scripts and attributes."""
    reader = _Reader()
    reader.feed(text)
    reader.close()
    reader.end()
    return reader.found


def of_file(path: Path) -> Iterator[Text]:
    """The texts of a file, as its kind has them."""
    text = path.read_text("utf-8")
    if path.name.endswith(".schema.json"):
        return of_schema(text)
    readers = {".md": of_markdown, ".html": of_template, ".js": of_script, ".json": of_data}
    return iter(readers[path.suffix](text))
