"""Where a converter takes its own supply, and whose fuse it shares there."""

from __future__ import annotations

from dataclasses import replace

from pack_jobs import HOUSE, shipped_parts

from builder.model.pin import Fuse
from builder.planning.job.make_pack import make_pack
from builder.planning.work_pack import JobParts
from builder.rules.fed_from_radio import check

JOB = "dash-converter"


def with_an_unread_constant_first(parts: JobParts, rating_a: float) -> JobParts:
    """Another constant on the same plug, named before the proved one, that nobody has read."""
    plug, *rest = parts.vehicle.plugs
    live = next(pin for pin in plug.pins if pin.function == "constant")
    path = (*plug.path, "pins", len(plug.pins))
    unread = replace(
        live,
        cavity="99",
        fuse=Fuse(place="F99", rating_a=rating_a),
        readings=(),
        claims=(),
        path=path,
    )  # fmt: skip
    plugs = (replace(plug, pins=(unread, *plug.pins)), *rest)
    return replace(parts, vehicle=replace(parts.vehicle, plugs=plugs))


def test_it_hangs_on_the_proved_pin_whatever_is_named_first() -> None:
    parts = with_an_unread_constant_first(shipped_parts(JOB), 0.1)
    pack = make_pack(parts, defaults=HOUSE)
    assert pack.kind == "tap_plan"
    assert [each.cavity for each in pack.plan.supplied_at] == ["5", "25"]


def test_the_share_is_that_of_the_fuse_it_hangs_on() -> None:
    """A tenth of an ampere is no fuse for a converter, and not the one of its pin."""
    parts = with_an_unread_constant_first(shipped_parts(JOB), 0.1)
    assert list(check(make_pack(parts, defaults=HOUSE), parts)) == []
