"""Pipes through wood: where they meet, what heights that leaves, and what it cuts from each joist."""
