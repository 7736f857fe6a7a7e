"""Expansion cards and what holds them up."""
