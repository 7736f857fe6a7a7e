"""All kinds together: by their words, their figures, their places."""
