"""What every kind of part is made of: fields, bodies, seats, links, plugs."""
