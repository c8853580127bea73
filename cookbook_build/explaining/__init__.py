"""What every key means, told once: for editors, and for the page "Every key".

Takes the models and columns of `manuscript`; gives words (`book`, `larder`, `recipes`, `menus`,
`tables`), what is known of each key (`keys`), what editors check with (`schemas`, `forms`), the
line that tells them so (`editor_files`), and a page (`reference`). Nothing that proofs or binds
imports this room.
"""
