"""The engine: from a drawn floor to a checked, measured and priced pipe job. No Qt below here."""
