"""Runs the commands as `python -m cookbook_build`."""

from cookbook_build.cli import main

main(prog_name="cookbook-build")
