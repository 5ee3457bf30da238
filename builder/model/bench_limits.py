"""How exact a shop works at the bench, where its labels are looked for, which barrels it has.

Common practice, no source: a shop puts its own figures into its settings. The most that each limit
may be is what the sums of a bench sheet bear. How far a mark may lie beside its place is no choice
of a shop: it is what lies between two marks (`planning/harness/marks.py`).
"""

from __future__ import annotations

from builder.declaring import record
from builder.model.house_default import house_default as _default


@record(slots=False)
class BenchLimits:
    """What lies at most between a length or place of the bench sheet and that of the loom."""

    bench_longer_mm: float = _default(
        3.0, "mm", "most that a wire or core is longer than its bench sheet says", most=6
    )
    bench_bared_mm: float = _default(
        1.0, "mm", "most that is bared beyond what the bench sheet says", most=2
    )
    bench_cable_mm: float = _default(
        50.0, "mm", "most that a cable is longer than its bench sheet says", most=200
    )
    label_from_end_mm: float = _default(
        50.0, "mm", "most distance of a cable label from the end; at a loom its ties come first"
    )
    barrel_least_mm2: float = _default(0.5, "mm²", "least copper in the smallest crimp barrel")
    barrel_small_mm2: float = _default(1.5, "mm²", "most copper in the small crimp barrel")
    barrel_medium_mm2: float = _default(2.5, "mm²", "most copper in the medium crimp barrel")
    barrel_large_mm2: float = _default(6.0, "mm²", "most copper in the large crimp barrel")
