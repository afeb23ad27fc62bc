"""Readings aboard: what they should be, by the netlist and the physics of the parts that are built in."""
