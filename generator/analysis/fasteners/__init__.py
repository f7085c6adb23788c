"""Screws at the bench: which key, which drill, how far to back off, what an unknown screw is."""
