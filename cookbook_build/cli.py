"""The commands, gathered; thin. Words to calls, calls to exit codes.

0 done, 1 findings, 2 wrong use, 3 could not write.
"""

from __future__ import annotations

import click

from cookbook_build import __version__
from cookbook_build.commands.bind import bind
from cookbook_build.commands.console import speak_plainly
from cookbook_build.commands.draft import draft
from cookbook_build.commands.editor_help import editor_help
from cookbook_build.commands.foods import foods
from cookbook_build.commands.preview import preview
from cookbook_build.commands.proof import proof
from cookbook_build.commands.provision import provision
from cookbook_build.commands.start import start
from cookbook_build.commands.water import water


class InOrder(click.Group):
    """A group whose help names the commands in the order in which a book needs them."""

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002 - click's own signature
        """Return the names of the commands as they were added."""
        return list(self.commands)


@click.group(cls=InOrder, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="cookbook-build")
def main() -> None:
    """Bind a household's larder and recipes into an offline book with the right water."""
    speak_plainly()


for command in (start, preview, proof, bind, water, provision, foods, draft, editor_help):
    main.add_command(command)
