"""Where lettering stands: names, balloons and leaders."""
