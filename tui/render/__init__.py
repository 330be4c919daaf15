"""Pictures and text of the screens: pure functions of the engine's values and the room there is."""
