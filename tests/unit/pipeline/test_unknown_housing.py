"""A housing that nobody could tell: the book stands, the check passes, no plan uses the plug."""

from __future__ import annotations

from pathlib import Path

from shipped_book import loombook

TANSY = "ostrel-tansy-2017-hatch-base"


def unknown(path: Path, *names: str) -> None:
    text = path.read_text("utf-8")
    for name in names:
        assert f"housing: {name}" in text
        text = text.replace(f"housing: {name}", "housing: unknown")
    path.write_text(text, "utf-8")


def test_a_plug_and_a_loom_of_unknown_housing_are_published_and_not_planned_with(
    small_book: Path, tmp_path: Path
) -> None:
    unknown(small_book / "vehicles" / "ostrel" / f"{TANSY}.yaml", "two-row-20-latch-top")
    unknown(small_book / "looms" / "straight-16.yaml", "two-row-16-inline-socket")
    site = tmp_path / "site"
    built = loombook("build", small_book, "--output", site)
    assert built.exit_code == 0, built.output
    car = (site / "vehicles" / f"{TANSY}.html").read_text("utf-8")
    assert "that nobody knows, so it is not drawn" in car and "PIN108" in car
    assert "a housing that nobody knows" in (site / "looms" / "straight-16.html").read_text("utf-8")
    planned = loombook("plan", TANSY, "--converter", "cvn-2a", "-b", small_book)
    assert "nobody knows which housing it is" in planned.output
    assert "tap plan" not in planned.output.splitlines()[0]


def test_no_housing_is_called_unknown(small_book: Path) -> None:
    old = small_book / "housings" / "block-a-8.yaml"
    old.write_text(old.read_text("utf-8").replace("id: block-a-8\n", "id: unknown\n"), "utf-8")
    old.rename(old.with_name("unknown.yaml"))
    checked = loombook("check", small_book)
    assert checked.exit_code == 1 and "BOK107" in checked.output
