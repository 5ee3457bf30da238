"""What a page weighs beyond the files that all pages share.

Run: python tests/benchmarks/page_weight.py [site]   (without a site, the shipped book is built)

Prints for each kind of page how many there are, and of the median and the largest the bytes as
they are and as a server would compress them (gzip, level 6), in thousands of bytes. `with own`
adds the scripts and styles that this kind of page asks for and most other pages do not. Aim: a
vehicle page with everything it needs beyond the shared files is under 60 kB compressed.
Nothing here is asserted.
"""

from __future__ import annotations

import gzip
import re
import subprocess
import sys
import tempfile
from collections import Counter
from pathlib import Path
from posixpath import dirname, join, normpath
from statistics import median_low
from typing import NamedTuple

ROOT = Path(__file__).resolve().parents[2]
AIM_KB = 60
MISSING = "404.html"  # names its files from the root of a server, wherever it stands
ASKED = re.compile(r'<(?:script[^>]* src|link rel="stylesheet"[^>]* href)="([^"]+)"')


class Weight(NamedTuple):
    """One page: compressed first, so that pages are ordered by it."""

    gzipped: int
    raw: int
    own: int  # compressed files it asks for that are not shared
    url: str


def weigh(site: Path) -> tuple[dict[str, list[Weight]], dict[str, int]]:
    """Return the pages by kind, and the shared files with their compressed sizes."""
    files = [path for path in site.rglob("*.html") if path.name != MISSING]
    texts = {file.relative_to(site).as_posix(): file.read_text("utf-8") for file in files}
    asked = {
        url: {normpath(join(dirname(url), one)) for one in ASKED.findall(text)}
        for url, text in texts.items()
    }
    uses = Counter(file for files in asked.values() for file in files)
    size = {file: packed((site / file).read_bytes()) for file in uses}
    shared = {file for file, times in uses.items() if times * 2 > len(texts)}
    kinds: dict[str, list[Weight]] = {}
    for url, text in texts.items():
        raw, own = text.encode(), sum(size[file] for file in asked[url] - shared)
        kinds.setdefault(kind_of(url), []).append(Weight(packed(raw), len(raw), own, url))
    return kinds, {file: size[file] for file in sorted(shared)}


def kind_of(url: str) -> str:
    """The folder of a page, or its own name at the root; lists are a kind of their own."""
    folder, _, name = url.rpartition("/")
    return url if not folder else f"{folder}/" + ("index" if name == "index.html" else "")


def packed(content: bytes) -> int:
    """Bytes after compression."""
    return len(gzip.compress(content, 6, mtime=0))


def kb(size_bytes: int) -> str:
    """Thousands of bytes with one decimal."""
    return f"{size_bytes / 1000:7.1f}"


def main() -> None:
    """Weigh a site and print the table."""
    with tempfile.TemporaryDirectory() as folder:
        site = Path(sys.argv[1]) if len(sys.argv) > 1 else Path(folder) / "site"
        if len(sys.argv) < 2:
            command = [sys.executable, "-m", "builder", "build", "pinouts", "--output", str(site)]
            subprocess.run(command, cwd=ROOT, check=True, stdout=subprocess.DEVNULL)
        kinds, shared = weigh(site)
    print("kB                         median           largest          largest")
    print("kind               pages   raw    gzip      raw    gzip   with own   page")
    for kind, pages in sorted(kinds.items()):
        middle, most = median_low(pages), max(pages, key=lambda page: page.gzipped + page.own)
        print(
            f"{kind:18} {len(pages):5} {kb(middle.raw)}{kb(middle.gzipped)} "
            f"{kb(most.raw)}{kb(most.gzipped)}    {kb(most.gzipped + most.own)}   {most.url}"
        )
    print(f"shared by most pages: {kb(sum(shared.values())).strip()} kB gzip: {', '.join(shared)}")
    heaviest = max(page.gzipped + page.own for page in kinds["vehicles/"])
    print(f"heaviest vehicle page: {kb(heaviest).strip()} kB of {AIM_KB} kB")


if __name__ == "__main__":
    main()
