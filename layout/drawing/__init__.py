"""Scenes in mm on paper, and the one file that draws them."""
