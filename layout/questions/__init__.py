"""Questions asked of a build: build in, value out."""
