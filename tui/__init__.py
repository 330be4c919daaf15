"""loadpath's two front ends: the terminal app and the command line."""
