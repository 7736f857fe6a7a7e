"""Tests of layout/parts/wiring."""
