"""The finder on a large book: bytes to fetch, and time to answer while one types.

Run: python tests/benchmarks/bench_finder.py [vehicles]

Prints sizes (raw and as gzip -9 would send them) and, in Chromium with its processor slowed four
times, how long the page takes to start and to answer each keystroke. A question is typed once to
fetch the parts that it needs, then three times into a finder that remembers nothing of it; of the
three the least counts, since other work on the machine only adds. With layout, in the site's style.
Times are of this machine; nothing here is asserted. The book is invented:
`generated_entries.py` says what it assumes.
"""

from __future__ import annotations

import gzip
import json
import statistics
import sys
import tempfile
from pathlib import Path
from typing import NamedTuple

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT / "tests" / "browser"), str(ROOT)]

from chromium import Browser  # noqa: E402
from generated_entries import made_entries  # noqa: E402

from builder.finder.entries import Entry  # noqa: E402
from builder.pipeline.site.finder_files import finder_files  # noqa: E402
from builder.rendering.find_pages import FINDER_SCRIPTS  # noqa: E402
from builder.rendering.styles import site_style  # noqa: E402

SLOWER = 4
# The field and the places for answers as on the home page, which has the list of makes too.
PAGE = """<!doctype html><meta charset="utf-8"><link rel="stylesheet" href="style.css">
<div id="makes"></div><input id="finder-field">
<div id="finder" class="finder"><p id="finder-status"></p><div id="finder-recent"></div>
<div id="finder-path"></div><div id="finder-answers"></div></div>"""
START = """
  const begin = performance.now();
  (0, eval)(arguments[0]);
  const read = performance.now();
  for (const text of arguments[1]) (0, eval)(text);
  document.getElementById("finder-path").offsetHeight;
  return [read - begin, performance.now() - read];
"""
TYPE = """
  const done = arguments[1], field = document.getElementById("finder-field");
  const shown = document.getElementById("finder-answers"), times = [];
  const anew = () => {
    const book = window.loombookBook, data = book.data();
    window.loombookFinder.load(data, data.parts.map((_, number) => book.part(number)));
  };
  const parts = () => new Promise(ready => {
    const look = () => document.getElementById("finder-status").textContent.startsWith("Fetching")
      ? setTimeout(look, 10) : ready();
    look();
  });
  (async () => {
    for (const text of arguments[0]) {
      const least = Array(text.length).fill(Infinity);
      for (let turn = 0; turn < 4; turn++) {
        anew();
        for (let end = 1; end <= text.length; end++) {
          field.value = text.slice(0, end);
          const begin = performance.now();
          field.dispatchEvent(new Event("input"));
          shown.offsetHeight;
          if (turn) least[end - 1] = Math.min(least[end - 1], performance.now() - begin);
          await parts();
        }
      }
      least.forEach((ms, at) => times.push([ms, text.slice(0, at + 1)]));
    }
    done(times);
  })();
"""


def report_sizes(files: dict[str, bytes]) -> None:
    """Print the index and what in it is large, the largest part, and all parts together."""
    packed = {url: len(gzip.compress(content, 9)) for url, content in files.items()}
    index = "assets/finder-data.js"
    parts = [url for url in files if url != index]
    largest = max(parts, key=lambda url: packed[url])
    for name, urls in (("index", [index]), ("largest part", [largest]), ("all parts", parts)):
        raw, sent = sum(len(files[u]) for u in urls), sum(packed[u] for u in urls)
        print(f"{name:14}{raw / 1024:9.0f} KB {sent / 1024:8.1f} KB gzip   {len(urls)} files")
    first = packed[index] + packed[largest]
    print(f"first answer  {first / 1024:22.1f} KB gzip   index and the largest part")
    report_index(files[index])


