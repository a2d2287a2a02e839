"""Takes: sizes in mm, rings of lines and arcs, text of DXF and SVG drawings.
Gives: outlines, exact distances and reserves, offsets, corners, profiles, hollows, templates, pages.
May import: faults of its own only; nothing of furniture, numpy and shapely where they serve.
Start reading at: segment.py, then ring.py and outline.py.
"""
