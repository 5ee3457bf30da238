"""The words of a grade: why it is what it is, and the cheapest thing that would raise it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

from builder.figures import shown
from builder.model.house_defaults import HouseDefaults
from builder.model.plugs import Pin
from builder.model.session import tagged
from builder.model.vehicle import NOBODY_REGISTERED, Vehicle
from builder.model.words import GradeBand
from builder.proof.grading.combining import Side, copies
from builder.proof.grading.item import Item
from builder.proof.grading.probed import READ_IT, UNREAD
from builder.proof.identify.splitting import deciding_measurement
from builder.proof.mistaken import undecided
from builder.proof.signatures.of_pins import kinds_of_function, kinds_of_pin, kinds_on_rail
from builder.proof.signatures.shapes import Kind
from builder.proof.signatures.table import COST_WEIGHT, LOAD_EFFORT, STATE_COST
from builder.proof.words import Defining, Method

_NOBODY = Side(0.0, frozenset(), False, (), False)


@dataclass(frozen=True, slots=True)
class Facts:
    """Everything a grade's words are made from."""

    vehicle: Vehicle
    pin: Pin
    defaults: HouseDefaults
    year: int | None
    items: tuple[Item, ...] = ()
    support: Side = _NOBODY
    against: Side = _NOBODY
    years: tuple[int, ...] = ()
    factor: float = 1.0
    silent: bool = False  # readings were taken, in none of the states that define it
    unread: bool = False  # no meter was on this wire; its partner's readings speak for it

    def kind(self) -> Kind | None:
        """The signature that the best measured item fits, else the first the pin may have."""
        best = self.best_measured()
        if best:
            return kinds_on_rail(self.vehicle.factory_amplifier.rail_v, self.defaults)[best.kind]
        return next(iter(kinds_of_pin(self.vehicle, self.pin, self.defaults)), None)

    def best_measured(self) -> Item | None:
        """The heaviest measured item that supports the pin."""
        return next((item for item in self.support.items if item.measured), None)

    def missing(self) -> tuple[Defining, ...]:
        """Names of the defining states that the best measured item leaves open."""
        best, kind = self.best_measured(), self.kind()
        return best.missing if best else tuple(kind.defining) if kind else ()

    def missing_words(self) -> tuple[str, ...]:
        """The same in words."""
        kind = self.kind()
        return tuple(kind.defining[name] for name in self.missing()) if kind else ()


def reasons(facts: Facts) -> tuple[str, ...]:
    """Say why a grade is what it is, a sentence for each fact that moved it."""
    if not facts.items:
        return (_nothing(facts),)
    said = [_who(facts), *(item.because for item in facts.against.items)]
    said += [f"set aside: {item.because}" for item in facts.items if item.retired]
    return tuple(sentence for sentence in (*said, *_limits(facts)) if sentence)


def _nothing(facts: Facts) -> str:
    if facts.pin.function == "unknown":
        return "the record does not say what this pin does"
    if facts.silent:
        return "its readings were taken in none of the states that define its function"
    return "nobody has measured or claimed it"


def _who(facts: Facts) -> str:
    if not facts.support.items:
        return "nobody supports it"
    count = len(facts.support.contributors)
    people = "one contributor" if count == 1 else f"{count} contributors"
    found = dict.fromkeys(item.method for item in facts.support.items)
    both = found.keys() >= _PROOFS
    methods = [_METHODS[each] for each in found if not (both and each in _PROOFS)]
    proofs = ["full and partial proof"] if both else []
    return ", ".join([people, *proofs, *methods, *_cars(facts)])


_PROOFS: frozenset[Method] = frozenset({"full", "part"})


_METHODS: dict[Method, str] = {
    "full": "full proof",
    "part": "partial proof",
    "job": "a job on another car",
    "paper": "paper",
    "colour": "wire colour",
    "told": "hearsay",
}


def _cars(facts: Facts) -> list[str]:
    if not facts.years:
        return []
    return ["measured on model year " + " and ".join(str(year) for year in facts.years)]


