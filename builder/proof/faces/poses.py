"""A plug seen from the wrong face, or upside down: which cavity would be taken for which.

Two records of one plug that disagree as they stand but agree once one of them is mirrored do
not contradict each other: one of them was read from the other face.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache
from typing import Literal, NamedTuple, Protocol

from builder.model.housing import Housing
from builder.model.words import Channel, Function, Leg
from builder.proof.words import SetsVerdict

Pose = Literal["as_is", "mirror", "turn", "turn_mirror"]
POSES: tuple[Pose, ...] = ("as_is", "mirror", "turn", "turn_mirror")
POSE_WORDS: dict[Pose, str] = {
    "as_is": "as it stands",
    "mirror": "seen from the other face",
    "turn": "turned upside down",
    "turn_mirror": "seen from the other face and turned upside down",
}
AGREES, CLEARLY_BETTER, LEAST_COMPARED = 0.8, 0.3, 4
"""A pose agrees from 0.8 on. What does not agree as it stands was read in another pose when that
one agrees and is better by 0.3, or explains four pins more: 10 of 10 against 4 of 7. Plugs have
pins that are alike from both faces (grounds, pairs), so half of them may agree in the wrong pose.
Fewer than four pins in common decide nothing. Chosen by this project."""
MIX_UP_WORDS = "at least 8 of 10, and clearly more than as they stand"
"""When a pose explains a disagreement, in words."""
_SLIDE = 0.6
"""How far a whole row may slide to lie on its image, in cavity widths: staggered rows move by
half a width when mirrored. Chosen by this project; under one width, or geometry says nothing."""
_ROUNDING = 1e-9
_SAME_PLACE = 0.05
"""How near two places must be to be one, in cavity widths."""

Rows = tuple[tuple[tuple[float, str], ...], ...]
"""Row by row the cavities as (place along the row in cavity widths, name)."""


class HasPlace(Protocol):
    """What a pin must show to be compared; pins and pin summaries both do."""

    @property
    def cavity(self) -> str:
        """The cavity."""

    @property
    def function(self) -> Function:
        """What it does."""

    @property
    def channel(self) -> Channel | None:
        """The channel of a pair."""

    @property
    def leg(self) -> Leg | None:
        """The leg of a pair."""


Meaning = tuple[str, str | None, str | None]
"""Function, channel and leg of a pin."""


def meanings(pins: Iterable[HasPlace]) -> dict[str, Meaning]:
    """Return what each cavity is said to do; pins of unknown function are left out."""
    return {
        pin.cavity: (pin.function, pin.channel, pin.leg)
        for pin in pins
        if pin.function != "unknown"
    }


def pose_map(housing: Housing, pose: Pose) -> dict[str, str]:
    """Return for each cavity the one that it would be taken for in `pose`.

    A cavity whose image falls on no cavity is left out. Every map is its own inverse.
    How the other face is held says `Housing.rows_swap`.
    """
    return dict(_pose_map(places_of(housing), not housing.rows_swap, pose))


def mirror(housing: Housing) -> dict[str, str]:
    """Return for each cavity the one that it would be taken for from the other face."""
    return pose_map(housing, "mirror")


def places_of(housing: Housing) -> Rows:
    """Return the cavities row by row, with their place along the row."""
    shifts = (*housing.row_shift, *(0.0 for _ in housing.rows))
    return tuple(
        tuple((column + shift, name) for column, name in enumerate(row) if name is not None)
        for row, shift in zip(housing.rows, shifts, strict=False)
    )


@lru_cache(maxsize=256)
def _pose_map(rows: Rows, upright: bool, pose: Pose) -> dict[str, str]:
    turned = pose in ("turn", "turn_mirror")
    reversed_rows = turned if upright else pose in ("mirror", "turn")
    reversed_columns = (pose in ("mirror", "turn")) if upright else turned
    found: dict[str, str] = {}
    for index in range(len(rows)):
        other = len(rows) - 1 - index if reversed_rows else index
        if index <= other:
            pairs = _row_pairs(rows, index, other, reversed_columns)
            found.update(pairs)
            found.update({image: name for name, image in pairs.items()})
    return found


def _row_pairs(rows: Rows, index: int, other: int, reverse: bool) -> dict[str, str]:
    """Match one row with its image, slid by the amount that matches most cavities."""
    span = [place for row in rows for place, _ in row]
    total = min(span, default=0.0) + max(span, default=0.0)
    moved = [(total - place if reverse else place, name) for place, name in rows[index]]
    slides = {0.0} | {
        round(target - place, 6)
        for place, _ in moved
        for target, _ in rows[other]
        if abs(target - place) <= _SLIDE
    }
    matches = [(slide, _matched(moved, rows[other], slide)) for slide in slides]
    return max(matches, key=lambda match: (len(match[1]), -abs(match[0]), match[0]))[1]


def _matched(
    moved: list[tuple[float, str]], targets: tuple[tuple[float, str], ...], slide: float
) -> dict[str, str]:
    return {
        name: target
        for place, name in moved
        for at, target in targets
        if abs(place + slide - at) <= _SAME_PLACE
    }


class PoseScore(NamedTuple):
    """How well two pin sets agree in one pose. `score` is 0 when nothing could be compared."""

    pose: Pose
    matches: int
    compared: int

    @property
    def score(self) -> float:
        """Matches over compared pins, 0 to 1."""
        return self.matches / self.compared if self.compared else 0.0


class PoseVerdict(NamedTuple):
    """The verdict on two pin sets of one plug: agree, view mix-up, conflict or too few.

    `best` is the pose that would explain them when the verdict is "view mix-up".
    """

    verdict: SetsVerdict
    scores: tuple[PoseScore, ...]
    best: PoseScore
    sentence: str


def compare_poses(
    housing: Housing, ours: Mapping[str, Meaning], theirs: Mapping[str, Meaning]
) -> PoseVerdict:
    """Compare two pin sets of one housing in the four poses."""
    return verdict_of([_scored(housing, pose, ours, theirs) for pose in POSES])


def verdict_of(scores: Sequence[PoseScore]) -> PoseVerdict:
    """Return what the scores of the four poses, in the order of `POSES`, say together."""
    stands = scores[0]
    best = max(scores, key=lambda score: (score.compared >= LEAST_COMPARED, score.score))
    verdict = _verdict(stands, best)
    return PoseVerdict(verdict, tuple(scores), best, _sentence(verdict, stands, best))


def _scored(
    housing: Housing, pose: Pose, ours: Mapping[str, Meaning], theirs: Mapping[str, Meaning]
) -> PoseScore:
    image = pose_map(housing, pose)
    both = [
        (ours[image[cavity]], meaning)
        for cavity, meaning in theirs.items()
        if image.get(cavity) in ours
    ]
    return PoseScore(pose, sum(mine == other for mine, other in both), len(both))


def _verdict(stands: PoseScore, best: PoseScore) -> SetsVerdict:
    if stands.score < AGREES and best.compared >= LEAST_COMPARED and _clearly(stands, best):
        return "view mix-up"
    if stands.compared < LEAST_COMPARED:
        return "too few"
    return "agree" if stands.score >= AGREES else "conflict"


def _clearly(stands: PoseScore, best: PoseScore) -> bool:
    """Whether another pose agrees, and explains the pins clearly better than as they stand."""
    share = best.score - stands.score > CLEARLY_BETTER - _ROUNDING
    more = best.matches - stands.matches >= LEAST_COMPARED and best.score > stands.score
    better = (share and best.matches >= stands.matches) or more
    return best.score >= AGREES and better


def _sentence(verdict: SetsVerdict, stands: PoseScore, best: PoseScore) -> str:
    compared = f"{stands.matches} of {stands.compared}"
    one = stands.compared == 1
    as_is = f"{compared} pin agrees as it stands" if one else f"{compared} pins agree as they stand"
    if verdict != "view mix-up":
        return as_is
    return f"{as_is}, {best.matches} of {best.compared} when one is {POSE_WORDS[best.pose]}"
