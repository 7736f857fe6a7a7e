"""The seat tree: parts in place, and the figures that put them there."""
