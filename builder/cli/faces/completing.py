"""`loombook completion`: what a shell needs to complete commands and options."""

from __future__ import annotations

import click
from click.shell_completion import get_completion_class


@click.command()
@click.argument("shell", type=click.Choice(["bash", "fish", "zsh"]))
@click.pass_context
def completion(context: click.Context, shell: str) -> None:
    """Print the script that completes what is typed.

    \b
    bash   add to ~/.bashrc:  eval "$(loombook completion bash)"
    zsh    add to ~/.zshrc:   eval "$(loombook completion zsh)"
    fish   loombook completion fish > ~/.config/fish/completions/loombook.fish
    """
    maker = get_completion_class(shell)
    assert maker is not None
    click.echo(maker(context.find_root().command, {}, "loombook", "_LOOMBOOK_COMPLETE").source())
