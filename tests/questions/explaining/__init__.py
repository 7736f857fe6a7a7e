"""Tests of layout/questions/explaining."""
