"""Tests of layout/drawing/charts."""
