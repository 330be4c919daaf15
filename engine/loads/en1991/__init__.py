"""EN 1991, first generation, recommended values: wind on roofs, snow, combinations with partial factors."""
