"""Mechanics: numpy in, numpy out, in N, mm and MPa. Knows no furniture, units or printing."""
