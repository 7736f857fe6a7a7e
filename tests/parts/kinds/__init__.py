"""Tests of layout/parts/kinds."""
