"""The boat in water: density, flotation, righting arms, flooding, drag, wind."""
