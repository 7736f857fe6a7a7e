"""Solids, cells, gaps, overlaps: knows no computer, no file, no picture."""
