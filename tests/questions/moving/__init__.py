"""Tests of layout/questions/moving."""
