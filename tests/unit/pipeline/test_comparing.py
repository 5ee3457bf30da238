"""`diff`: what changed in words, for pins, for the plans made of them, and since a revision."""

from __future__ import annotations

import json
import shutil
import subprocess
from pathlib import Path

import pytest
from shipped_book import PINOUTS, loombook
from visited_book import Data, data_of, visit_files, write

from builder.book import open_book
from builder.pipeline.comparing.past_book import past_book

TANSY = "ostrel-tansy-2017-hatch-base"
CAR = Path("vehicles") / "ostrel" / f"{TANSY}.yaml"
VISIT = Path("visits") / TANSY / "alder-pit-audio-2023-04-18-k7m2.yaml"
OTHER_VISIT = VISIT.with_name("bay-four-sound-2024-10-02-plum-9.yaml")


@pytest.fixture
def old(small_book: Path) -> Path:
    (small_book / "jobs").mkdir()
    shutil.copy(PINOUTS / "jobs" / "tansy-subwoofer.yaml", small_book / "jobs")
    return small_book


@pytest.fixture
def new(old: Path, tmp_path: Path) -> Path:
    return Path(shutil.copytree(old, tmp_path / "new"))


def change(path: Path, before: str, after: str, after_text: str = "") -> None:
    """Change the first `before` that stands behind `after_text`."""
    text = path.read_text("utf-8")
    start = text.index(after_text)
    assert before in text[start:], before
    path.write_text(text[:start] + text[start:].replace(before, after, 1), "utf-8")


def said(*arguments: str | Path) -> str:
    done = loombook("diff", *arguments)
    assert done.exit_code == 1, done.output
    return done.output


def test_the_same_book_has_not_changed(old, new):
    done = loombook("diff", old, new)
    assert (done.exit_code, done.output) == (0, "nothing changed\n")


def test_comments_and_order_of_keys_are_no_change(old, new):
    change(new / CAR, "factory_amplifier:", "# a remark\nfactory_amplifier:")
    done = loombook("diff", old, new)
    assert (done.exit_code, done.output) == (0, "nothing changed\n")


def test_a_function_changes_and_with_it_grade_and_turn_on(old, new):
    change(new / CAR, "function: retained", "function: accessory")
    lines = said(old, new).splitlines()
    assert lines[0] == f"vehicle {TANSY}"
    assert "  A.7 function: retained supply → accessory supply" in lines
    assert "  A.7 grade: proven 0.96 → don't rely 0.00" in lines
    plan = lines[lines.index(f"plan {TANSY} with cvn-2a") :]
    assert plan[1].startswith("  kind: tap plan → probe plan (don't rely: nobody supports it")
    assert "  turn-on: retained supply A.7 → none" in plan
    assert "work pack tansy-subwoofer" in lines


def test_wire_and_readings_are_told_with_their_place(old, new):
    change(new / CAR, "stripe: white", "stripe: violet", "- cavity: 1\n")
    change(new / VISIT, "value: 6.41,", "value: 6.44,", "cavity: 2\n")
    text = said(old, new)
    assert "A.1 wire: brown/white → brown/violet" in text
    assert "A.2 reading gone: radio on, volume zero: 6.41 V, battery 12.42 V, visit s1" in text
    assert "A.2 reading added: radio on, volume zero: 6.44 V, battery 12.42 V, visit s1" in text
    assert "A.3" not in text.split("\n\n")[0]


def test_a_pin_that_goes_is_gone_and_its_feed_with_it(old, new):
    text = (new / CAR).read_text("utf-8")
    start = text.index("      - cavity: 11\n")
    end = text.index("      - cavity: 13\n")
    (new / CAR).write_text(text[:start] + text[end:], "utf-8")
    found = said(old, new)
    assert "A.11 gone: speaker rear-left positive, green/white" in found
    assert "input 1 positive: A.11 green/white (rear-left, add-on) →" in found or (
        "input 1 positive gone: A.11 green/white (rear-left, add-on)" in found
    )


def test_doubt_makes_a_probe_plan_of_a_tap_plan(old, new):
    gone = 0
    for visit in visit_files(new, TANSY):
        data = data_of(visit)
        here = [one for one in data["places"] if at_turn_on(one)]
        gone += sum(len(one["readings"]) for one in here)
        write(visit, {**data, "places": [one for one in data["places"] if one not in here]})
    found = said(old, new)
    assert "kind: tap plan → probe plan (" in found
    assert found.count("A.7 reading gone") == gone > 5
    assert "  weakest pin used: proven → " in found


def at_turn_on(place: Data) -> bool:
    return (place.get("plug"), place.get("cavity")) == ("A", 7)


def test_facts_outside_the_pins_are_told_by_their_keys(old, new):
    change(new / CAR, "supply_lead_m: 5.2", "supply_lead_m: 5.9")
    change(new / OTHER_VISIT, "by: bay-four-sound", "by: bay-five-sound")
    text = said(old, new)
    assert "power.supply_lead_m: 5.2 → 5.9" in text
    assert "sessions[s2].by: bay-four-sound → bay-five-sound" in text


