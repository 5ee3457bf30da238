"""The shell: one built page, cut open so that record pages can be poured in.

mkdocs builds only the hand-written handbook and two placeholders (one for the site's root,
one for a folder deep), because its cost grows with every page it knows. This module and
`site_templates/theme/` are the only places that know mkdocs. Of its theme no page shows anything:
style, typeface and every template are our own.
"""

from __future__ import annotations

import html
import json
import logging
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import Any, NamedTuple

from builder.data_files import templates_folder
from builder.model.house_defaults import HouseDefaults
from builder.rendering.find_pages import FINDER_SCRIPTS
from builder.rendering.handbook import fill_in
from builder.rendering.licences import licence_files
from builder.rendering.page import Page
from builder.rendering.page_policy import PAGE_POLICY
from builder.rendering.styles import site_style
from builder.unfinished import work_folder

TITLE = "loombook-pour-title"
DESCRIPTION = "loombook-pour-description"
BODY = "<!--loombook:body-->"
FOOT = "loombook-pour-foot"
_CUT = re.compile(f"{FOOT}|{TITLE}|{DESCRIPTION}|{BODY}")
_ORDER = [FOOT, TITLE, DESCRIPTION, BODY]
_SECTIONS = (  # name, page, and the folders and pages that are part of it
    ("Find", "index.html", "vehicles makes"),
    ("Plans", "plans/index.html", "plans"),
    ("Measure", "measure/index.html", "measure identify.html prove record-maker.html"),
    ("Jobs", "jobs/index.html", "jobs comebacks recalls"),
    ("More", "more/index.html", "more parts rules handbook health.html schema data"),
)
_OWN_KINDS = frozenset({".js", ".svg"})
STYLE_URL = "assets/loombook.css"
"""The one style sheet of the site; `main.html` asks for it by this name."""


@dataclass(frozen=True, slots=True)
class Shell:
    """The theme's HTML in parts, by depth of the page, and the files that go with it.

    `parts[depth]` are the texts round foot, description, title and body, in the order of
    the page. `files` are relative path and content of handbook pages and assets. `imprint`
    ends the foot of every printed page.
    """

    parts: tuple[tuple[str, ...], ...]
    title_first: tuple[bool, ...]
    files: tuple[tuple[str, bytes], ...]
    imprint: str

    def pour(self, page: Page) -> str:
        """Return the whole HTML document of `page`; its URL may be at most one folder deep."""
        depth = page.url.count("/")
        start, first, second, third, last = self.parts[depth]
        title, description = html.escape(page.title), html.escape(page.description)
        if not self.title_first[depth]:
            title, description = description, title
        foot = html.escape(paper_foot(page.foot, self.imprint))
        scripts = _asked_for(page.scripts, depth)
        poured = (start, foot, first, title, second, description, third)
        return "".join((*poured, page.body_html, scripts, last))


def _asked_for(scripts: tuple[str, ...], depth: int) -> str:
    up = "../" * depth
    return "".join(f'<script src="{up}{html.escape(path)}" defer></script>\n' for path in scripts)


def paper_foot(which: str, imprint: str) -> str:
    """Return what stands at the foot of each printed page; `which` names the record."""
    return " · ".join(part for part in (which, imprint) if part)


class BuiltTheme(NamedTuple):
    """What the theme gives: the parts of a `Shell` by depth, and the pages of the handbook."""

    parts: tuple[tuple[str, ...], ...]
    title_first: tuple[bool, ...]
    handbook: tuple[tuple[str, str], ...]


def build_shell(site_name: str, imprint: str = "", defaults: HouseDefaults | None = None) -> Shell:
    """Build handbook and placeholders and return them as a `Shell`.

    `imprint` is one line for the foot of every page; `defaults` are the house defaults the
    handbook prints.

    Raises:
        RuntimeError: the theme does not build.
        OSError: the system's place for temporary things is full.
    """
    return shell_of(build_theme(site_name, imprint, defaults or HouseDefaults()), imprint)


def shell_of(theme: BuiltTheme, imprint: str) -> Shell:
    """Return the shell of a theme that is built, with our own files."""
    handbook = [(url, text.encode()) for url, text in theme.handbook]
    return Shell(theme.parts, theme.title_first, (*handbook, *_assets()), imprint)


@lru_cache(maxsize=4)
def build_theme(site_name: str, imprint: str, defaults: HouseDefaults) -> BuiltTheme:
    """Build handbook and placeholders; it raises what `build_shell` raises.

    Nothing else goes into a theme, so that one which was built in this process is given again:
    `serve` need not run mkdocs for each save.
    """
    with work_folder() as work:
        built = work / "built"
        _write_sources(work / "docs", defaults)
        _run_mkdocs(_settings(site_name, imprint, work, built), work)
        shallow, deep = (
            _cut((built / place).read_text(encoding="utf-8"))
            for place in ("index.html", "pour/deep.html")
        )
        handbook = tuple(_handbook(built, paper_foot("", imprint)))
        return BuiltTheme((shallow[0], deep[0]), (shallow[1], deep[1]), handbook)


