"""What would open an exit's window that is empty: the two limits that exclude each other, and changes that were tried."""
