"""Tests of layout/drawing/composed."""
