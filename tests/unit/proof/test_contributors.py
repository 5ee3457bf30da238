"""Who counts as one contributor: no spelling of a shop's name makes a second shop of it."""

from __future__ import annotations

from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from proof_cars import claim, full_constant, pin, reading, session, vehicle

from builder.model.contributor import Contributor
from builder.model.house_defaults import HouseDefaults
from builder.model.plugs import Claim, Reading, Session
from builder.model.vehicle import NOBODY_REGISTERED
from builder.proof.contributors import counted_as, look_alike, twins, with_counts
from builder.proof.grading.grade import Grade, grade_pin
from builder.speller import alike_among, spelt_alike

HOUSE = HouseDefaults()
SPELLINGS = (
    "alderpit-audio", "alder-pitt-audio", "alder-pit-adio", "alder-pit-auido", "audio-alder-pit",
    "a1der-pit-audio", "alder-pit", "alder-pit-sound", "alder-pit-garage", "aldr-pit-audoi",
    "alder-plt-audio",
)  # fmt: skip
"""Of alder-pit-audio: blanks, letters, order, look, and the words of the trade."""
OTHERS = ("harbour-sound", "bay-four-sound", "old-mill-sound", "alder-yard-audio", "kesta-dunn")
"""Shops of the trade that are others."""


def known(*handles: str, **more: tuple[str, ...]) -> dict[str, Contributor]:
    """Each registered, the first the oldest; `alder_pit=("x",)` is what it is not the same as."""
    return {
        handle: Contributor(
            id=handle,
            data="invented",
            name=handle,
            kind="shop",
            since=f"20{10 + at}-01-01",
            not_same_as=more.get(handle.replace("-", "_"), ()),
        )
        for at, handle in enumerate(handles)
    }


def measured_by(
    one: str, other: str, registered: dict[str, Contributor], claims: tuple[Claim, ...] = (),
    **car: str,
) -> Grade:  # fmt: skip
    """The grade of a constant that two handles measured in full, each with a meter of its own."""
    again = tuple(
        reading(r.state, (r.value or 0) - 0.01, battery_v=(r.battery_v or 0) - 0.01, load=r.load,
                session="s2", minutes=r.minutes)
        for r in full_constant()
    )  # fmt: skip
    return graded(
        (*full_constant(), *again),
        (session(by=one), session("s2", other, **car)),
        registered,
        claims,
    )


def graded(
    readings: tuple[Reading, ...], sessions: tuple[Session, ...],
    registered: dict[str, Contributor], claims: tuple[Claim, ...] = (),
) -> Grade:  # fmt: skip
    wire = pin("1", "constant", readings=readings, claims=claims)
    car = vehicle(wire, sessions=sessions)
    return grade_pin(with_counts(car, counted_as(car.handles, registered)), wire, HOUSE)


@pytest.mark.parametrize("spelling", SPELLINGS)
def test_two_spellings_of_one_shop_never_prove_a_pin(spelling: str) -> None:
    shop = "alder-pit-audio"
    for registered in (known(), known(shop), known(spelling), known(shop, spelling)):
        grade = measured_by(shop, spelling, registered)
        assert (grade.band, grade.contributors) == ("good", 1), registered
        assert grade.score == pytest.approx(0.80)
        assert f"{' and '.join(sorted((shop, spelling)))} are " in grade.why
        assert grade.raise_by == "readings by a second contributor"


def test_any_two_handles_that_nobody_registered_are_one() -> None:
    grade = measured_by("tin-roof-one", "somebody-else", known("harbour-sound"))
    assert (grade.band, grade.contributors) == ("good", 1)
    assert "are handles that nobody registered: they count as one contributor" in grade.why


def test_two_registered_shops_prove_what_they_did() -> None:
    for one, other in combinations(OTHERS, 2):
        assert measured_by(one, other, known(one, other)).band == "proven"


def test_a_registered_shop_and_one_that_nobody_knows_are_two() -> None:
    grade = measured_by("harbour-sound", "nobody-knows", known("harbour-sound"))
    assert (grade.band, grade.contributors) == ("proven", 2)


