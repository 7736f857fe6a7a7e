"""Tests of layout/drawing/ink."""
