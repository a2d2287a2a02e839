"""Steps that shape the tables of the rack, one after another; a step once published never changes."""
