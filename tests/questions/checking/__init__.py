"""Tests of layout/questions/checking."""
