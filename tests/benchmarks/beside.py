"""What loombook is measured beside: a generic check, a plain write, a general site generator."""

from __future__ import annotations

import json
import re
import shutil
import sys
import time
from collections.abc import Sequence
from pathlib import Path

from measured_runs import Ran, ran

ROOT = Path(__file__).resolve().parents[2]
TOOLS = Path(sys.executable).parent
_MAIN = re.compile(r"<main\b[^>]*>(.*)</main>", re.DOTALL)
_TITLE = re.compile(r"<title>(.*?)</title>", re.DOTALL)


def one_file_schema(folder: Path) -> Path:
    """The vehicle schema with the shared definitions inside it.

    The generic command would follow references to another file anew for each record; it is
    given the quicker form, so that the comparison is fair to it.
    """
    text = (ROOT / "schema" / "vehicle.schema.json").read_text("utf-8")
    schema = json.loads(text.replace("defs.schema.json#", "#"))
    shared = json.loads((ROOT / "schema" / "defs.schema.json").read_text("utf-8"))
    schema["$defs"] = {**shared["$defs"], **schema.get("$defs", {})}
    file = folder / "vehicle-in-one.schema.json"
    file.write_text(json.dumps(schema), "utf-8")
    return file


def generic_check(folder: Path, files: Sequence[Path]) -> Ran:
    """The same files checked against the schema alone, by a command that knows nothing else."""
    schema = one_file_schema(folder)
    return ran(TOOLS / "check-jsonschema", "--schemafile", schema, *files)


def plain_write(site: Path, place: Path) -> Ran:
    """The bytes of a site written file by file, in one process and one folder; reading them is
    not counted."""
    shutil.rmtree(place, ignore_errors=True)
    place.mkdir()
    seconds, size, count = 0.0, 0, 0
    for path in site.rglob("*"):
        if path.is_file():
            content = path.read_bytes()
            begun = time.perf_counter()
            (place / str(count)).write_bytes(content)
            seconds += time.perf_counter() - begun
            size, count = size + len(content), count + 1
    shutil.rmtree(place)
    return Ran(seconds, 0, 0, f"{size / 1e6:.0f} MB in {count} files")


def other_generator(site: Path, place: Path) -> Ran:
    """A general static-site generator, given what stands between the head and the foot of each page
    as ready HTML, which it puts into one layout.

    It is `hugo`, whose content may be HTML; no Markdown is read, no picture or data copied.
    """
    if shutil.which("hugo") is None:
        return Ran(0, 0, 0, "not installed")
    shutil.rmtree(place, ignore_errors=True)
    pages = _as_content(site, place)
    done = ran("hugo", "--quiet", "--destination", place / "public", cwd=place)
    made = sum(1 for _ in (place / "public").rglob("*.html"))
    shutil.rmtree(place)
    return done._replace(said=f"{made} of {pages} pages by hugo {done.said}".strip())


def _as_content(site: Path, place: Path) -> int:
    """Lay out a site as the generator wants it; how many pages it was given."""
    (place / "layouts" / "_default").mkdir(parents=True)
    layout = "<!doctype html><title>{{ .Title }}</title><main>{{ .Content }}</main>\n"
    (place / "layouts" / "_default" / "single.html").write_text(layout, "utf-8")
    kinds = '["taxonomy", "term", "home", "section", "RSS", "sitemap", "robotsTXT", "404"]'
    settings = f'baseURL = "https://example.invalid/"\nuglyURLs = true\ndisableKinds = {kinds}\n'
    (place / "config.toml").write_text(settings, "utf-8")
    pages = sorted(site.rglob("*.html"))
    for page in pages:
        _write_content(page.read_text("utf-8"), place / "content" / page.relative_to(site))
    return len(pages)


def _write_content(text: str, file: Path) -> None:
    body, title = _MAIN.search(text), _TITLE.search(text)
    head = json.dumps({"title": title[1] if title else file.stem})
    if file.stem in ("index", "_index"):
        file = file.with_stem("list")  # that name would make a list of it
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(f"{head}\n{body[1] if body else text}", "utf-8")
