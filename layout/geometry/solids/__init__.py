"""Solids, and the convex cells that they are cut into."""
