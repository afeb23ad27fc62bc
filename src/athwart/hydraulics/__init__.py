"""Hydraulic thrusters: pump and motor, lines and their losses, oil heat, and whether a pump at idle gives what a unit needs.

Inside everything is SI: flow in m³/s, pressure in Pa, displacement in m³ per radian (a cubic centimetre a revolution is
1e-6/2π of it), speed in rad/s.
"""
