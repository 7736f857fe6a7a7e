"""Tests of layout/parts/card."""
