"""Signed visits: real keys, real signatures, and what makes one fail."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
from pathlib import Path
from typing import Any

import pytest
from shipped_book import FOLDERS_OF_PARTS, PINOUTS, loombook
from shipped_cars import copy_car, typed_in_one

from builder.book import open_book
from builder.findings import Severity
from builder.model.contributor import PUBLIC_KEY
from builder.pipeline.checking.records import read_record
from builder.pipeline.checking.signatures import Signatures, check_signatures
from builder.pipeline.checking.visit_text import visit_text

TEASEL, SHOP, OTHER = "cindral-teasel-2023", "hollow-lane-garage", "tinroof-sound"


@pytest.fixture(scope="session")
def keys(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A key for each of two shops, and one that nobody registered."""
    folder = tmp_path_factory.mktemp("keys")
    for name, kind in ((SHOP, "ed25519"), (OTHER, "ecdsa"), ("stranger", "ed25519")):
        made = [
            "ssh-keygen",
            "-q",
            "-t",
            kind,
            "-N",
            "",
            "-C",
            "jo@bench",
            "-f",
            str(folder / name),
        ]
        subprocess.run(made, check=True)
    return folder


@pytest.fixture
def book(tmp_path: Path, keys: Path) -> Path:
    """One shipped car; both shops that measured it have a key."""
    folder = tmp_path / "book"
    for kind in FOLDERS_OF_PARTS:
        shutil.copytree(PINOUTS / kind, folder / kind)
    copy_car(folder, TEASEL)
    typed_in_one(folder)
    for name in (SHOP, OTHER):
        record = folder / "contributors" / f"{name}.yaml"
        public = " ".join((keys / f"{name}.pub").read_text("utf-8").split()[:2])
        assert re.search(PUBLIC_KEY.schema["pattern"], public)
        record.write_text(f"{record.read_text('utf-8')}public_keys: [{public}]\n", "utf-8")
    return folder


def car(book: Path) -> Path:
    return book / "vehicles" / "cindral" / f"{TEASEL}.yaml"


def visits(book: Path) -> dict[str, str]:
    """The handle of each visit of the car."""
    (read,) = [read_record(f) for f in open_book(book).files() if f.name == ("vehicle", TEASEL)]
    return {each["id"]: each["by"] for each in read.data["sessions"]}


def sign(book: Path, keys: Path, visit: str, by: str = "") -> Any:
    key = keys / (by or visits(book)[visit])
    return loombook("sign", TEASEL, visit, "--key", key, "-b", book)


def looked(book: Path) -> Signatures:
    opened = open_book(book)
    return check_signatures(opened, opened.files())


def told(book: Path) -> list[str]:
    return sorted(finding.rule_id for finding in looked(book).findings)


def edit(place: Path, old: str, new: str) -> None:
    text = place.read_text("utf-8")
    assert old in text
    place.write_text(text.replace(old, new, 1), "utf-8")


def test_every_visit_signed_by_its_contributor_holds(book: Path, keys: Path):
    known = visits(book)
    for visit in known:
        assert sign(book, keys, visit).exit_code == 0
    found = looked(book)
    assert (found.findings, found.visits) == ([], len(known))
    done = loombook("check", "--signatures", "-b", book)
    assert f"signed and verified: {len(known)} visits, 0 records" in done.stderr


def test_a_contributor_with_a_key_who_did_not_sign_is_noted(book: Path, keys: Path):
    first, *rest = visits(book)
    assert sign(book, keys, first).exit_code == 0
    found = looked(book)
    assert [f.rule_id for f in found.findings] == ["BOK123"] * len(rest)
    assert all(f.severity is Severity.NOTE for f in found.findings)
    assert f"loombook sign {TEASEL} {rest[0]} --key FILE" == found.findings[0].help


@pytest.mark.parametrize("what", ["figure", "date", "cavity", "handle"])
def test_a_changed_visit_does_not_hold(book: Path, keys: Path, what: str):
    visit, by = next(iter(visits(book).items()))
    assert sign(book, keys, visit).exit_code == 0
    text = car(book).read_text("utf-8")
    reading = next(line for line in text.splitlines() if f"session: {visit}," in line)
    figure = re.search(r"value: ([0-9.]+)", text[text.index(reading) :])
    assert figure is not None
    at = text.index(reading) + figure.start()
    if what == "figure":
        changed = f"{text[:at]}value: {figure[1]}1{text[at + len(figure[0]) :]}"
        car(book).write_text(changed, "utf-8")
    elif what == "date":
        day = re.search(rf"  - id: {visit}\b.*\n    by: .*\n    date: (\S+)", text)
        assert day is not None
        edit(car(book), day[0], day[0].replace(day[1], "2023-12-31"))
    elif what == "handle":
        edit(car(book), f"by: {by}", f"by: {OTHER if by == SHOP else SHOP}")
    else:
        edit(car(book), "      - cavity: 13\n", "      - cavity: 77\n")
    wrong = [f for f in looked(book).findings if f.rule_id == "BOK121"]
    assert len(wrong) == 1 and f"{TEASEL}.{visit}.sig is no signature by" in wrong[0].message
    assert loombook("check", "--signatures", "-b", book).exit_code == 1


