"""A page of its own about a recording: what was said of it, drawings, and the same as tables."""

from __future__ import annotations

from collections.abc import Iterable

from markupsafe import Markup, escape

from builder.rendering.drawings.plots import Plot
from builder.rendering.drawings.sound_plots import sound_plots
from builder.rendering.styles import drawing_style
from builder.sound.reading import SoundFacts

_HEAD = Markup(
    '<!doctype html>\n<html lang="en"><head><meta charset="utf-8">\n'
    '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
    "<title>{title}</title>\n<style>\n"
    "body {{ font: 16px/1.4 sans-serif; max-width: 75rem; margin: 1rem auto; padding: 0 1rem; }}\n"
    "h2 {{ font-size: 1.1rem; margin: 0 0 0.5rem; }}\n"
    ".plots {{ display: grid; gap: 1.5rem 2rem; margin-bottom: 1.5rem; align-items: start;\n"
    "  grid-template-columns: repeat(auto-fit, minmax(min(100%, 20rem), 1fr)); }}\n"
    "section {{ min-width: 0; max-width: 36rem; }}\n"
    "section svg {{ display: block; width: 100%; height: auto; }}\n"
    "details {{ overflow-x: auto; }}\n"
    "pre {{ white-space: pre-wrap; }}\n"
    "table {{ border-collapse: collapse; }}\n"
    "td, th {{ border: 1px solid; padding: 0.1rem 0.5rem; text-align: right; }}\n"
    "@media print {{ body {{ font-size: 10pt; margin: 0; padding: 0; }}\n"
    "  .plots {{ gap: 4mm 6mm; grid-template-columns: 1fr 1fr; }}\n"
    "  section {{ break-inside: avoid; }} h2 {{ break-after: avoid; }}\n"
    "  details:not([open]) {{ display: none; }} }}\n"
    "{style}</style></head>\n<body>\n<h1>{title}</h1>\n"
)


def sound_page(facts: SoundFacts, title: str, lines: Iterable[str]) -> str:
    """Return a page with what is said in lines, each plot and its table; it needs no other file."""
    parts = [_HEAD.format(title=title, style=Markup(drawing_style()))]
    plots = Markup("").join(_section(plot) for plot in sound_plots(facts))
    parts.append(Markup('<div class="plots">\n{}</div>\n').format(plots))
    parts.append(Markup("<h2>In words</h2>\n<pre>{}</pre>\n").format("\n".join(lines)))
    return str(Markup("").join([*parts, Markup("</body></html>\n")]))


def _section(plot: Plot) -> Markup:
    heads = Markup("").join(Markup('<th scope="col">{}</th> ').format(h) for h in plot.heads)
    rows = Markup("\n").join(
        Markup("<tr>{}</tr>").format(
            Markup(" ").join(Markup("<td>{}</td>").format(cell) for cell in row)
        )
        for row in plot.rows
    )
    return Markup(
        "<section><h2>{}</h2>\n{}\n<details><summary>As a table</summary>\n"
        "<table><tr>{}</tr>\n{}\n</table></details></section>\n"
    ).format(escape(plot.title), plot.drawing, heads, rows)
