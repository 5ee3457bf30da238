"""The record page as a person fills it in: fields by their path, cavities by their name."""

from __future__ import annotations

from typing import Any

_ANSWER = """
  const [id, value] = arguments, node = document.getElementById(id);
  if (node) {
    node.value = value;
    node.dispatchEvent(new Event(node.localName === "select" ? "change" : "input"));
    return node.value === value ? "" : id + " does not take " + value;
  }
  const group = document.querySelector('[aria-labelledby="' + id + '-label"]');
  const found = group && [...group.querySelectorAll("button")].find(b => b.textContent === value);
  if (!found) return "there is no field " + id + " for " + value;
  if (found.getAttribute("aria-pressed") !== "true") found.click();
  return "";
"""


class MakerPage:
    """One draft, open in a browser."""

    def __init__(self, browser: Any, address: str) -> None:
        self.browser, self.address = browser, address
        browser.open(f"{address}/record-maker.html")

    def emptied(self) -> MakerPage:
        """The page where nothing is kept: opened again when something was."""
        kept = self.browser.run(
            "const kept = localStorage.length; localStorage.clear(); return kept"
        )
        return MakerPage(self.browser, self.address) if kept else self

    def begin(self) -> None:
        """Begin a new car."""
        self.press("maker-new")

    def press(self, name: str) -> None:
        """Press what has this id, or the first button with this text that can be seen."""
        done = self.browser.run(
            "const named = document.getElementById(arguments[0]);"
            "const all = [...document.querySelectorAll('#maker-page button')];"
            "const found = named || all.find(b => b.checkVisibility() && (b.textContent ==="
            " arguments[0] || b.getAttribute('aria-label') === arguments[0]));"
            "if (found) found.click(); return !!found;",
            name,
        )
        assert done, f"there is no button {name!r}"

    def step(self, name: str) -> None:
        """Go to a step by its name."""
        done = self.browser.run(
            "const found = [...document.querySelectorAll('.maker-step')].find(b =>"
            " b.firstChild.data === arguments[0]); if (found) found.click(); return !!found;",
            name,
        )
        assert done, f"there is no step {name!r}"

    def answer(self, path: str, *values: str, kind: str = "vehicle") -> None:
        """Answer the field at a path such as "radio.outputs"; of buttons, press each value."""
        for value in values:
            field = f"maker-{kind}-{path.replace('.', '-').replace('_', '_')}"
            slip = self.browser.run(_ANSWER, field, value)
            assert slip == "", slip

    def answers(self, **given: str | tuple[str, ...]) -> None:
        """Answer several fields; two underscores stand for a dot."""
        for path, values in given.items():
            many = (values,) if isinstance(values, str) else values
            self.answer(path.replace("__", "."), *many)

    def none(self, path: str) -> None:
        """Say that somebody looked and there are none."""
        self.press(f"maker-vehicle-{path.replace('.', '-')}-none")

    def add(self, path: str) -> None:
        """Add an entry to a list, or open a group."""
        self.press(f"maker-vehicle-{path.replace('.', '-')}-add")

    def cavity(self, name: str) -> int:
        """Press a cavity of the drawing and return which entry of the pins it is."""
        self.browser.run(
            "document.querySelector('[data-cavity=\"' + arguments[0] + '\"]')"
            ".dispatchEvent(new MouseEvent('click', {bubbles: true}))",
            name,
        )
        at = self.browser.run(
            "const box = document.querySelector('.maker-pin [data-path*=pins]');"
            "return box ? JSON.parse(box.dataset.path)[3] : -1"
        )
        return int(at)

    def pin(self, plug: int, cavity: str, function: str, **more: str) -> None:
        """Describe a cavity; `more` are fields of the pin such as wire__base, or reading lines."""
        at = self.cavity(cavity)
        self.answer(f"plugs.{plug}.pins.{at}.function", function)
        for key, value in more.items():
            if key != "readings":
                self.answer(f"plugs.{plug}.pins.{at}.{key.replace('__', '.')}", value)
        for line in filter(None, more.get("readings", "").split("\n")):
            self.reading(f"plugs.{plug}.pins.{at}.readings", line.strip())
        self.press("maker-pin-done")

    def reading(self, path: str, line: str) -> None:
        """Type a reading in one line."""
        field = f"maker-vehicle-{path.replace('.', '-')}-line"
        self.browser.run(
            "const n = document.getElementById(arguments[0]); n.value = arguments[1];"
            "n.form.requestSubmit()",
            field,
            line,
        )
        assert self.browser.run(f"return document.getElementById('{field}').value") == "", line

    def take(self) -> tuple[list[str], dict[str, str]]:
        """Go to the last step; return the findings and the files by path."""
        self.step("Check and take")
        found = self.browser.run(
            "return [[...document.querySelectorAll('#maker-findings li')].map(l => l.textContent),"
            " [...document.querySelectorAll('.maker-file')].map(f => ["
            "f.querySelector('h3').textContent, (f.querySelector('textarea') || {}).value])]"
        )
        return list(found[0]), dict(found[1])


