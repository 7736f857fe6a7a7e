"""Drives and their cage."""
