"""Tests of layout/parts/board."""
