"""Files that leave loadpath: one module a format. Heavy libraries are imported only here."""
