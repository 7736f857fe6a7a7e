"""What of a build is seen in the two views."""
