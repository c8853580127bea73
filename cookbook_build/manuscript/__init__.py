"""Manuscript: the author's files, read and checked, with the place of every word kept.

Takes a folder of text files; gives a `Manuscript` and all `Findings`.
May import: `findings`, `measures`, `foods`, `words`.

The order of work: `source` (text and lines), `nodes` (YAML with places; `slips` says what went
wrong where YAML is not well formed), `schema` and `fields` (what may stand where), `checking`
(nodes against schema), `meanings` (what a cook means by another word), `naming` (a file by its
title), `strays` (files that nobody reads), `ingredients` and `body` (kitchen English and Markdown;
`tags`, the few of HTML that a page may ask for), then `larder`, `recipes`, `menus`, and what
readers sent (`reply_blocks` finds their forms, `reply_words` their plain meaning in the languages
of `reply_languages`, `replies` the trials), and the household's tables (`sheets` turns a CSV file's
bytes into cells, `tables` finds columns and rows, `cells` says what a cell means, `logs` reads
stock and drying log, `lots` what they say of each other); `collection` reads them all and checks
what they say of each other.
"""
