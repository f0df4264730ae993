"""Nouns of the house: frozen values, nothing that acts. Imports nothing from the rest of fitdb."""
