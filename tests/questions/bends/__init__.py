"""Tests of layout/questions/bends."""
