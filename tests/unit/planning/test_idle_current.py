"""The current of everything added with no sound: one figure, and where the clamp goes for it."""

from __future__ import annotations

from dataclasses import replace

import pytest
from pack_jobs import HOUSE, SHIPPED, shipped_pack, shipped_parts

from builder.planning.job.make_pack import make_pack
from builder.planning.power.idle_current import idle_a, recorded_idle_a
from builder.planning.work_pack import BayTest, WorkPack

PLANNED = [name for name in SHIPPED if shipped_pack(name).kind == "tap_plan"]


def line(pack: WorkPack, id: str) -> BayTest:
    return next(test for test in pack.tests if test.id == id)


@pytest.mark.parametrize("name", PLANNED)
def test_the_band_is_about_the_figure_of_the_job_and_the_clamp_has_a_wire(name: str) -> None:
    pack, parts = shipped_pack(name), shipped_parts(name)
    read = line(pack, "idle-current")
    assert read.low is not None and read.high is not None
    assert (read.low + read.high) / 2 == pytest.approx(idle_a(parts))
    assert pack.circuit is not None
    wires = {wire.id for wire in pack.circuit.wires if wire.id in read.what}
    assert "lead to the main fuse" in wires
    own = f"supply of {parts.converter.name}"
    assert (own in wires) == bool(pack.plan.supplied_at), "what the main fuse does not feed"


def test_without_a_figure_in_the_job_the_records_count_everywhere() -> None:
    """0.75 A and 0.04 A of the records, against 0.9 A that the job would say."""
    parts = shipped_parts("tansy-subwoofer")
    hours = {}
    for said in (None, 0.79, 0.9):
        supply = replace(parts.job.supply, idle_a=said)
        pack = make_pack(replace(parts, job=replace(parts.job, supply=supply)), defaults=HOUSE)
        read = line(pack, "idle-current")
        assert read.high == pytest.approx(1.3 * (said or 0.79))
        assert pack.power is not None
        hours[said] = pack.power.listening_h
    assert recorded_idle_a(parts.converter, parts.amplifiers.values()) == pytest.approx(0.79)
    assert hours[None] == pytest.approx(hours[0.79]) and hours[0.9] != pytest.approx(hours[0.79])


@pytest.mark.parametrize("name", PLANNED)
def test_straps_that_nobody_read_are_read_before_anything_is_bought(name: str) -> None:
    """5.73 mΩ allowed are 57.3 mV at the 10 A of the clamp."""
    pack, parts = shipped_pack(name), shipped_parts(name)
    assert pack.power is not None
    lines = [test for test in pack.tests if test.id == "strap"]
    if parts.job.supply.strap is not None or pack.power.strap_max_mohm is None:
        assert not lines
        return
    (read,) = lines
    assert read.phase == "before" and read.since
    assert read.high == pytest.approx(pack.power.strap_max_mohm / 1000 * 10)
    assert "clamp at the battery negative reads 10 A" in read.what
