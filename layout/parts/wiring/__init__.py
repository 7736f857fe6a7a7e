"""Cables, hoses, plugs and what is plugged where."""
