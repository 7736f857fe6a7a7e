"""Tests of layout/parts/form."""
