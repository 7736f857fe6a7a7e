"""Pairs of cells: how far apart they are, whether they interfere, what frees them."""
