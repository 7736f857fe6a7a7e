"""What one finding rests on."""
