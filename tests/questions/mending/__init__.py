"""Tests of layout/questions/mending."""
