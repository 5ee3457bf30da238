"""Bytes, encodings, sizes and files."""

from __future__ import annotations

import hashlib
import os

import pytest

from builder.loading import load_file, load_text

LARGEST = 1_048_576


def only(loaded):
    (finding,) = loaded.findings
    assert loaded.data is None
    return finding.rule_id, finding.line, finding.column


def test_text_and_its_bytes_are_read_alike(load):
    text = "a: é\n"
    assert load(text).data == load(text.encode()).data == {"a": "é"}
    assert load(text).digest == hashlib.sha256(text.encode()).hexdigest()


def test_byte_order_mark_of_utf8_is_skipped_but_counts_in_the_digest(load):
    raw = b"\xef\xbb\xbfa: 1\n"
    loaded = load(raw)
    assert (loaded.data, loaded.findings) == ({"a": 1}, [])
    assert loaded.digest == hashlib.sha256(raw).hexdigest()


@pytest.mark.parametrize("encoding", ["utf-16", "utf-16-le", "utf-16-be", "utf-32-le"])
def test_wider_encodings_are_refused(load, encoding):
    assert only(load("\ufeffschema: 1\n".encode(encoding))) == ("YML101", 1, 1)


def test_utf16_without_its_mark_is_refused_for_its_nulls(load):
    assert {f.rule_id for f in load("a: 1\n".encode("utf-16-le")).findings} == {"YML104"}


@pytest.mark.parametrize(
    ("raw", "byte", "place"),
    [
        (b"a: \xe9\n", "0xE9", (1, 4)),
        ("ä: 1\nöö: ".encode() + b"\xff", "0xFF", (2, 5)),
        ("ä: 1\r\nöö: ".encode() + b"\xc3", "0xC3", (2, 5)),
        (b"\xef\xbb\xbfa: \x80", "0x80", (1, 4)),
        (b"a: \xed\xa0\x80", "0xED", (1, 4)),
        (b"a: \xc0\x80", "0xC0", (1, 4)),
    ],
)
def test_bytes_that_are_no_utf8_are_named_with_their_place(load, raw, byte, place):
    loaded = load(raw)
    assert only(loaded) == ("YML101", *place)
    assert byte in loaded.findings[0].message


def test_half_a_character_in_text_is_refused_too(load):
    assert only(load("a: \ud800")) == ("YML101", 1, 4)


def test_size_limit_is_exact(load):
    fill = b"a: 1\n#" + b"x" * (LARGEST - 6)
    assert load(fill).data == {"a": 1}
    assert only(load(fill + b"x")) == ("YML102", 1, 1)


def test_file_is_shown_under_the_name_asked_for(tmp_path):
    path = tmp_path / "car.yaml"
    path.write_bytes(b"a: 1\na: 2\n")
    loaded = load_file(path, "vehicles/car.yaml")
    assert [finding.file for finding in loaded.findings] == ["vehicles/car.yaml"]
    assert loaded.digest == load_text(b"a: 1\na: 2\n", "x").digest


def test_large_file_is_not_read_to_its_end(tmp_path):
    path = tmp_path / "large.yaml"
    with path.open("wb") as stream:
        stream.truncate(LARGEST * 1000)  # a hole: it takes no room on disk
    assert only(load_file(path, "large.yaml")) == ("YML102", 1, 1)


def test_what_is_no_readable_file_is_a_finding(tmp_path):
    assert only(load_file(tmp_path / "none.yaml", "none.yaml")) == ("YML103", 1, 1)
    assert only(load_file(tmp_path, "folder")) == ("YML103", 1, 1)
    assert only(load_file(tmp_path / "a\0b", "name")) == ("YML103", 1, 1)


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes with names here")
def test_a_pipe_is_not_waited_for(tmp_path):
    os.mkfifo(tmp_path / "pipe.yaml")
    assert only(load_file(tmp_path / "pipe.yaml", "pipe.yaml")) == ("YML103", 1, 1)
