"""Tests of layout/drawing/lettered."""
