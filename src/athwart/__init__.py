"""Athwart: bow and stern thruster systems for boats of 6 to 40 m, from a brief to papers an installer can build from."""

__version__ = "0.1.0"
