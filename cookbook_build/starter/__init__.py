"""The book that `start` writes: a small working one, each line with its explanation.

Takes: the answers to four questions and a folder. Gives: the folder filled. The books to begin
from stand beside this file, a folder a language (`en`, `es`); each is a whole book as it is, and
an answer takes the place of one line of its `book.yaml`. In them `##` begins an explanation and
`# ` a line for later. May import the leaves and `manuscript`, whose readers judge the answers.
"""
