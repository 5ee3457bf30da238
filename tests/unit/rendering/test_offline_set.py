"""What is kept for work without a signal: a stated rule, sizes that are so, sums that change."""

from __future__ import annotations

import hashlib
import json

import pytest
from page_samples import INFO, Tags

from builder.data_files import templates_folder
from builder.rendering import offline
from builder.rendering.offline import OfflineSet, megabytes, offline_files, offline_set
from builder.rendering.writing import WrittenFile

WORKER = (templates_folder() / "worker" / "worker.js").read_text("utf-8")


def written(url: str, content: bytes = b"x") -> WrittenFile:
    return WrittenFile(url, len(content), hashlib.sha256(content).hexdigest())


FILES = [
    written(url)
    for url in (
        "index.html",
        "assets/finder-data.js",
        "vehicles/index.html",
        "vehicles/a.html",
        "plans/a--b.html",
        "jobs/index.html",
        "jobs/j.html",
        "rules/PIN101.html",
        "schema/vehicle.html",
        "data/vehicles/a.json",
        "data/pins.csv",
        "404.html",
    )
]


def urls(files: tuple[WrittenFile, ...]) -> list[str]:
    return [file.url for file in files]


def about(found: OfflineSet) -> dict[str, object]:
    (_, _), (_, worker) = offline_files(found, WORKER, INFO)
    first = worker.decode().partition("\n")[0]
    told: dict[str, object] = json.loads(first.removeprefix("const BOOK = ").removesuffix(";"))
    return told


def test_lists_and_shared_files_are_apart_from_pages_of_cars_and_data_is_left_out() -> None:
    found = offline_set(FILES)
    assert urls(found.shared) == [
        "assets/finder-data.js",
        "index.html",
        "jobs/index.html",
        "vehicles/index.html",
    ]
    assert urls(found.cars) == ["jobs/j.html", "plans/a--b.html", "vehicles/a.html"]


@pytest.mark.parametrize(("more", "at_once"), [(0, True), (1, False)])
def test_the_whole_is_saved_unasked_up_to_the_stated_size(more: int, at_once: bool) -> None:
    room = offline.AUTOMATIC_BYTES - 1 + more
    found = OfflineSet((written("index.html"),), (WrittenFile("vehicles/a.html", room, "0" * 64),))
    assert found.whole_bytes == offline.AUTOMATIC_BYTES + more
    assert found.whole_at_once is at_once
    assert about(found)["whole_at_once"] is at_once


def test_the_list_names_each_file_with_the_start_of_its_sum() -> None:
    (url, listed), _ = offline_files(offline_set(FILES), WORKER, INFO)
    sums = json.loads(listed)
    assert url == "offline-files.json"
    assert sums["cars"]["vehicles/a.html"] == hashlib.sha256(b"x").hexdigest()[:32]
    assert about(offline_set(FILES))["list_sum"] == hashlib.sha256(listed).hexdigest()[:32]


def test_the_worker_changes_with_any_kept_file_and_with_no_other() -> None:
    version = about(offline_set(FILES))["version"]
    for place, file in enumerate(FILES):
        changed = [*FILES[:place], written(file.url, b"y"), *FILES[place + 1 :]]
        kept = file.url.partition("/")[0] not in offline.LEFT_OUT
        assert (about(offline_set(changed))["version"] != version) is kept, file.url


def test_the_worker_changes_with_its_own_text() -> None:
    _, (_, one) = offline_files(offline_set(FILES), WORKER, INFO)
    _, (_, other) = offline_files(offline_set(FILES), WORKER + "\n", INFO)
    assert one.partition(b"\n")[0] != other.partition(b"\n")[0]


@pytest.mark.parametrize(
    ("size", "words"), [(0, "0.0 MB"), (1, "0.1 MB"), (100_000, "0.1 MB"), (11_900_001, "12.0 MB")]
)
def test_sizes_are_rounded_up(size: int, words: str) -> None:
    assert megabytes(size) == words


@pytest.mark.parametrize("limit", [10, 1])
def test_the_page_states_the_rule_and_every_folder(
    monkeypatch: pytest.MonkeyPatch, limit: int
) -> None:
    monkeypatch.setattr(offline, "AUTOMATIC_BYTES", limit)
    text = Tags(offline.offline_page(offline_set(FILES), INFO).body_html).text
    for folder in ("front pages", "assets", "vehicles", "plans", "jobs"):
        assert folder in text
    assert ("saves the whole set" in text) is (limit == 10)
    assert ("kept when you open it" in text) is (limit == 1)
    assert "seven days" in text
    assert "home screen" in text


def test_the_manifest_points_into_the_site() -> None:
    url, content = offline.manifest(INFO)
    told = json.loads(content)
    assert "/" not in url
    assert told["start_url"] == "index.html"
    assert told["scope"] == "./"
    icon = told["icons"][0]["src"]
    assert (templates_folder() / "theme" / icon.removeprefix("assets/")).is_file()
