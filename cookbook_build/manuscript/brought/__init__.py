"""Recipes that come from elsewhere: a text as people type it, a page saved from the web.

Takes a file; gives each recipe in it as `Brought`, and findings about the file. All of it is a
stranger's: it is text and nothing else, and is kept even where it has no place.

The order of work: `files` (bytes and what kind of file they are), `page` (a page's JSON-LD),
`linked_data` (schema.org's Recipe) or `text` (a plain text), with `signs` (clean text) and `yields`
(how many it serves). `drafting`, beside this folder, makes the book's own file of it.
"""
