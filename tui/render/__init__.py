"""What screens show as pictures: pure functions from the engine's values to text, for the room there is."""
