"""Small jobs as a maker writes them, for tests of what is shown of them."""

BARE_BELOW = """format = 1
[job]
name = "Bare below"
[buildup.top]
face = "linoleum-2"
carrier = "mdf-19"
glue = "pva-d3"
edging = { wood = "oak", width = 12 }
[[piece]]
name = "Counter"
  [[piece.panel]]
  name = "top"
  use = "top"
  buildup = "top"
  size = [1600, 600]
"""
"""A top faced on one side only: it is seen to bow."""
