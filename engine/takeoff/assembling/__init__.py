"""How the drains and vents go together: the order of the joints, which way each fitting looks, what is slid where."""
