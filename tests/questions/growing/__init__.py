"""Tests of layout/questions/growing."""
