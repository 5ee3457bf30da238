"""The drawings laid out by a browser with its own fonts: the same bounds, measured for real."""

from __future__ import annotations

import json
import re
import shutil
import subprocess
from html import unescape
from pathlib import Path

import pytest
from drawing_samples import grid, housing, plan, plug
from markupsafe import Markup
from pack_samples import sample_pack

from builder.rendering.drawings import (
    gain_ladder,
    level_ladder,
    look_alikes,
    plug_faces,
    power_tree,
    turn_on_ladder,
)
from builder.rendering.pages.job_cables import jacket_drawings, label_drawings

CHROMIUM = shutil.which("chromium")
CSS = Path(__file__).resolve().parents[3] / "site_templates" / "theme" / "drawings.css"
MEASURE = """
const faults = [];
for (const svg of document.querySelectorAll("svg.lb-drawing")) {
  const name = svg.querySelector("title").textContent, frame = svg.getBoundingClientRect();
  const texts = [...svg.querySelectorAll("text")]
    .map(text => [text.textContent, text.getBoundingClientRect()]);
  if (frame.right > innerWidth) faults.push([name, "is wider than the window", ""]);
  texts.forEach(([word, a], at) => {
    if (a.left < frame.left - .5 || a.right > frame.right + .5 || a.top < frame.top - .5
        || a.bottom > frame.bottom + .5) faults.push([name, word, "outside"]);
    for (const [other, b] of texts.slice(at + 1)) {
      // A line box is taller than its letters: allow a quarter of it.
      const lap = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) - a.height / 4;
      if (a.left < b.right && b.left < a.right && lap > 0) faults.push([name, word, other]);
    }
  });
}
const count = document.querySelectorAll("svg.lb-drawing text").length;
document.body.replaceChildren(JSON.stringify({count, faults}));
"""


def page() -> str:
    shells = (housing(), housing(latch="left"), grid(12, 2), grid(20, 2, latch="bottom"))
    parts = [face for shell in shells for face in plug_faces(shell, plug(), ("4",))]
    parts += [look_alikes(housing(), plug(), housing(latch="left"), plug("B"))]
    parts += [turn_on_ladder(plan()), level_ladder(plan())]
    pack = sample_pack()
    parts += [gain_ladder(pack), power_tree(pack), *jacket_drawings(pack, {})]
    parts += label_drawings(pack.labels)
    body = Markup("").join(parts)
    style = f"<style>body{{margin:16px}}{CSS.read_text(encoding='utf-8')}</style>"
    return f"<!doctype html><meta charset=utf-8>{style}<body>{body}<script>{MEASURE}</script>"


@pytest.mark.browser
@pytest.mark.skipif(CHROMIUM is None, reason="Debian's Chromium is not installed")
@pytest.mark.parametrize("width", [500, 1200])  # headless Chromium opens no window under 500
def test_words_do_not_collide_in_a_real_layout(tmp_path: Path, width: int) -> None:
    shown = tmp_path / "page.html"
    shown.write_text(page(), encoding="utf-8")
    options = ["--headless", "--no-sandbox", "--disable-gpu", f"--user-data-dir={tmp_path}/profile"]
    command = [str(CHROMIUM), *options, f"--window-size={width},900", "--dump-dom", shown.as_uri()]
    done = subprocess.run(command, capture_output=True, text=True, timeout=120, check=True)
    measured = json.loads(unescape(re.findall(r"<body>(.*)</body>", done.stdout, re.S)[-1]))
    assert measured["count"] > 150
    assert measured["faults"] == []
