"""Load path: forces of wind, snow and weight from the modules to the fastenings of the roof."""