def test_a_part_changes_the_plans_made_with_it(old, new):
    change(new / "converters" / "cvn-2a.yaml", "  max_v_rms: 20", "  max_v_rms: 10")
    text = said(old, new)
    assert "converter cvn-2a\n" in text
    assert "level of rear-left:" in text
    assert f"plan {TANSY} with cvn-4a" not in text


def test_a_job_tells_fuse_and_wire(old, new):
    change(new / "jobs" / "tansy-subwoofer.yaml", "part: amn-600", "part: amn-1200")
    text = said(old, new)
    assert "job tansy-subwoofer\n  amplifiers[sub amp].part: amn-600 → amn-1200" in text
    assert "main fuse: 60 A → " in text


def test_records_come_and_go(old, new):
    shutil.move(new / "cables" / "twin-16.yaml", new / "cables" / "twin-17.yaml")
    text = said(old, new)
    assert "cable twin-16: removed" in text and "cable twin-17: added" in text


def test_json_says_the_same(old, new):
    change(new / CAR, "function: retained", "function: accessory")
    data = json.loads(said(old, new, "--format", "json"))
    first = data["changed"][0]
    assert (first["kind"], first["name"], first["status"]) == ("vehicle", TANSY, "changed")
    assert first["changes"][0] == {
        "place": "A.7",
        "what": "function",
        "old": "retained supply",
        "new": "accessory supply",
    }


def test_two_files_are_compared_with_the_plans_of_the_book_here(old, tmp_path, monkeypatch):
    other = tmp_path / "other.yaml"
    shutil.copy(old / CAR, other)
    change(other, "function: retained", "function: accessory")
    monkeypatch.chdir(old)
    text = said(CAR, other)
    assert "A.7 function" in text and f"plan {TANSY} with cvn-2a" in text
    monkeypatch.chdir(tmp_path)
    text = said(old / CAR, other)
    assert "A.7 function" in text and "no book here" in text and "plan " not in text


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        ((), "name what was"),
        (("vehicles",), "name what was"),
        (("vehicles", CAR), "not one of each"),
        ((CAR, "cables/twin-16.yaml"), "a vehicle record"),
        (("--git", "HEAD"), "git"),
        (("--git", "HEAD", ".", "."), "one book only"),
        (("vehicles", "vehicles"), "holds no book"),
    ],
)
def test_wrong_use_is_said(old, monkeypatch, arguments, says):
    monkeypatch.chdir(old)
    done = loombook("diff", *arguments)
    assert done.exit_code == 2 and says in done.output


def git(folder: Path, *arguments: str) -> None:
    who = ("-c", "user.name=a", "-c", "user.email=a@shop.example", "-c", "commit.gpgsign=false")
    subprocess.run(["git", *who, *arguments], cwd=folder, check=True, capture_output=True)


@pytest.fixture
def kept(old: Path) -> Path:
    """The book as a folder of a repository, with a private root that git does not keep."""
    top = old.parent
    settings = "roots: [., {path: ../private, visibility: private}]\n"
    (old / "book.yaml").write_text(f"schema: 1\n{settings}", "utf-8")
    (top / ".gitignore").write_text("private/\n", "utf-8")
    (top / "private" / "cables").mkdir(parents=True)
    shutil.copy(PINOUTS / "cables" / "three-core-18.yaml", top / "private" / "cables" / "own.yaml")
    change(top / "private" / "cables" / "own.yaml", "id: three-core-18", "id: own")
    git(top, "init", "-q")
    git(top, "add", ".")
    git(top, "commit", "-q", "-m", "first")
    return old


def test_a_book_is_compared_with_what_it_was(kept, monkeypatch):
    done = loombook("diff", kept, "--git", "HEAD")
    assert done.exit_code == 0, done.output
    assert "private is not in that revision: taken as it is now" in done.output
    change(kept / CAR, "function: retained", "function: accessory")
    monkeypatch.chdir(kept)
    text = said("--git", "HEAD")
    assert "A.7 function: retained supply → accessory supply" in text
    assert "cable own" not in text
    git(kept, "commit", "-q", "-a", "-m", "second")
    assert loombook("diff", "--git", "HEAD").exit_code == 0
    assert "A.7 function" in said("--git", "HEAD~1")


def test_a_begun_job_is_compared_with_the_records_that_it_was_begun_with(kept):
    begun = loombook("begin", "tansy-subwoofer", "--by", "bay-four-sound", "--book", kept)
    assert begun.exit_code == 0, begun.output
    git(kept, "add", ".")
    git(kept, "commit", "-q", "-m", "begun")
    with past_book(open_book(kept), "HEAD") as then:
        held = [file.begun for file in then.book.files() if file.name[1] == "tansy-subwoofer"]
    assert [taken.raw for taken in held] == [
        (kept / "jobs" / "tansy-subwoofer.begun.json").read_bytes()
    ]


@pytest.mark.parametrize("revision", ["no-such", "--output=x", "HEAD:book", ""])
def test_a_revision_that_is_none_is_refused(kept, revision):
    done = loombook("diff", kept, "--git", revision)
    assert done.exit_code == 2, done.output
    assert not (kept / "x").exists()
