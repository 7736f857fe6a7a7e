"""Everything that is asked of a build, worst first."""
