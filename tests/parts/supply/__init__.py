"""Tests of layout/parts/supply."""
