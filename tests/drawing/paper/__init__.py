"""Tests of layout/drawing/paper."""
