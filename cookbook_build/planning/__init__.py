"""Planning: the author's words and the kitchen's numbers put together and added up.

Takes a `Manuscript`; gives stores with their weights, dishes with their water, provisions.
May import: `manuscript`, `kitchen`, `preserving`, `measures`, `foods`, `findings`.

`stores` and `pots` weigh the larder, `dishes` computes meals, `provisions` walks a menu
back to shelf, dryer and shop, `lessons` learns from trials, `unit_slips` explains water that is
far off, and `suggestions` says what might be better;
`reckoning` does all of it for a whole book.
"""
