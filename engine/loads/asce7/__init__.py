"""ASCE 7, editions 7-16 and 7-22: wind on arrays and roofs, snow, allowable-stress combinations."""
