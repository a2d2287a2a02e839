"""A small job that takes board, laminate, linoleum and a strip of ash, for the tests of the rack."""

JOB = """format = 1
[job]
name = "Tool board"
currency = "DKK"
[[stock]]
material = "mdf-19"
size = [2440, 1220]
price = 310
[[stock]]
material = "linoleum-2"
width = 1830
price = 395
[buildup.board]
face = "hpl-0.8"
back = "hpl-0.8"
carrier = "mdf-19"
glue = "pva-d3"
[buildup.desk]
face = "linoleum-2"
back = "hpl-0.8"
carrier = "mdf-19"
glue = "pva-d3"
edging = { wood = "ash", width = 12 }
[[piece]]
name = "Board"
  [[piece.panel]]
  name = "back"
  buildup = "board"
  size = [900, 600]
  [[piece.panel]]
  name = "desk"
  buildup = "desk"
  size = [800, 500]
"""
