"""Two cars that are joined in the very same way share their pictures, and no others do."""

from __future__ import annotations

from dataclasses import replace

from pack_jobs import shipped_pack, shipped_parts
from wiring_samples import with_housings

from builder.rendering.drawings.wiring import wiring_of
from builder.rendering.drawings.wiring.pictures import Wiring, housings_of

JOB = "sedge-fronts"
CAR = "another car of the same platform"


def test_a_car_of_another_name_has_the_same_pictures_under_its_own_name() -> None:
    circuit, parts = shipped_pack(JOB).circuit, with_housings(shipped_parts(JOB))
    assert circuit is not None
    vehicle = replace(parts.vehicle, id="another", model=CAR, sessions=())
    again = replace(parts, vehicle=vehicle, job=replace(parts.job, title=CAR))
    one, other = wiring_of(circuit, parts), wiring_of(replace(circuit), again)
    assert one is other
    assert f"wiring of {CAR}" in other.picture(CAR)
    assert CAR not in one.picture(parts.job.title)


def test_what_is_kept_is_what_would_be_drawn() -> None:
    circuit, parts = shipped_pack(JOB).circuit, with_housings(shipped_parts(JOB))
    assert circuit is not None
    kept, fresh = wiring_of(circuit, parts), Wiring(circuit, housings_of(parts))
    assert kept is not fresh
    assert kept.picture("it") == fresh.picture("it")
    assert (kept.pieces, kept.signs, kept.legend) == (fresh.pieces, fresh.signs, fresh.legend)


def test_another_circuit_and_another_housing_have_their_own() -> None:
    circuit, parts = shipped_pack(JOB).circuit, with_housings(shipped_parts(JOB))
    assert circuit is not None
    first = circuit.units[0]
    moved = replace(circuit, units=(replace(first, id=f"{first.id} B"), *circuit.units[1:]))
    assert wiring_of(moved, parts) is not wiring_of(circuit, parts)
    shelf = parts.shelf
    turned = {each: replace(one, row_shift=(0.25,)) for each, one in shelf.housings.items()}
    other = replace(parts, shelf=replace(shelf, housings=turned))
    assert wiring_of(circuit, other) is not wiring_of(circuit, parts)