def _limits(facts: Facts) -> list[str]:
    side, house = facts.support, facts.defaults
    said = list(_counted_together(facts))
    if facts.unread:
        said.append(f"{UNREAD}: at most {shown(house.cap_unmeasured, 2)}")
    elif side.items and not side.measured:
        said.append(f"nobody measured it: at most {shown(house.cap_unmeasured, 2)}")
    elif side.items and not side.independent and side.strength > house.cap_one_contributor:
        said.append(f"{_alone(side)}: at most {shown(house.cap_one_contributor, 2)}")
    if any(item.measured and not item.face_known and not item.retired for item in facts.items):
        said.append(
            f"face not recorded: those readings weigh {shown(house.cap_unknown_face, 2)} at most"
        )
    if any(not item.in_scope for item in side.items) and facts.factor < 1:
        said.append("measured on a neighbouring trim or drive side only")
    if facts.factor < 1 and not _near(facts):
        said.append(f"nobody measured a car within one year of {facts.year}")
    if copies(item for item in facts.items if item.weight > 0):
        said.append("the same figures handed in by several people count once")
    return said


def _counted_together(facts: Facts) -> Iterator[str]:
    """Yield a sentence for handles on one side that are one contributor."""
    for supports in (True, False):
        handles: defaultdict[str, set[str]] = defaultdict(set)
        for item in facts.items:
            if item.supports is supports and item.weight > 0:
                handles[item.counts_as].add(item.contributor)
        for counted, those in handles.items():
            if len(those) > 1:
                unknown = counted == NOBODY_REGISTERED
                why = "are handles that nobody registered" if unknown else "are one by their look"
                yield f"{' and '.join(sorted(those))} {why}: they count as one contributor"


def _alone(side: Side) -> str:
    if len(side.contributors) == 1:
        return "one contributor alone"
    (car,) = {item.car for item in side.items}
    return f"all of them measured one car, {tagged(car)}, and no other"


def _near(facts: Facts) -> bool:
    return facts.year is None or any(abs(facts.year - seen) <= 1 for seen in facts.years)


def raise_by(facts: Facts, band: GradeBand) -> str:
    """Say the cheapest thing that would raise the grade; "" when it is proven."""
    if facts.pin.function == "unknown":
        return "read it in every key state and let the readings name it"
    if band == "proven":
        return ""
    if facts.against.items:
        return _settle(facts)
    best = facts.best_measured()
    if best is None:
        return _measure_first(facts)
    return _complete(facts, best)


def _complete(facts: Facts, best: Item) -> str:
    alone, one_car = not facts.support.independent, len(facts.support.contributors) > 1
    steps = (
        (facts.unread, ": ".join(filter(None, (READ_IT, _cheapest(facts))))),
        (not best.face_known, "write down from which face the cavities were counted"),
        (bool(facts.missing()), f"measure: {_cheapest(facts)}"),
        (best.battery_missing, "write the battery volts beside each reading"),
        (not _near(facts), f"readings from a {facts.year} car"),
        (facts.factor < 1, "readings from a car of the scope itself"),
        (alone and one_car, "readings of another car"),
        (alone, "readings by a second contributor"),
    )
    return next((words for due, words in steps if due), "full readings by one more contributor")


def _measure_first(facts: Facts) -> str:
    kind = facts.kind()
    if kind is None or not kind.defining:
        return "no reading settles it; a second, independent paper would help"
    return f"measure: {_cheapest(facts)}"


def _cheapest(facts: Facts) -> str:
    kind = facts.kind()
    if kind is None or not facts.missing():
        return ""
    name = min(facts.missing(), key=lambda name: _effort(kind, name))
    return kind.defining[name]


def _effort(kind: Kind, name: Defining) -> int:
    wanted = "bias" if name == "other_bias" else name
    return min(
        (
            COST_WEIGHT[STATE_COST[state]]
            + (0 if "none" in row.loads or not row.loads else LOAD_EFFORT)
            for row in kind.rows
            if wanted in row.proves
            for state in row.states
        ),
        default=99,
    )


def _settle(facts: Facts) -> str:
    """Name the one measurement that decides between the record and what speaks against it."""
    measured = next((item for item in facts.against.items if item.measured), None)
    if measured:
        return f"repeat the reading that speaks against it, with a witness: {measured.because}"
    return _between_functions(facts)


def _between_functions(facts: Facts) -> str:
    live = {item.contributor for item in facts.against.items}
    claims = facts.pin.claims
    opposed = [c for c in claims if c.by in live and c.says != facts.pin.function]
    if not opposed:
        return "play a tone on that channel alone and read AC volts across the pair"
    ours = kinds_of_pin(facts.vehicle, facts.pin, facts.defaults)
    theirs = kinds_of_function(opposed[0].says, facts.defaults)
    decides = deciding_measurement(ours, theirs)
    if decides is None:
        return undecided(facts.pin.function, opposed[0].says)
    return f"the reading that decides: {decides.words}"
