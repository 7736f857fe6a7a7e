"""Tests of layout/questions/case."""
