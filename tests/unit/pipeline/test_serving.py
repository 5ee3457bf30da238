"""`loombook serve` looks at records and settings, and can leave the private ones out."""

from __future__ import annotations

from functools import partial
from pathlib import Path

import pytest
from shipped_book import loombook
from shop_book import OWN_CAR, shop_book

from builder.cli.books import opened
from builder.cli.building import look_again, stamps_of


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    return shop_book(tmp_path / "book")


def test_nothing_is_built_while_nothing_changes(shop: Path, tmp_path: Path) -> None:
    reopen = partial(opened, shop)
    seen = stamps_of(reopen())
    assert look_again(reopen, tmp_path / "site", seen) == seen
    assert not (tmp_path / "site").exists()


def test_settings_that_change_are_built_again(shop: Path, tmp_path: Path) -> None:
    reopen, site = partial(opened, shop, True), tmp_path / "site"
    seen = stamps_of(reopen())
    settings = shop / "book.yaml"
    settings.write_text(settings.read_text("utf-8").replace("North bay", "South bay"), "utf-8")
    again = look_again(reopen, site, seen)
    assert {path for path in again if again[path] != seen.get(path)} == {settings}
    assert "South bay" in (site / "index.html").read_text("utf-8")
    assert not (site / "vehicles" / f"{OWN_CAR}.html").exists()


def test_settings_that_are_away_for_a_moment_are_waited_for(shop: Path, tmp_path: Path) -> None:
    reopen = partial(opened, shop)
    seen = stamps_of(reopen())
    (shop / "shared").rename(tmp_path / "away")
    (shop / "book.yaml").rename(tmp_path / "book.yaml")
    (shop / "zqfolder").rename(tmp_path / "zqfolder")
    assert look_again(reopen, tmp_path / "site", seen) == seen


def test_settings_that_are_wrong_keep_the_last_good_site(
    shop: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    reopen, site = partial(opened, shop, True), tmp_path / "site"
    look_again(reopen, site, {})
    good = (site / "index.html").read_bytes()
    settings = shop / "book.yaml"
    settings.write_text(settings.read_text("utf-8") + "colour: green\n", "utf-8")
    look_again(reopen, site, {})
    assert "book.yaml" in capsys.readouterr().err
    assert (site / "index.html").read_bytes() == good


def test_the_records_seen_are_those_of_the_public_book(shop: Path) -> None:
    everything, public = (stamps_of(opened(shop, each)) for each in (False, True))
    assert any("zqfolder" in path.parts for path in everything)
    assert not any("zqfolder" in path.parts for path in public)
    assert "--public" in loombook("serve", "--help").output
