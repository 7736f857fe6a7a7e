"""Whole sheets of a build: views, findings and details."""
