"""What to type is where loombook came from, with what makes a site, or reads sound."""

from __future__ import annotations

import json
from importlib.metadata import PackageNotFoundError

import click
import pytest

from builder.cli import extra_packages


class Installed:
    """A package as its metadata describes it."""

    requires = (
        "click<9,>=8.1",
        'mkdocs-material<10; extra == "site"',
        'segno<2; extra == "site"',
        'numpy<3,>=2; extra == "sound"',
        'pytest; extra == "test"',
    )

    def __init__(self, origin: dict[str, object] | None = None) -> None:
        self._origin = origin

    def read_text(self, name: str) -> str | None:
        return json.dumps(self._origin) if self._origin else None


ORIGINS = {
    '"loombook[site]"': None,
    '"loombook[site] @ file:///tools/loombook-1-py3-none-any.whl"': {
        "url": "file:///tools/loombook-1-py3-none-any.whl",
        "archive_info": {},
    },
    '"loombook[site] @ git+https://forge.example/loombook@c0ffee"': {
        "url": "https://forge.example/loombook",
        "vcs_info": {"vcs": "git", "commit_id": "c0ffee"},
    },
    '--editable "/our shop/loombook[site]"': {
        "url": "file:///our%20shop/loombook",
        "dir_info": {"editable": True},
    },
}


@pytest.mark.parametrize("wanted", ORIGINS)
def test_pip_is_given_the_place_it_came_from(wanted: str) -> None:
    assert extra_packages.requirement(Installed(ORIGINS[wanted]), "site") == wanted  # type: ignore[arg-type]


def test_only_what_is_missing_of_the_site_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    def found(name: str) -> Installed:
        if name == "segno":
            raise PackageNotFoundError
        return Installed()

    monkeypatch.setattr(extra_packages, "distribution", found)
    with pytest.raises(click.ClickException, match="needs segno as well") as told:
        extra_packages.need_packages("site")
    assert "\n" not in told.value.message


def test_sound_names_what_it_needs_and_nothing_of_the_site(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def found(name: str) -> Installed:
        if name != "loombook":
            raise PackageNotFoundError
        return Installed()

    monkeypatch.setattr(extra_packages, "distribution", found)
    with pytest.raises(click.ClickException) as told:
        extra_packages.need_packages("sound")
    assert told.value.message == (
        'sound needs numpy as well; type: python -m pip install "loombook[sound]"'
    )
