"""Tests of layout/drawing/views."""