def _write_sources(docs: Path, defaults: HouseDefaults) -> None:
    for source in sorted((templates_folder() / "handbook").glob("*.md")):
        _write(docs / "handbook" / source.name, fill_in(source.read_text("utf-8"), defaults))
    placeholder = f"---\ntitle: {TITLE}\ndescription: {DESCRIPTION}\npour: true\n---\n\nBody.\n"
    _write(docs / "index.md", placeholder)
    _write(docs / "pour" / "deep.md", placeholder)


def _write(file: Path, text: str) -> None:
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(text, encoding="utf-8")


def _settings(site_name: str, imprint: str, work: Path, built: Path) -> dict[str, Any]:
    return {
        "site_name": site_name,
        "docs_dir": str(work / "docs"),
        "site_dir": str(built),
        "use_directory_urls": False,
        "theme": {
            "name": "material",
            "custom_dir": str(templates_folder() / "theme"),
            "font": False,
            "features": [],
        },
        "plugins": [],
        "markdown_extensions": ["tables", "attr_list", "md_in_html"],
        "extra": {
            "imprint": imprint,
            "page_policy": PAGE_POLICY,
            "sections": [{"name": name, "url": url} for name, url, _ in _SECTIONS],
        },
    }


def _run_mkdocs(settings: dict[str, Any], work: Path) -> None:
    """Validate `settings` and build, quietly: what mkdocs warns of is raised, not printed."""
    from mkdocs.commands.build import build
    from mkdocs.config.defaults import MkDocsConfig

    config = MkDocsConfig(config_file_path=str(work / "mkdocs.yml"))
    config.load_dict(settings)
    errors, _warnings = config.validate()
    if errors:
        raise RuntimeError(f"the theme's settings are wrong: {errors}")
    logging.getLogger("mkdocs").setLevel(logging.ERROR)
    try:
        build(config)
    except OSError as error:  # it may name what was being copied, which is not what is full
        raise OSError(error.errno, error.strerror, str(work)) from error


def _cut(document: str) -> tuple[tuple[str, ...], bool]:
    """Split a placeholder page at its marks; say whether the title comes before description."""
    document = _with_foot(document, FOOT)
    marks = _CUT.findall(document)
    if sorted(marks) != sorted(_ORDER) or (marks[0], marks[-1]) != (FOOT, BODY):
        raise RuntimeError(f"the theme must show title, description and body once each: {marks}")
    return tuple(_CUT.split(document)), marks[1] == TITLE


def _with_foot(document: str, foot: str) -> str:
    """Give the root element the words that the style sheet puts at the foot of each page."""
    return document.replace("<html ", f'<html data-foot="{foot}" ', 1)


def _handbook(built: Path, foot: str) -> list[tuple[str, str]]:
    return [
        (f"handbook/{page.name}", _with_foot(page.read_text("utf-8"), html.escape(foot)))
        for page in sorted((built / "handbook").glob("*.html"))
    ]


def _theme_files(kinds: frozenset[str], folder: str = "theme") -> list[Path]:
    files = sorted((templates_folder() / folder).iterdir())
    return [file for file in files if file.suffix in kinds]


def _assets() -> list[tuple[str, bytes]]:
    """Our own files, each kind of somebody else's with its licence; nothing else."""
    own = _theme_files(_OWN_KINDS) + _theme_files(frozenset({".woff2"}), "theme/fonts")
    named = [(f"assets/{file.name}", _told(file.read_bytes())) for file in own]
    return [(STYLE_URL, site_style().encode()), *named, *licence_files()]


def _told(script: bytes) -> bytes:
    """Return a file of ours with what stands here once, so that no page has to say it."""
    places = [of for _, _, of in _SECTIONS]
    for mark, said in ((b"[]/*scripts*/", list(FINDER_SCRIPTS)), (b"[]/*places*/", places)):
        script = script.replace(mark, json.dumps(said).encode())
    return script


def dated_files(files: Iterable[tuple[str, bytes]], as_of: str) -> Iterator[tuple[str, bytes]]:
    """Yield the files of a shell, the style sheet with the date of the data, YYYY-MM-DD or "".

    Each page shows that date, on paper too, and none holds it: so a new reading of one car changes
    no page of another. Where no style is applied, the index of the open data has it.
    """
    rule = f':root {{ --data-of: "{as_of or "no date"}"; }}\n'
    for url, content in files:
        yield url, content + rule.encode() if url == STYLE_URL else content
