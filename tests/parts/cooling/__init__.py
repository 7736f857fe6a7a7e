"""Tests of layout/parts/cooling."""
