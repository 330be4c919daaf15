"""What leaves loadpath: one file per form, each returning text. Heavy libraries are imported only here."""
