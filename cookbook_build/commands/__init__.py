"""The commands, each in a module of its own; they load what they need when they are run.

`shared` finds the book that is meant and shows findings; `cli.py` beside this room gathers them.
"""
