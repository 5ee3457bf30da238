"""What a work pack says of faults that its readings cannot find."""

from __future__ import annotations

import html
import re

from comeback_jobs import causes_in
from pack_jobs import shipped_pack, shipped_parts

from builder.planning.comeback.caught import UNCAUGHT_WORDS, catches
from builder.rendering.page import BuildInfo
from builder.rendering.pages.job_caught import caught_view
from builder.rendering.pages.work_pack import work_pack_page

INFO = BuildInfo("loombook", "0.1.0", "2026-11-29")


def words_of(body: str) -> str:
    """What a page says, without its marks."""
    return " ".join(html.unescape(re.sub(r"<[^>]+>", " ", body)).split())


def test_each_reason_is_said_once_with_how_many_faults_and_the_first_of_them() -> None:
    found = catches(causes_in("sorrel-five-channels"))
    view = caught_view(found)
    assert view is not None
    assert view.faults == len(found)
    assert view.found + sum(row.many for row in view.missed) == view.faults
    assert {row.why for row in view.missed} == {
        UNCAUGHT_WORDS["carries_nothing"], UNCAUGHT_WORDS["same_sound"],
    }  # fmt: skip
    spare = next(row for row in view.missed if row.why == UNCAUGHT_WORDS["carries_nothing"])
    assert spare.many > 3 and spare.faults.endswith(f"; and {spare.many - 3} more")


def test_the_work_pack_counts_them_and_names_what_is_not_found() -> None:
    name = "sorrel-five-channels"
    found = catches(causes_in(name))
    page = work_pack_page(shipped_pack(name), shipped_parts(name), (), INFO, catches=found)
    text = words_of(page.body_html)
    in_time = sum(each.in_time for each in found)
    assert f"find {in_time} of {len(found)} before trim goes home, and none of these" in text
    assert "loombook comeback sorrel-five-channels --faults" in text
    without = work_pack_page(shipped_pack(name), shipped_parts(name), (), INFO)
    assert "single faults" not in words_of(without.body_html)
