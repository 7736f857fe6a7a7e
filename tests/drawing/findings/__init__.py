"""Tests of layout/drawing/findings."""