def test_layout_and_what_others_add_change_nothing(book: Path, keys: Path):
    visit = next(iter(visits(book)))
    assert sign(book, keys, visit).exit_code == 0
    text = car(book).read_text("utf-8")
    claim = f"{{by: {OTHER}, date: 2024-01-05, method: paper, says: constant}}"
    text = re.sub(r"(\n      - cavity: [^\n]*)", r"\1   # seen again", text)
    text = re.sub(r"value: ([0-9]+)\.([0-9]+)", r"value: \1.\g<2>0", text)
    text = text.replace("        readings:\n", f"        claims: [{claim}]\n        readings:\n", 1)
    car(book).write_text(text, "utf-8")
    found = looked(book)
    assert found.visits == 1 and "BOK121" not in told(book)


def test_nobody_signs_for_another(book: Path, keys: Path):
    visit, by = next(iter(visits(book).items()))
    for stranger in ("stranger", OTHER if by == SHOP else SHOP):
        done = sign(book, keys, visit, stranger)
        assert done.exit_code == 2 and f"is none of {by}" in done.output
    forged = _signature(book, keys / "stranger", visit, "loombook")
    place = car(book).with_name(f"{TEASEL}.{visit}.sig")
    place.write_bytes(forged)
    assert "BOK121" in told(book)
    place.write_bytes(_signature(book, keys / by, visit, "git"))  # made for another purpose
    assert "BOK121" in told(book)
    place.write_bytes(_signature(book, keys / by, visit, "loombook"))
    assert "BOK121" not in told(book)
    place.write_bytes(b"no signature at all")
    assert "BOK121" in told(book)


def _signature(book: Path, key: Path, visit: str, purpose: str) -> bytes:
    (read,) = [read_record(f) for f in open_book(book).files() if f.name == ("vehicle", TEASEL)]
    signed = ["ssh-keygen", "-Y", "sign", "-q", "-f", str(key), "-n", purpose]
    done = subprocess.run(
        signed, input=visit_text(read.data, visit), capture_output=True, check=True
    )
    return done.stdout


def test_a_key_that_was_taken_out_verifies_nothing_more(book: Path, keys: Path):
    visit, by = next(iter(visits(book).items()))
    assert sign(book, keys, visit).exit_code == 0
    record = book / "contributors" / f"{by}.yaml"
    record.write_text(re.sub(r"public_keys: .*\n", "", record.read_text("utf-8")), "utf-8")
    (wrong,) = [f for f in looked(book).findings if f.rule_id == "BOK121"]
    assert wrong.message.endswith(f"{by} has no public key in contributors")


def test_a_signature_of_nothing_is_told(book: Path, keys: Path):
    visit = next(iter(visits(book)))
    assert sign(book, keys, visit).exit_code == 0
    place = car(book).with_name(f"{TEASEL}.{visit}.sig")
    place.rename(car(book).with_name(f"{TEASEL}.zz.sig"))
    shutil.copy(car(book).with_name(f"{TEASEL}.zz.sig"), book / "cables" / "gone.yaml.sig")
    said = {Path(f.file).name: f.message for f in looked(book).findings if f.rule_id == "BOK122"}
    assert said == {
        f"{TEASEL}.zz.sig": "this signature is of no visit of it",
        "gone.yaml.sig": "this signature is of no record",
    }


def test_a_whole_file_is_signed_by_any_contributor(book: Path, keys: Path):
    cable = book / "cables" / "twin-16.yaml"
    signed = ["ssh-keygen", "-Y", "sign", "-q", "-f", str(keys / OTHER), "-n", "loombook"]
    subprocess.run([*signed, str(cable)], check=True, capture_output=True)
    assert looked(book).records == 1
    with cable.open("a", encoding="utf-8") as file:
        file.write("# one more line\n")
    assert looked(book).records == 0
    assert "BOK121" in told(book)


def test_an_unsigned_book_works_as_before(tmp_path: Path):
    plain, asked = (loombook("check", "-b", PINOUTS, *more) for more in ((), ("--signatures",)))
    assert plain.stdout == asked.stdout and plain.exit_code == asked.exit_code
    assert "signed and verified: 0 visits, 0 records" in asked.stderr


def test_without_ssh_keygen_it_says_what_to_install(
    book: Path, keys: Path, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
):
    visit = next(iter(visits(book)))
    assert sign(book, keys, visit).exit_code == 0
    monkeypatch.setitem(os.environ, "PATH", str(tmp_path))
    done = loombook("check", "--signatures", "-b", book)
    assert done.exit_code == 1 and "Install OpenSSH" in done.stderr
    assert "Traceback" not in done.output
    other = list(visits(book))[1]
    assert "Install OpenSSH" in sign(book, keys, other).output


def test_what_cannot_be_signed_is_told(book: Path, keys: Path):
    visit, by = next(iter(visits(book).items()))
    unknown = loombook("sign", TEASEL, f"{visit}x", "--key", keys / by, "-b", book)
    assert unknown.exit_code == 2 and f"did you mean {visit}?" in unknown.output
    assert sign(book, keys, visit).exit_code == 0
    again = sign(book, keys, visit)
    assert again.exit_code == 2 and "delete it to sign again" in again.output
    no_key = keys / "no-key"
    no_key.write_text("nothing\n", "utf-8")
    (other,) = list(visits(book))[1:2]
    refused = loombook("sign", TEASEL, other, "--key", no_key, "-b", book)
    assert refused.exit_code == 2 and "made no signature" in refused.output
