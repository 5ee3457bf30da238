"""The lists of makes answer by themselves: constant, switched and ground of every car."""

from __future__ import annotations

from page_samples import INFO, Tags, sample

from builder.finder.entries import Row, entry
from builder.model.summary import summarise
from builder.rendering.pages.lists import make_pages
from builder.rendering.pages.short_answers import short_answers


def test_constant_switched_and_ground_stand_in_the_list():
    vehicle = sample("vehicles")
    car = entry(vehicle, lambda pin: "good")
    text = Tags(make_pages([summarise(vehicle, "f")], INFO, [car])[0].body_html).text
    rows = [row for row in car.rows if row.function in ("constant", "ground", "retained")]
    assert rows
    for row in rows:
        assert f"plug {row.plug} cavity {row.cavity}" in text
    assert "■■■□ good" in text


def test_what_is_missing_is_said_and_fuse_places_have_no_mark():
    car = entry(sample("vehicles"), lambda pin: "good")
    fuse = Row("run", "", "F2", "fuse", "fuse position in the cabin panel", "measured", "")
    constant, switched, ground = short_answers(car._replace(rows=(fuse,), no_switched=""))
    assert constant.note == ground.note == "Not recorded for this car."
    assert [(pin.place, pin.mark) for pin in switched.pins] == [("fuse F2", "")]
    asleep = car._replace(rows=(), no_switched="woken by data")
    assert short_answers(asleep)[1].note == "woken by data"
