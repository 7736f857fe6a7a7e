"""What would make a build that fails go together."""
