"""The date of the data stands in one file that all pages share."""

from __future__ import annotations

import re

import pytest

from builder.rendering.shell import STYLE_URL, dated_files


@pytest.mark.parametrize(("as_of", "shown"), [("2024-05-13", "2024-05-13"), ("", "no date")])
def test_the_style_sheet_alone_says_the_date(as_of: str, shown: str) -> None:
    files = [(STYLE_URL, b"body {}\n"), ("assets/pages.js", b"1;\n"), ("handbook/a.html", b"<p>")]
    dated = dict(dated_files(files, as_of))
    assert [url for url, content in files if dated[url] != content] == [STYLE_URL]
    style = dated[STYLE_URL].decode()
    assert style.startswith("body {}\n")
    assert re.findall(r'--data-of: "(.*)";', style) == [shown]
