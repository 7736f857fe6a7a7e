"""How bodies stand to one another: apart, touching or interfering."""
