"""`check`, `show` and `build` on a generated book, beside a generic schema-checking command.

Run: python tests/benchmarks/bench_book.py [vehicles]

Prints seconds of this run and the ratios between them; machines differ and drift, so only
the ratios are worth quoting. Nothing here is asserted.
"""

from __future__ import annotations

import json
import re
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from generated_book import make_book

ROOT = Path(__file__).resolve().parents[2]
TOOLS = Path(sys.executable).parent
SMALL = 20
"""Vehicles of the book that answers are compared with."""


def seconds(*command: str | Path) -> tuple[float, str]:
    """Run a command and return how long it took and the last line it printed."""
    start = time.perf_counter()
    done = subprocess.run([str(c) for c in command], capture_output=True, text=True, check=False)
    lines = (done.stdout or done.stderr).strip().splitlines()
    return time.perf_counter() - start, lines[-1] if lines else ""


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


def kept_rows(book: Path, files: list[Path], first: float, small: Path) -> None:
    """What the store of a book saves: nothing changed, one edit, one vehicle of many."""
    check = (TOOLS / "loombook", "check", book)
    again, _ = seconds(*check)
    print(f"unchanged again  {again:7.2f} s   ratio of the first to it {first / again:.1f}")
    files[0].write_text(files[0].read_text("utf-8") + "# looked at\n", "utf-8")
    edited, _ = seconds(*check)
    print(f"after one edit   {edited:7.2f} s   ratio of the first to it {first / edited:.1f}")
    few = sorted((small / "vehicles").rglob("*.yaml"))
    seconds(TOOLS / "loombook", "check", small)
    of_few, _ = seconds(TOOLS / "loombook", "show", few[0].stem, "--book", small)
    of_many, _ = seconds(TOOLS / "loombook", "show", files[0].stem, "--book", book)
    ratio = of_many / of_few
    print(f"show             {of_many:7.2f} s   ratio to one of {SMALL} vehicles {ratio:.1f}")


def built_again(book: Path, files: list[Path], site: Path, first: float) -> None:
    """What a build spares: nothing changed, one edit; and what writing the same bytes takes."""
    build = (TOOLS / "loombook", "build", book, "--output", site)
    again, _ = seconds(*build)
    print(f"unchanged again  {again:7.2f} s   {again / first:.1%} of the first")
    files[0].write_text(re.sub("(?m)^variant: ", "variant: New ", files[0].read_text("utf-8")))
    edited, _ = seconds(*build)
    print(f"after one edit   {edited:7.2f} s   {edited / first:.1%} of the first")
    contents = [path.read_bytes() for path in sorted(site.rglob("*")) if path.is_file()]
    plain = site.with_name("plain")
    plain.mkdir()
    start = time.perf_counter()
    for number, content in enumerate(contents):
        (plain / str(number)).write_bytes(content)
    written = time.perf_counter() - start
    size, per_vehicle = sum(map(len, contents)), sum(map(len, contents)) / len(files)
    print(f"plain write      {written:7.2f} s   {size / 1e6:.0f} MB in {len(contents)} files")
    print(f"a vehicle        {per_vehicle / 1000:7.0f} kB of site")


def main() -> None:
    """Make the book, time the commands, print the table."""
    vehicles = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    with tempfile.TemporaryDirectory() as folder:
        book = make_book(Path(folder) / "book", vehicles)
        files = sorted((book / "vehicles").rglob("*.yaml"))
        schema = one_file_schema(Path(folder))
        check, said = seconds(TOOLS / "loombook", "check", book)
        print(f"check            {check:7.2f} s   {said}")
        kept_rows(book, files, check, make_book(Path(folder) / "small", SMALL))
        generic, _ = seconds(TOOLS / "check-jsonschema", "--schemafile", schema, *files)
        print(f"generic command  {generic:7.2f} s   ratio to check {generic / check:.1f}")
        site = Path(folder) / "site"
        build, said = seconds(TOOLS / "loombook", "build", book, "--output", site)
        print(f"build            {build:7.2f} s   {said}")
        pages = sum(1 for _ in site.rglob("*.html"))
        print(f"pages            {pages:7d}     {pages / build:.0f} a second, check included")
        most = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1000
        print(f"memory           {most:7.0f} MB  of the largest process of all these")
        built_again(book, files, site, build)


if __name__ == "__main__":
    main()
