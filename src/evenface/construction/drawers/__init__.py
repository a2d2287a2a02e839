"""Drawers: the box, its runners and the air it moves in, in a carcase or for an opening that is there already."""
