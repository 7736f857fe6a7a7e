"""Tests of layout/questions/findings."""
