"""Helping the hand that draws: what a pointer snaps to, and how a fixture is set down."""
