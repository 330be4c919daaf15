"""Invented jobs that come with loadpath; each says in its first lines what it shows."""
