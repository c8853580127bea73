"""Measures: what people write for amounts, and the kitchen measures shown back to them.

Takes text or volumes [mL]; gives exact amounts, SI numbers and friendly measures.
May import: `findings`, `words`.

`numbers` reads 1½; `units` says what a cup holds; `amounts` reads `3/4 cup + 1 tbsp`;
`quantities` reads `310 m`; `spoons` shows 192 mL as `¾ cup + 1 tbsp`.
"""
