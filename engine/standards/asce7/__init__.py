"""ASCE 7, Minimum Design Loads, editions 7-16 and 7-22, as far as metal roofs with solar need it."""
