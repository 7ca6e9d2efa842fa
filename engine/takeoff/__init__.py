"""What to buy, cut, hang and write down: sticks, supports, shopping list, cut list and the answers as data."""
