"""A photo named in an interview: its file is looked for at once, and what it shows is asked."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from builder.cli.asking import Terminal
from builder.cli.pin_prompting import NO
from builder.editing.drafts import AnswerError
from builder.editing.drafts.vehicle_lines import photo_line, shown_under
from builder.editing.interview.log import PHOTO, Log
from builder.pipeline.changing.evidence_files import PhotoRefusedError
from builder.pipeline.changing.kept_photos import BarePhoto, bare_photo_of
from builder.speller import nearest

Keep = Callable[[BarePhoto], str]
"""Lays a photo where the draft is, and returns the name that it has there."""


_MAY_BE_SHOWN = (
    "  may pages show it? No person, plate or chassis number on it, and who took it and whose car "
    "it is agree: type licence and handle, as in CC0-1.0 alder-pit-audio (Enter: no)"
)


def take_photo(terminal: Terminal, log: Log, text: str, keep: Keep) -> None:
    """Take a photo that was named as `FILE what it shows`; what is missing is asked at once."""
    path, shows = _parted(text)
    photo = _found(terminal, path)
    if photo is None:
        terminal.say("  left out")
        return
    shows = shows or terminal.read("  what does it show, and from which side?", "").strip()
    try:
        photo_line(f"{photo.name} {shows}")
        name = keep(photo)
    except (AnswerError, OSError) as error:
        terminal.say(f"  left out: {error}")
        return
    terminal.say(f"  photo {name}: kept beside the draft, without place, time and device")
    log.take(PHOTO, _with_leave(terminal, f"{name} {shows}"))


def _with_leave(terminal: Terminal, line: str) -> str:
    """The line of a photo with the licence that pages show it under; without one unless typed."""
    while True:
        given = terminal.read(_MAY_BE_SHOWN, "").strip()
        if not given or given.lower() in NO:
            return line
        try:
            photo_line(line + shown_under(given))
        except AnswerError as error:
            terminal.say(f"  {error}")
            continue
        return line + shown_under(given)


def _found(terminal: Terminal, path: Path) -> BarePhoto | None:
    """The photo at a path, or at another that is typed; None when an empty line ends it."""
    while True:
        try:
            return bare_photo_of(path)
        except FileNotFoundError:
            terminal.say(f"  there is no file {path}{_near(path)}")
        except PhotoRefusedError as error:
            terminal.say(f"  {error}")
        except OSError as error:
            terminal.say(f"  {path} cannot be read: {error.strerror or error}")
        typed = terminal.read("  the photo's file (Enter leaves it out)", "").strip()
        if not typed:
            return None
        path = _parted(typed)[0]


def _near(path: Path) -> str:
    """A file of that folder with nearly the same name, as a question."""
    try:
        names = sorted(each.name for each in path.parent.iterdir() if each.is_file())
    except OSError:
        return ""
    near = nearest(path.name, names)
    return f": did you mean {near}?" if near else ""


def _parted(text: str) -> tuple[Path, str]:
    """The file and what it shows; a name with blanks stands in quotes, or is one that is there."""
    if text[:1] in ('"', "'") and text.count(text[0]) > 1:
        name, _, shows = text[1:].partition(text[0])
        return Path(name).expanduser(), shows.strip()
    words = text.split()
    ways = [" ".join(words[:count]) for count in range(1, len(words) + 1)]
    name = next((way for way in ways if Path(way).expanduser().is_file()), words[0])
    return Path(name).expanduser(), text[len(name) :].strip() if text.startswith(name) else ""
