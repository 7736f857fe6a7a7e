"""Tests of layout/questions/reach."""
