"""The floor's wood: joists laid out from the drawn fields, and where a point stands among them. Knows no pipe."""
