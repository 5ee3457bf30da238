"""The documents say what is so: commands, layers, files and rule ids they name exist."""

from __future__ import annotations

import re
import shlex
import tomllib

import click
import pytest
from shipped_book import ROOT, loombook

from builder.cli import main
from builder.rules.registry import BY_ID

README = (ROOT / "README.md").read_text("utf-8")
HANDBOOK = sorted((ROOT / "site_templates" / "handbook").glob("*.md"))
TEN = "ten-minutes.md"
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text("utf-8")
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))


def test_the_two_commands_stand_first_and_exist():
    blocks = re.findall(r"^```\n(.*?)^```", README, re.M | re.S)
    assert [block.strip() for block in blocks[:2]] == ["sh .ci/build", "sh .ci/test"]
    for name in ("build", "test", "run", "prepare"):
        assert (ROOT / ".ci" / name).is_file()
    assert "exec sh .ci/test" in (ROOT / ".ci" / "run").read_text("utf-8")


@pytest.mark.parametrize(
    ("line", "printed"),
    re.findall(r"^```console\n\$ \.venv/bin/loombook ([^\n]*)\n(.*?)^```", README, re.M | re.S),
)
def test_the_commands_of_the_readme_print_what_it_shows(line, printed, monkeypatch):
    monkeypatch.chdir(ROOT)
    done = loombook(*shlex.split(line))
    assert done.exit_code == 0, done.output
    assert done.output == printed


def to_run(page):
    """The commands of a page's code blocks; in a block of text stand those that need a file."""
    blocks = re.findall(r"^```(\w*)\n(.*?)^```", page.read_text("utf-8"), re.M | re.S)
    plain = "\n".join(block for language, block in blocks if not language)
    return re.findall(r"^loombook (.*)$", plain, re.M)


@pytest.mark.parametrize(
    ("page", "line"),
    [(page.name, line) for page in HANDBOOK if page.name != TEN for line in to_run(page)],
)
def test_the_commands_of_the_handbook_answer(page, line, monkeypatch):
    """Those of the ten minutes are typed one after the other, by a test of their own."""
    monkeypatch.chdir(ROOT)
    done = loombook(*shlex.split(line))
    assert done.exit_code == 0, (page, done.output)


def told_commands(text):
    """Each command that is named in the prose of a text, or in a block that is not run."""
    prose = re.findall(r"(?<!`)`loombook ([^`]+)`", text)
    blocks = "".join(re.findall(r"^```\w*\n(.*?)^```", text, re.M | re.S))
    typed = re.findall(r"^(?:\$ \.venv/bin/)?loombook (.*)$", blocks, re.M)
    return [" ".join(words.split()) for words in prose] + typed


@pytest.mark.parametrize("page", [ROOT / "README.md", *HANDBOOK], ids=lambda page: page.name)
def test_every_command_that_is_told_can_be_typed(page):
    for told in told_commands(page.read_text("utf-8")):
        words, command = shlex.split(told.split(";")[0]), main
        while isinstance(command, click.Group) and words:
            found = command.get_command(click.Context(command), words[0])
            assert found is not None, f"{page.name}: loombook {told}"
            command, words = found, words[1:]
        known = {name for each in command.params for name in (*each.opts, *each.secondary_opts)}
        assert {word for word in words if word.startswith("-")} <= {"--help", *known}, (
            f"loombook {told}"
        )


def test_every_command_teaches():
    for name, command in main.commands.items():
        assert command.help and len(command.help.split()) >= 8, name
        for option in command.params:
            if isinstance(option, click.Option) and not option.is_eager:
                assert option.help, f"{name} --{option.name}"


def test_the_layers_of_the_guide_are_those_that_are_enforced():
    layers = PROJECT["tool"]["importlinter"]["contracts"][0]["layers"]
    enforced = {name for layer in layers for name in layer.split(" | ")} - {"__main__"}
    table = DEVELOPERS.split("| layer | what it does |")[1].split("\n\n")[0]
    told = {name for row in table.splitlines()[1:] for name in re.findall(r"`(\w+)`", row)}
    assert enforced <= told


@pytest.mark.parametrize("text", [README, DEVELOPERS], ids=["README", "DEVELOPERS"])
def test_files_and_rules_named_in_the_documents_exist(text):
    for link in re.findall(r"\]\(([^)#]+)\)", text):
        assert (ROOT / link).exists(), link
    for path in re.findall(r"`((?:builder|tests|site_templates|schema|pinouts)/[\w/.-]+)`", text):
        assert (ROOT / path).exists(), path
    for rule_id in re.findall(r"\b(?:PIN|MET|EVD)[0-9]{3}\b", text):
        assert rule_id in BY_ID


def test_the_version_of_the_guide_is_the_version_of_the_tool():
    from builder import __version__

    assert f"- {__version__}:" in DEVELOPERS