def describe_car(page: MakerPage, model: str, variant: str) -> None:
    page.begin()
    page.answers(data="invented", make="Ardent", model=model, variant=variant, edited="2025-05-10")
    page.step("Which cars")
    page.answers(scope__year_from="2019", scope__year_to="2021", scope__bodies="hatch, wagon")
    page.answers(scope__markets="all", scope__drive_side="left", scope__trims="base")
    page.none("scope.options_any")
    page.none("scope.options_none")
    page.answers(scope__radios=f"{model.lower()}-r1")


def describe_rest(page: MakerPage) -> None:
    page.step("Power")
    page.answers(power__battery__location="engine bay", power__battery__sensor_on_negative="no")
    page.answers(power__battery__capacity_ah="60")
    page.step("Safety")
    page.answers(safety__restraint_zones="steering wheel, under the front seats")
    page.none("safety.high_voltage_zones")
    page.press("maker-rest")
    page.step("Sounds to keep")
    page.none("protected_sounds")
    page.step("Its sisters")
    page.none("how_to_tell")
    page.step("Measuring")
    for number, (who, tag) in enumerate((("north-bay", "w4k9p"), ("quay-sound", "t7m2r"))):
        page.add("sessions")
        page.answers(
            **{
                f"sessions__{number}__by": who,
                f"sessions__{number}__date": f"2025-05-0{number + 2}",
                f"sessions__{number}__car__tag": tag,
                f"sessions__{number}__car__year": str(2019 + number),
                f"sessions__{number}__method": "meter",
                f"sessions__{number}__read_from": "wire side",
                f"sessions__{number}__against": "battery negative",
            }
        )


def describe_plug(page: MakerPage, name: str, unit: str, number: int = 0) -> None:
    page.step("Plugs")
    page.press("maker-add-plug")
    where = "behind the radio" if unit == "radio" else "at the box in the luggage bay"
    page.answers(
        **{
            f"plugs__{number}__name": name,
            f"plugs__{number}__unit": unit,
            f"plugs__{number}__location": where,
            f"plugs__{number}__shell_colours": "grey",
            f"plugs__{number}__read_from": "wire side",
        }
    )


def choose_shell(page: MakerPage, number: int, cavities: int, name: str) -> None:
    page.browser.run(
        "const s = document.getElementById(arguments[0]); s.value = arguments[1];"
        "s.dispatchEvent(new Event('change'))",
        f"maker-plug-{number}-count",
        str(cavities),
    )
    page.press(f"Take {name}")


EIGHT = (8, "8-cavity block A (supplies)")
TWENTY = (20, "20-cavity radio housing, two rows of ten")


def with_a_plug(browser: Any, address: str, shell: tuple[int, str]) -> MakerPage:
    """The page with a car begun, whose one plug has a housing of so many cavities and this name."""
    made = MakerPage(browser, address).emptied()
    describe_car(made, "Heron", "hatch")
    describe_plug(made, "main plug", "radio")
    choose_shell(made, 0, *shell)
    return made
