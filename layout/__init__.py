"""Clearances inside a computer case: exact in space, drawn in two views."""
