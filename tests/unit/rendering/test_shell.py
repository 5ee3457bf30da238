"""The shell: built once, cut open, poured into at two depths."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from page_samples import INFO, Tags
from site_folder import check_folder

from builder.model.house_defaults import HouseDefaults
from builder.rendering import shell as shell_module
from builder.rendering.page import Page
from builder.rendering.pages.lists import home_page, vehicles_index
from builder.rendering.pages.prove import CARDS, prove_url
from builder.rendering.pages.sections import section_pages
from builder.rendering.shell import Shell, build_shell


@pytest.fixture(scope="module")
def shell() -> Shell:
    return build_shell("Book & <Sons>", "data of 2024-05-13", HouseDefaults(asleep_min=25))


def page(url: str) -> Page:
    return Page(url, 'A <b> "title"', 'What & "why"', "<h1>Body</h1>")


def test_a_page_is_poured_with_links_of_its_own_depth(shell: Shell) -> None:
    root = shell.pour(page("index.html"))
    deep = shell.pour(page("vehicles/x.html"))
    assert 'href="assets/loombook.css"' in root
    assert 'href="../assets/loombook.css"' in deep
    for place in ("index", "plans/index", "measure/index", "jobs/index", "more/index"):
        assert f'href="{place}.html"' in root and f'href="../{place}.html"' in deep
    assert "<h1>Body</h1>" in deep


def test_title_and_description_are_escaped_and_in_their_places(shell: Shell) -> None:
    document = shell.pour(page("vehicles/x.html"))
    assert "<title>A &lt;b&gt; &quot;title&quot; · Book &amp; &lt;Sons&gt;</title>" in document
    assert '<meta name="description" content="What &amp; &quot;why&quot;">' in document
    assert "loombook-pour" not in document


def test_a_page_asks_for_its_own_scripts_and_others_do_not(shell: Shell) -> None:
    own = replace(page("plans/x.html"), scripts=("assets/ticks.js", "assets/bay-sheet.js"))
    asked = shell.pour(own).partition("<h1>Body</h1>")[2]
    assert '<script src="../assets/ticks.js" defer></script>' in asked
    assert asked.index("ticks.js") < asked.index("bay-sheet.js")
    assert "ticks.js" not in shell.pour(page("plans/x.html"))


def test_a_deeper_page_is_refused(shell: Shell) -> None:
    with pytest.raises(IndexError):
        shell.pour(page("a/b/c.html"))


def test_no_inline_script_or_style_and_no_generator(shell: Shell) -> None:
    document = shell.pour(page("vehicles/x.html"))
    assert 'name="generator"' not in document
    assert "<style" not in document
    assert "mkdocs" not in document.lower()
    tags = Tags(document)
    assert "style" not in tags.attributes
    assert document.count("<script ") == document.count("<script src=")
    assert "script-src &#39;self&#39;" in document or "script-src 'self'" in document


def test_the_theme_leaves_no_maps_languages_or_search_index_behind(shell: Shell) -> None:
    names = [name for name, _ in shell.files]
    assert not [name for name in names if name.endswith(".map") or "lunr" in name]
    theirs = [name for name in names if not name.startswith("assets/finder-")]
    assert not [name for name in theirs if "search" in name or "bundle" in name]
    for name, content in shell.files:
        if name.endswith(".css"):
            assert b"sourceMappingURL" not in content


def test_the_handbook_prints_the_house_defaults_in_force(shell: Shell) -> None:
    numbers = dict(shell.files)["handbook/numbers.html"].decode()
    text = Tags(numbers).text
    for name, _, _, what in HouseDefaults.described():
        assert name in text
        assert what in text
    assert "25 min (changed by this book) 20 min" in text


def test_handbook_pages_and_lists_link_only_to_what_is_there(shell: Shell, tmp_path: Path) -> None:
    pages = [home_page([], INFO), vehicles_index([], INFO), *section_pages([], INFO)]
    expected = ["jobs/index.html", "recalls/index.html", "converters/index.html"]
    expected += ["contributors/index.html"]
    expected += ["parts/index.html", "rules/index.html", "schema/index.html", "schema/vehicle.html"]
    expected += ["handbook/offline.html", "data/index.html", "record-maker.html"]
    expected += ["identify.html", "health.html", "prove/index.html", *map(prove_url, CARDS)]
    pages += [page(url) for url in expected]
    for name, content in shell.files:
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_bytes(content)
    for made in ("finder-data.js", "find-pages.js"):
        (tmp_path / "assets" / made).write_bytes(b"")
    for one in pages:
        (tmp_path / one.url).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / one.url).write_text(shell.pour(one), "utf-8")
    assert check_folder(tmp_path) == []


def test_building_twice_gives_the_same_bytes(shell: Shell) -> None:
    """Built, not remembered: what `build_shell` wraps."""
    given = ("Book & <Sons>", "data of 2024-05-13", HouseDefaults(asleep_min=25))
    again = shell_module.build_theme.__wrapped__(*given)
    assert again == shell_module.build_theme(*given)
    assert again is not shell_module.build_theme(*given)
    assert shell_module.shell_of(again, given[1]) == shell


def test_a_shell_is_built_once_for_all_that_goes_into_it(monkeypatch: pytest.MonkeyPatch) -> None:
    """Site name, imprint and defaults: each of them makes another shell, nothing else does."""
    built = []
    run = shell_module._run_mkdocs
    monkeypatch.setattr(
        shell_module, "_run_mkdocs", lambda *given: (built.append(given), run(*given))
    )
    first = build_shell("Once", "data of 2031-01-01")
    assert build_shell("Once", "data of 2031-01-01") == first and len(built) == 1
    other = build_shell("Once", "data of 2031-01-01", HouseDefaults(asleep_min=45))
    assert len(built) == 2 and other.files != first.files
    assert build_shell("Once", "data of 2031-01-02").imprint == "data of 2031-01-02"
    assert build_shell("Twice", "data of 2031-01-01").parts != first.parts


def test_the_root_element_holds_what_stands_at_the_foot_of_paper(shell: Shell) -> None:
    named = Page("vehicles/x.html", "X", "x", "<h1>X</h1>", 'record "x" · state 1')
    foot = '<html data-foot="record &quot;x&quot; · state 1 · data of 2024-05-13" '
    assert foot in shell.pour(named)
    assert '<html data-foot="data of 2024-05-13" ' in shell.pour(page("index.html"))
    handbook = [content for name, content in shell.files if name.startswith("handbook/")]
    assert handbook
    assert all(b'<html data-foot="data of 2024-05-13" ' in content for content in handbook)
