"""A hundred spoilt recordings, each with what is said of it.

    .venv/bin/python tests/long/spoilt_recordings.py              a line for each
    .venv/bin/python tests/long/spoilt_recordings.py --write      keeps the table as a file

They are made in `tests/sound_spoilt.py`. The exit code is 1 when one of them is not told for the
reason that it has.
"""

from __future__ import annotations

import argparse
import sys
from collections import Counter
from pathlib import Path

HERE = Path(__file__).resolve()
sys.path[:0] = [str(HERE.parents[1]), str(HERE.parents[2]), str(HERE.parent)]

from sound_cars import commit  # noqa: E402
from sound_spoilt import WAYS, Spoilt, is_told, told_of  # noqa: E402

KEPT = HERE.with_suffix(".md")
HEAD = """# Spoilt recordings

Written by `python tests/long/spoilt_recordings.py --write` at {commit}: {count} recordings, {wrong}
of them not told for the reason that they have. Refused is what nothing is read from; marked is what
is read as far as it can be, the rest with the reason.

| spoilt | recordings | refused | marked | has to be said |
|---|--:|--:|--:|---|
"""


def main() -> int:
    """Print what is said of each, then how many of each way were refused and marked."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--write", action="store_true", help="keep the table")
    given = asked.parse_args()
    state, counts, wrong = commit(), Counter[tuple[str, str, bool]](), 0
    for spoilt in (each for way in WAYS for each in way()):
        said = told_of(spoilt)
        missed = not is_told(spoilt, said)
        wrong += missed
        mark = "NOT TOLD: " if missed else ""
        print(f"{spoilt.way}, {spoilt.number}: {mark}{said}", flush=True)
        counts[spoilt.way, _wanted(spoilt), said.startswith("refused")] += 1
    head = HEAD.format(commit=state, count=sum(counts.values()), wrong=wrong)
    ways = dict.fromkeys((way, told) for way, told, _ in counts)
    text = head + "".join(
        f"| {way} | {counts[way, told, True] + counts[way, told, False]} "
        f"| {counts[way, told, True]} | {counts[way, told, False]} | {told} |\n"
        for way, told in ways
    )
    print(text)
    if given.write:
        KEPT.write_text(text, "utf-8")
    return int(wrong > 0)


def _wanted(spoilt: Spoilt) -> str:
    return "the name of the part" if spoilt.way == "muted" else spoilt.told


if __name__ == "__main__":
    sys.exit(main())
