"""Furniture turned into sections, beams, plates, frames and loads."""
