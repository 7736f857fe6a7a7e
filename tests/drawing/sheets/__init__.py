"""Tests of layout/drawing/sheets."""
