"""Files that leave loadpath: one module a format, each returning text or bytes. Heavy libraries are imported only here."""
