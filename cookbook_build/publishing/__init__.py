"""Publishing: writes the editions. Computes nothing; every number was made before it came here.

Takes a `Reckoning`; gives files in a folder.
May import: `planning` and what lies before it, for their types.

`wording` turns numbers into words, `prose` Markdown into HTML, `views` a dish into what a
template shows; `pages` renders the folder of pages with a theme, `epub` the e-books; `editions`
writes it all whole.
"""
