"""What one sheet of a job says the others say too: counts, places, names, what is still out."""

from __future__ import annotations

import pytest
from circuit_checks import circuit_of
from pack_jobs import HOUSE, SHIPPED, shipped_pack

from builder.planning.cables.cut_lengths import with_spare
from builder.planning.work_pack import WorkPack

JOBS = [name for name in SHIPPED if shipped_pack(name).circuit]


def texts(pack: WorkPack) -> list[str]:
    return [step.text for step in pack.steps]


@pytest.mark.parametrize("name", JOBS)
def test_as_many_labels_are_picked_as_are_stuck_on(name: str) -> None:
    pack = shipped_pack(name)
    (line,) = [each for each in pack.parts if each.item == "label"]
    assert line.quantity == with_spare(len(pack.labels), HOUSE)


@pytest.mark.parametrize("name", JOBS)
def test_the_step_asks_for_a_label_mid_way_only_where_the_list_has_one(name: str) -> None:
    pack = shipped_pack(name)
    (said,) = [text for text in texts(pack) if text.startswith("label ")]
    assert "a jacket also mid-way" in said and "every piece before" in said
    mid_way = {label.jacket for label in pack.labels if label.end == "mid-way"}
    assert all(piece.startswith("jacket ") for piece in mid_way)


@pytest.mark.parametrize("name", JOBS)
def test_every_fuse_goes_into_its_holder_before_anything_is_powered(name: str) -> None:
    pack = shipped_pack(name)
    fuses = [part for part in circuit_of(pack).elements if part.kind == "fuse"]
    others = [part for part in fuses if part.id != "main fuse"]
    (at,) = [n for n, text in enumerate(texts(pack)) if text.startswith("every fuse but the main")]
    assert pack.steps[at].lines == tuple(
        f"{part.purpose}: {part.rating}; place: {part.place}" for part in others
    )
    insulation = next(test.number for test in pack.tests if test.id == "supply-insulation")
    (dead,) = [n for n, step in enumerate(pack.steps) if step.text == f"take {_build(pack)}"]
    (last,) = [n for n, text in enumerate(texts(pack)) if text.endswith("main fuse last")]
    assert insulation and dead < at < last


def _build(pack: WorkPack) -> str:
    numbers = [test.number for test in pack.tests if test.phase == "build"]
    return f"tests {numbers[0]} to {numbers[-1]}"


@pytest.mark.parametrize("name", JOBS)
def test_the_customer_finds_each_fuse_at_its_place(name: str) -> None:
    pack = shipped_pack(name)
    lines = [line for line in pack.customer if "; place: " in line]
    places = [f.place for f in circuit_of(pack).elements if f.kind == "fuse" and f.id != "main fuse"]
    assert [line.split("; place: ")[1].rstrip(".") for line in lines] == places
