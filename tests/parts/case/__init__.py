"""Tests of layout/parts/case."""