def test_two_that_look_alike_are_two_when_both_say_so() -> None:
    handles = ("alder-pit-audio", "alder-pit-sound")
    both = known(*handles, alder_pit_audio=handles[1:], alder_pit_sound=handles[:1])
    one = known(*handles, alder_pit_audio=handles[1:])
    assert measured_by(*handles, both).band == "proven" and twins(both) == ()
    assert measured_by(*handles, one).band == "good"
    assert [(each.first, each.second) for each in twins(one)] == [handles]


def test_one_key_is_one_contributor_whatever_the_handles() -> None:
    two = known("harbour-sound", "kesta-dunn")
    key = "ssh-ed25519 AAAAC3NzaC1lZDI1NTE5AAAAIExample00000000000000000000000000000000000"
    shared = {name: _with_key(each, key) for name, each in two.items()}
    assert measured_by("harbour-sound", "kesta-dunn", shared).band == "good"
    (found,) = twins(shared)
    assert found == ("harbour-sound", "kesta-dunn", "share a public key")


def _with_key(contributor: Contributor, key: str) -> Contributor:
    facts = {name: getattr(contributor, name) for name in ("id", "data", "name", "kind", "since")}
    return Contributor(**facts, public_keys=(key,))


def test_one_car_read_by_two_shops_is_not_proven() -> None:
    two = known("harbour-sound", "kesta-dunn")
    grade = measured_by("harbour-sound", "kesta-dunn", two, car_tag="tag-harbour-sound")
    assert (grade.band, grade.contributors) == ("good", 2)
    assert grade.score == pytest.approx(HOUSE.cap_one_contributor)
    assert "measured one car, shop's tag tag-harbour-sound, and no other: at most 0.85" in grade.why
    assert grade.raise_by == "readings of another car"


def test_of_two_cars_the_one_that_nobody_else_read_counts() -> None:
    two, other = known("harbour-sound", "kesta-dunn"), "car-of-its-own"
    for own in ("s1", "s2"):  # which of the first one's cars comes first changes nothing
        tags = {"s1": "both-read", "s2": "both-read", own: other}
        sessions = (
            session("s1", "harbour-sound", car_tag=tags["s1"]),
            session("s2", "harbour-sound", car_tag=tags["s2"]),
            session("s3", "kesta-dunn", car_tag="both-read", date="2024-05-20"),
        )
        readings = tuple(
            reading(r.state, (r.value or 0) - at / 100, battery_v=(r.battery_v or 0) - at / 100,
                    load=r.load, session=f"s{at}", minutes=r.minutes)
            for at in (1, 2, 3)
            for r in full_constant()
        )  # fmt: skip
        assert graded(readings, sessions, two).band == "proven"


def test_papers_of_unregistered_handles_weigh_as_one() -> None:
    papers = tuple(
        claim(by, method="paper") for by in ("first-paper", "second-paper", "third-paper")
    )
    together = graded((), (), known(), papers)
    alone = graded((), (), known(), papers[:1])
    assert together.score == pytest.approx(alone.score) and together.contributors == 1


def test_what_a_handle_counts_as() -> None:
    registered = known("alder-pit-audio", "harbour-sound")
    said = counted_as(["alder-pit-audio", "alderpit-audio", "nobody-knows"], registered)
    assert said == {"alderpit-audio": "alder-pit-audio", "nobody-knows": NOBODY_REGISTERED}


def test_the_others_of_the_trade_do_not_look_alike() -> None:
    shops = (*OTHERS, "alder-pit-audio", "bay-1", "bay-2", "north-bay-audio", "south-bay-audio")
    assert [two for two in combinations(shops, 2) if look_alike(*two)] == []
    assert all(look_alike("alder-pit-audio", each) for each in SPELLINGS)


HANDLES = st.lists(
    st.text("abo01-", min_size=1, max_size=12).filter(lambda name: name.strip("-")), max_size=12
)


@given(HANDLES)
def test_the_quick_search_finds_what_every_pair_would(names: list[str]) -> None:
    unique = list(dict.fromkeys(names))
    slow = {two for two in combinations(unique, 2) if spelt_alike(*two)}
    assert set(alike_among(tuple(names))) == slow


@given(HANDLES)
def test_alike_is_the_same_from_both_sides(names: list[str]) -> None:
    for one, other in combinations(names, 2):
        assert spelt_alike(one, other) == spelt_alike(other, one)
        assert look_alike(one, other) == look_alike(other, one)
