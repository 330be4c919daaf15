"""loadpath's two front ends: the command line and the bench."""
