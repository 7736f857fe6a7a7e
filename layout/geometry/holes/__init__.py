"""Patterns of holes, and where they meet."""
