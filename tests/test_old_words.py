"""No invented name of this repository is one that something real has, as earlier ones were.

The names that were found too near to a real maker, model, radio, amplifier, shop or tool are kept
as hashes, so that nobody meets them here again. Only the table of old names in the book of examples
still says some of them: other books may name them.
"""

from __future__ import annotations

import re
import subprocess
from collections.abc import Iterator
from hashlib import sha256
from pathlib import Path

from shipped_book import PINOUTS, ROOT

from builder.book import open_book

OLD = frozenset(
    [
        "06cca3daa6a7169f98b5",
        "0842adb8cba8ba08be66",
        "08d2a89e391e4a6adcec",
        "0b480ae34e3887ea01fe",
        "22937e3232dca9db49a2",
        "2565d4a25962949c3f19",
        "2a1f0b59dd6dd62cfe00",
        "2e8b2b81fa4a22aa01d9",
        "2fc84a28bab12d743537",
        "349375e7861fb5cd5792",
        "46a0e66b98615ad70154",
        "478cc1059b7388321171",
        "56e2b5b1f26336d70491",
        "5cb0f32b4c03049e5394",
        "62c277a7c43a0a90ff6e",
        "77d1eefaf7e6e91b0f4d",
        "7c0e760477e6fc7c9701",
        "7cadc15d609c4ae9b4be",
        "8a995878c2744626cfcc",
        "908aa043e7c01be31fc6",
        "9407bcf988ba7cf9081b",
        "a08de976b8a52c8e4b3f",
        "a61c5ff69d9616beea94",
        "b84f801699711c5cd862",
        "ba03b2f68bc599651260",
        "c6216a1681170b6dc7a4",
        "ce7367eb8ede92c7c188",
        "d1beb3f8365394352c09",
        "d2eed2cc6b7d9d6f9c28",
        "daeb1e8b230e415fed9b",
        "db2f7e1345bb07e36099",
        "de8917228d6e51ffccbd",
        "dfeeb73d6a4ef6e0e999",
        "e5d8af1bbc2b62145afe",
        "ecc9bddb65dc44516ca3",
        "f38e5194832c29fd729b",
        "f53073d20f2fac7849d0",
        "f68bb7f3c5d9c503f720",
        "fa3c2684f6437e2a7b69",
    ]
)
"""The first 20 digits of SHA-256 over a word in small letters, or over two with a space between."""

TABLE = re.compile(r"^  - \{kind: \w+, was: [a-z0-9-]+, now: [a-z0-9-]+\}$", re.M)
_ESCAPE = re.compile(r"\\(?:x[0-9a-f]{2}|u[0-9a-f]{4})")
_WORD = re.compile(r"[a-z0-9]+")
_PAIR = re.compile(r"(?=(?<![a-z0-9])([a-z0-9]+)[^a-z0-9\n]{1,2}([a-z0-9]+))")


def hashed(words: str) -> str:
    return sha256(words.encode()).hexdigest()[:20]


def words_of(text: str) -> set[str]:
    """Every word, its letters alone, and every two words with a sign or two between them."""
    plain = _ESCAPE.sub(" ", text.lower())
    return {
        *_WORD.findall(plain),
        *re.findall("[a-z]+", plain),
        *(f"{first} {second}" for first, second in _PAIR.findall(plain)),
    }


def old_words_in(text: str) -> list[str]:
    return sorted(word for word in words_of(text) if hashed(word) in OLD)


def tracked_texts() -> Iterator[tuple[str, str]]:
    """The name and text of each file that is kept, pictures left out."""
    listed = subprocess.run(
        ["git", "ls-files", "-z"], cwd=ROOT, capture_output=True, check=True, text=True
    )
    for name in filter(None, listed.stdout.split("\0")):
        path = ROOT / name
        raw = path.read_bytes() if path.is_file() and not path.is_symlink() else b""
        if b"\0" not in raw:
            yield name, raw.decode("utf-8", "replace")


def test_no_file_has_an_old_name_but_the_table_of_them():
    found = {}
    for name, text in tracked_texts():
        said = (
            TABLE.sub("", text) if Path(name) == (PINOUTS / "book.yaml").relative_to(ROOT) else text
        )
        if old := old_words_in(f"{name}\n{said}"):
            found[name] = old
    assert found == {}


def test_the_search_sees_a_name_in_every_form():
    (was, *_), now = next(
        (was.split("-"), now)
        for (kind, was), now in open_book(PINOUTS).renamed.items()
        if kind == "vehicle" and hashed(was.split("-")[0]) in OLD
    )
    parts = [was for kind, was in open_book(PINOUTS).renamed if kind == "converter"]
    for text in (
        was,
        was.upper(),
        f"x-{was}-1",
        f"{was}_x",
        f"{was}'s",
        f"\\u200f{was}",
        f"{was}2",
    ):
        assert old_words_in(text) == [was], text
    for part in parts:
        for text in (
            part,
            part.upper(),
            part.replace("-", "_"),
            part.replace("-", " "),
            f"x--{part}.html",
        ):
            assert old_words_in(text), text
    assert old_words_in(f"{now} mis{was}ing {was}r") == []
    assert len(OLD) >= 30
