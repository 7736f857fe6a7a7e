"""Tests of layout/questions/clearances."""
