"""A scene as a file: matplotlib is known here alone."""