def report_index(script: bytes) -> None:
    """Print each piece of the index that is more than a fiftieth of it."""
    index = json.loads(script.partition(b"=")[2].rstrip(b";\n"))
    pieces = {**index, **{f"column {name}": each for name, each in index.pop("columns").items()}}
    pieces.pop("columns")
    packed = {
        name: len(gzip.compress(json.dumps(each).encode(), 9)) for name, each in pieces.items()
    }
    for name, size in sorted(packed.items(), key=lambda each: -each[1]):
        if size * 50 > sum(packed.values()):
            print(f"  {name:18}{size / 1024:18.1f} KB gzip")


def questions(entries: list[Entry]) -> list[str]:
    """Cars of the book asked for in several ways, and questions that name no car."""
    cars = [entries[at] for at in range(0, len(entries), max(1, len(entries) // 5))][:5]
    asked = ["switched", "ground", "switched and ground", "illumination", "A4"]
    named = [
        f"{c.make} {c.model} {c.year_from} {a}".lower() for c, a in zip(cars, asked, strict=True)
    ]
    slip = cars[0].model[:2] + cars[0].model[3:] + " swithced"
    return [*named, slip.lower(), "2010 mute", "switched", "hatch base red/black", "zzzz qqqq"]


class Times(NamedTuple):
    """What the field takes in ms: to read the index, to start, and each keystroke with its text;
    and the memory of the page after the last of them."""

    read_ms: float
    start_ms: float
    keys: list[tuple[float, str]]
    heap_bytes: float

    @property
    def median_ms(self) -> float:
        """Half of the keystrokes take less."""
        return statistics.median(ms for ms, _ in self.keys)


def time_typing(files: dict[str, bytes], entries: list[Entry]) -> Times:
    """Start the finder of a book in a slowed Chromium and type questions; keystrokes are sorted."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        (folder / "assets").mkdir()
        (folder / "index.html").write_text(PAGE, "utf-8")
        (folder / "style.css").write_text(site_style(), "utf-8")
        for url, content in files.items():
            (folder / url).write_bytes(content)
        browser = Browser()
        try:
            return _typed(browser, folder, entries)
        finally:
            browser.driver.quit()


def _typed(browser: Browser, folder: Path, entries: list[Entry]) -> Times:
    theme = ROOT / "site_templates" / "theme"
    scripts = [theme / Path(url).name for url in FINDER_SCRIPTS]
    code = [script.read_text("utf-8") for script in scripts if script.is_file()]  # not the data
    browser.driver.set_script_timeout(600)
    browser.driver.execute_cdp_cmd("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
    browser.open((folder / "index.html").as_uri())
    index = (folder / "assets" / "finder-data.js").read_text("utf-8")
    read, started = browser.run(START, index, code)  # type: ignore[misc]
    timed = browser.driver.execute_async_script(TYPE, questions(entries))
    heap = float(browser.run("return performance.memory.usedJSHeapSize"))  # type: ignore[arg-type]
    return Times(read, started, sorted((float(ms), str(text)) for ms, text in timed), heap)


def report_times(times: Times) -> None:
    """Print start and keystroke times."""
    print(f"read index     {times.read_ms:6.0f} ms")
    print(f"start          {times.start_ms:6.0f} ms, with the choice of makes drawn")
    print(f"keystrokes     {len(times.keys):6d}")
    print(f"median         {times.median_ms:6.1f} ms")
    print(f"19 of 20 under {times.keys[int(len(times.keys) * 0.95)][0]:6.1f} ms")
    print(f"memory         {times.heap_bytes / 1e6:6.0f} MB")
    for ms, text in times.keys[-3:][::-1]:
        print(f"slowest        {ms:6.1f} ms   {text!r}")


def main() -> None:
    """Make the entries, print sizes and times."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 10_000
    entries = made_entries(count)
    files = dict(finder_files(entries))
    rows = sum(len(entry.rows) for entry in entries)
    print(f"{count} vehicles, {rows} rows, processor slowed {SLOWER} times")
    report_sizes(files)
    report_times(time_typing(files, entries))


if __name__ == "__main__":
    main()
