"""A piece for a phone: the turn-on chain from the car to the last thing it switches."""

from __future__ import annotations

from builder.planning.circuit.model import CircuitWire, Element
from builder.rendering.drawings.canvas import Point
from builder.rendering.drawings.lettering import wrap
from builder.rendering.drawings.wiring.canvas_marks import lay, lay_bare, name_at, put_part
from builder.rendering.drawings.wiring.frame import first_name, wire_name
from builder.rendering.drawings.wiring.load_grounds import BOX, LoadGrounds, X
from builder.rendering.drawings.wiring.reading import Reading, Strand
from builder.rendering.drawings.wiring.scene import TITLE, Frame, Mark, Scene
from builder.rendering.drawings.wiring.upright import LINE, SIZE

STORE_X, STORE_ROOM = 230.0, 60.0


class ChainPiece:
    """Draws every hop of the turn-on one below the other."""

    def __init__(self, reading: Reading) -> None:
        self.reading, self.scene, self.index = reading, Scene(), reading.index
        self.boxes: dict[str, tuple[float, float]] = {}  # upper and lower edge by unit

    def draw(self) -> tuple[Scene, float]:
        """Return the scene and its height."""
        y, last = 2.0, ""
        controls = self.reading.controls
        for at, strand in enumerate(controls):
            begins = self.index.unit_of(strand.way[0]).id
            if begins != last:
                y = self._unit(y, None, strand.way[0])
            y = self._hop(strand, y)
            following = controls[at + 1].way[0] if at + 1 < len(controls) else ""
            last = self.index.unit_of(strand.way[-1]).id
            goes_on = bool(following) and self.index.unit_of(following).id == last
            y = self._unit(y, strand.way[-1], following if goes_on else None)
        bottom = LoadGrounds(self.reading, self.scene, self.boxes).draw()
        return self.scene, max(y, bottom) + 4

    def _unit(self, y: float, above: str | None, below: str | None) -> float:
        """A unit with a terminal at its upper edge, its lower edge or both; returns the lower."""
        unit, (x, wide) = self.index.unit_of(above or below or ""), BOX
        bottom = y + 28 + 19 * ((above is not None) + (below is not None))
        self.scene.frames.append(Frame("unit", (x, y, wide, bottom - y), (unit.id,), unit.id))
        self.boxes.setdefault(unit.id, (y, bottom))
        if above is not None:
            self.scene.say(self._name(above), X, y + 19, size=SIZE, anchor="middle")
        title = y + (38 if above is not None else 19)
        self.scene.say(unit.id, X, title, size=TITLE, anchor="middle", bold=True)
        if below is not None:
            self.scene.say(self._name(below), X, bottom - 10, size=SIZE, anchor="middle")
            self.scene.mark("screw", (X, bottom), *self._one_with(below))
        return bottom

    def _name(self, terminal: str) -> str:
        name = self.index.terminals[terminal].name
        return f"cavity {name}" if self.index.unit_of(terminal).kind == "plug" else name

    def _one_with(self, terminal: str) -> tuple[str, ...]:
        """A cavity with its contact in the socket."""
        found = [terminal]
        for joint in self.index.joints_of.get(terminal, []):
            if joint.kind == "plug_home":
                found += [joint.id, *(end for end in joint.joins if end != terminal)]
        return tuple(found)

    def _hop(self, strand: Strand, y: float) -> float:
        """The wires and parts between two units; returns where the next unit begins."""
        way = list(strand.way[1:-1])
        y = self._first(strand, y)
        held = False
        for piece in way:
            if piece in self.index.wires:
                y = self._wire(self.index.wires[piece], y)
            elif piece in self.index.elements:
                part = self.index.elements[piece]
                held |= part.kind == "diode"
                y = self._element(part, y)
            elif piece in self.index.joints:
                self._joint(piece, strand, y)
            elif piece in self.index.terminals:
                y = self._driver(piece, y)
        if held:
            y = self._hold_up(strand, y)
        self.scene.mark("screw", (X, y), strand.way[-1], way[-1])
        return y

    def _first(self, strand: Strand, y: float) -> float:
        """The car's own wire up to the tap."""
        terminal = self.index.terminals[strand.way[0]]
        name = first_name(self.reading, strand)
        if not name:
            return y
        cut = name_at(self.scene, name, X, y + 26)
        lay_bare(self.scene, (X, y), (X, y + 50), wire=terminal.wire, cut=cut)
        return y + 50

    def _wire(self, wire: CircuitWire, y: float) -> float:
        name = f"{wire.lies_in} {wire_name(wire)}" if wire.cable else wire.purpose
        lay(self.scene, wire, (X, y), (X, y + 50), name=name, at=(X, y + 26))
        return y + 50

    def _element(self, part: Element, y: float) -> float:
        lay_bare(self.scene, (X, y), (X, y + 36))
        words = "" if part.kind == "diode" else part.rating
        put_part(self.scene, part.kind, X, y + 18, part.id, words, upright=True)
        if not words:
            self.scene.say(f"{part.kind} {part.rating}", X - 16, y + 22, size=SIZE, anchor="end")
        return y + 36

    def _joint(self, piece: str, strand: Strand, y: float) -> None:
        kind = self.index.joints[piece].kind
        if kind == "tap":
            self.scene.mark("tap", (X, y), piece)
        elif piece != strand.way[-2]:
            self.scene.mark("dot", (X, y), piece)

    def _driver(self, terminal: str, y: float) -> float:
        """A driver's input and output at the edges of its box."""
        unit = self.index.unit_of(terminal).id
        if unit in self.scene.shown:
            self.scene.mark("contact", (X, y), terminal)
            lay_bare(self.scene, (X, y), (X, y + 14))
            return y + 14
        self.scene.frames.append(Frame("driver", (X - 70, y, 140.0, 30.0), (unit,), unit))
        self.scene.say(unit, X, y + 19, size=SIZE, anchor="middle", bold=True)
        self.scene.mark("contact", (X, y), terminal)
        return y + 30

    def _hold_up(self, strand: Strand, y: float) -> float:
        """Resistor beside diode, then the capacitor to ground, to the right of the wire."""
        charge, across, store = (
            next(p for p in self.reading.idle_parts if p.purpose.startswith(word))
            for word in ("charges", "empties", "holds")
        )
        low = y + 96
        lay_bare(self.scene, (X, y), (X, low))
        lay_bare(self.scene, (X, y + 8), (STORE_X, y + 8), (STORE_X, y + 14))
        for dx, part in ((-18.0, charge), (18.0, across)):
            lay_bare(self.scene, (STORE_X, y + 14), (STORE_X + dx, y + 14), (STORE_X + dx, y + 50),
                     (STORE_X, y + 50))  # fmt: skip
            put_part(
                self.scene,
                part.kind,
                STORE_X + dx,
                y + 32,
                part.id,
                "",
                upright=True,
                turned=part is across,
            )
        self.scene.say(charge.rating, STORE_X - 28, y + 36, size=SIZE, anchor="end")
        self.scene.say(across.rating, STORE_X + 30, y + 36, size=SIZE)
        lay_bare(self.scene, (STORE_X, y + 50), (STORE_X, y + 84))
        put_part(self.scene, "capacitor", STORE_X, y + 66, store.id, "", upright=True)
        for row, line in enumerate(wrap(store.rating, STORE_ROOM, SIZE)):
            self.scene.say(line, STORE_X + 14, y + 66 + LINE * row, size=SIZE)
        self._stored((STORE_X, y + 50), (STORE_X, y + 84), store)
        return low

    def _stored(self, top: Point, bottom: Point, store: Element) -> None:
        """The capacitor's two joints; it is grounded at a terminal beside."""
        met, ground = (self.index.joints_of[end][0] for end in store.ends)
        self.scene.mark("dot", top, met.id)
        where = next(end for end in ground.joins if end in self.index.terminals)
        self.scene.marks.append(Mark("screw", bottom, (where, ground.id)))
        self.scene.say(where, bottom[0] + 10, bottom[1] + LINE - 4, size=SIZE)
