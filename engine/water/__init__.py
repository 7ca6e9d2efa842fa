"""Hot and cold water: where it comes from, how it runs, whom it reaches."""
