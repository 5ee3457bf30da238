"""A plug seen from the wrong face or upside down."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from proof_cars import housing, pin, speaker

from builder.model.housing import Housing
from builder.proof.faces.poses import (
    POSES,
    Pose,
    PoseScore,
    compare_poses,
    meanings,
    mirror,
    pose_map,
    verdict_of,
)

EIGHT = housing(("1", "2", "3", "4"), ("5", "6", "7", "8"))
STAGGERED = housing(("1", "2", "3", "4"), ("5", "6", "7", "8"), shift=(0.0, 0.5))
BRICK = housing(("1", "2", "3", "4"), ("5", "6", "7"), shift=(0.0, 0.5))
GAPPED = housing(("1", "2", None, "3"), ("4", None, "5", "6"))
LEFT_LATCH = housing(("1", "2"), ("3", "4"), latch="left")


def test_a_row_mirrors_end_for_end() -> None:
    assert mirror(EIGHT) == {str(p): str(5 - p) for p in range(1, 5)} | {
        str(p): str(13 - p) for p in range(5, 9)
    }


def test_a_turn_is_not_a_mirror() -> None:
    assert pose_map(EIGHT, "turn") == {str(p): str(9 - p) for p in range(1, 9)}
    assert pose_map(EIGHT, "turn_mirror")["1"] == "5"
    assert pose_map(EIGHT, "as_is") == {str(p): str(p) for p in range(1, 9)}


def test_staggered_rows_slide_onto_their_image() -> None:
    assert mirror(STAGGERED) == mirror(EIGHT)
    assert pose_map(STAGGERED, "turn") == pose_map(EIGHT, "turn")
    assert mirror(BRICK)["5"] == "7"
    assert mirror(BRICK)["6"] == "6"


def test_of_two_slides_that_match_as_many_a_short_row_takes_the_one_to_the_right() -> None:
    """Half a place to either side, three of the four meet a cavity: which, must never change."""
    assert pose_map(BRICK, "turn") == {"2": "7", "7": "2", "3": "6", "6": "3", "4": "5", "5": "4"}


def test_a_gap_has_no_image() -> None:
    assert mirror(GAPPED) == {"1": "3", "3": "1", "4": "6", "6": "4"}
    assert pose_map(GAPPED, "turn") == {
        "1": "6", "6": "1", "2": "5", "5": "2", "3": "4", "4": "3"
    }  # fmt: skip


def test_with_the_latch_at_the_side_the_other_face_is_seen_top_for_bottom() -> None:
    assert mirror(LEFT_LATCH) == {"1": "3", "3": "1", "2": "4", "4": "2"}


def test_a_shell_without_cavities_has_no_images() -> None:
    assert mirror(housing((None, None))) == {}


@st.composite
def shells(draw: st.DrawFn) -> Housing:
    counts = draw(st.lists(st.integers(1, 7), min_size=1, max_size=4))
    names = iter(range(1, 100))
    rows = tuple(
        tuple(None if draw(st.integers(0, 4)) == 0 else str(next(names)) for _ in range(count))
        for count in counts
    )
    if not any(name for row in rows for name in row):
        rows = (("1",), *rows[1:])
    shift = tuple(draw(st.sampled_from([0.0, 0.5, 1.0, 0.25])) for _ in counts)
    return housing(*rows, shift=shift, latch=draw(st.sampled_from(["top", "left", "bottom"])))


@given(shells(), st.sampled_from(POSES))
def test_every_pose_undoes_itself(shell: Housing, pose: Pose) -> None:
    image = pose_map(shell, pose)
    assert set(image) <= set(shell.cavities)
    assert all(image[other] == cavity for cavity, other in image.items())


FUNCTIONS = ("constant", "ground", "retained", "illumination", "amplifier_on", "aerial_on")


def described(cavities: dict[str, str]) -> dict[str, tuple[str, str | None, str | None]]:
    return meanings(pin(cavity, function) for cavity, function in cavities.items())


def test_mirrored_records_are_a_view_mix_up() -> None:
    ours = described(dict(zip("125678", FUNCTIONS, strict=True)))
    theirs = {mirror(EIGHT)[cavity]: meaning for cavity, meaning in ours.items()}
    found = compare_poses(EIGHT, ours, theirs)
    assert (found.verdict, found.best.pose, found.best.score) == ("view mix-up", "mirror", 1.0)
    assert found.scores[0].score < 0.5
    assert "6 of 6 when one is seen from the other face" in found.sentence


def test_equal_records_agree_and_others_conflict() -> None:
    ours = described(dict(zip("125678", FUNCTIONS, strict=True)))
    assert compare_poses(EIGHT, ours, ours).verdict == "agree"
    rolled = dict(zip("125678", (*FUNCTIONS[1:], FUNCTIONS[0]), strict=True))
    assert compare_poses(EIGHT, ours, described(rolled)).verdict == "conflict"


@pytest.mark.parametrize(("wrong", "verdict"), [(1, "view mix-up"), (2, "conflict")])
def test_eight_in_ten_is_enough(wrong: int, verdict: str) -> None:
    ours = described(dict(zip("125678", FUNCTIONS, strict=True)))
    theirs = {mirror(EIGHT)[cavity]: meaning for cavity, meaning in ours.items()}
    for cavity in list(theirs)[:wrong]:
        theirs[cavity] = ("speed", None, None)
    assert compare_poses(EIGHT, ours, theirs).verdict == verdict


def test_three_pins_decide_nothing() -> None:
    ours = described({"1": "constant", "2": "ground", "5": "retained"})
    theirs = {mirror(EIGHT)[cavity]: meaning for cavity, meaning in ours.items()}
    assert compare_poses(EIGHT, ours, theirs).verdict == "too few"


def test_channel_and_leg_are_part_of_a_meaning() -> None:
    assert meanings([speaker("3", "positive"), pin("4", "unknown")]) == {
        "3": ("speaker", "front-left", "positive")
    }


def test_ten_of_ten_against_four_of_seven_is_a_mirror() -> None:
    scores = [PoseScore("as_is", 4, 7), PoseScore("mirror", 10, 10), PoseScore("turn", 2, 9)]
    found = verdict_of([*scores, PoseScore("turn_mirror", 3, 8)])
    assert (found.verdict, found.best.pose) == ("view mix-up", "mirror")


@pytest.mark.parametrize(
    ("stands", "other", "verdict"),
    [
        ((3, 4), (4, 4), "conflict"),  # one slip is no mirror
        ((8, 10), (10, 10), "agree"),
        ((7, 10), (10, 10), "view mix-up"),
        ((6, 8), (13, 13), "view mix-up"),  # the places where it stands have no function
        ((6, 10), (4, 4), "conflict"),  # it explains fewer
        ((0, 0), (3, 3), "too few"),
        ((0, 0), (4, 4), "view mix-up"),
    ],
)
def test_poses_are_compared_with_each_other(stands, other, verdict) -> None:
    found = verdict_of([PoseScore("as_is", *stands), PoseScore("mirror", *other)])
    assert found.verdict == verdict
