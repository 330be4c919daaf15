"""Screens; none of them imports another."""
