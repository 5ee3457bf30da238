"""The supply runs of a job in phrases."""

from __future__ import annotations

from typing import NamedTuple

from builder.figures import shown
from builder.model.house_defaults import HouseDefaults
from builder.planning.pack_details import SupplyRun
from builder.planning.views.device_runs import DeviceRun, device_runs
from builder.planning.work_pack import WorkPack
from builder.rendering.pages.wording import figure


class RunView(NamedTuple):
    """One supply run in phrases."""

    name: str
    current: str
    fuse: str
    conductor: str
    length: str
    drop: str
    total: str
    thicker: str


def run_view(run: SupplyRun) -> RunView:
    """Return one supply run."""
    thicker = "none thicker"
    if run.next_thicker is not None:
        loses = run.next_thicker_drop_v
        thicker = run.next_thicker + (f": {loses:.3f} V" if loses is not None else "")
    return RunView(
        run.name,
        f"{run.current_a:.1f} A",
        figure(run.fuse_a, "A", "–"),
        run.conductor,
        f"{run.length_m:g} m",
        f"{shown(run.drop_v, 3)} V",
        f"{shown(run.cumulative_drop_v, 3)} V",
        thicker,
    )


def supply_views(pack: WorkPack, defaults: HouseDefaults) -> list[RunView]:
    """Return every supply run: those that are sized, then each small device by its own wires."""
    sized = pack.power.all_runs if pack.power else ()
    small = device_runs(pack.circuit, defaults) if pack.circuit and sized else ()
    return [*map(run_view, sized), *map(_device_view, small)]


def _device_view(run: DeviceRun) -> RunView:
    """A small device's run: its volts are those of its own wires."""
    return RunView(
        run.name,
        figure(run.current_a, "A", "not on record"),
        figure(run.fuse_a, "A", "–"),
        run.conductor,
        figure(run.length_m, "m", "–"),
        "–" if run.drop_v is None else f"{shown(run.drop_v, 3)} V",
        "–",
        "–",
    )
