"""Whether every plug has its socket, every part its kit and its screws."""
