"""The preview: a book on the screen of who writes it, made again whenever a file is saved.

Takes the folder of a book; gives pages on the loopback address of this device and nowhere else.
May import: `manuscript`, `planning`, `publishing`, and the leaves.

`watching` says what changed in the folder, `kept` holds the last good book, `panel` shows what is
to be mended, `shown` joins both to what stands at an address, `serving` answers a browser and
has it load again what changed, `session` runs them all until it is stopped.
"""
