"""Whether cables have the room behind their plugs in which they bend."""
