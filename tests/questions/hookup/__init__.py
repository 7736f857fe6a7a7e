"""Tests of layout/questions/hookup."""
