"""The hull above and below the water, and what wind does to it.

Axes, once for all: x forward, y to starboard, z down; origin amidships at the waterline. Places along the boat are metres
from amidships, forward positive; heights are metres above the waterline (so minus z). A yaw moment N is positive when it
turns the bow to starboard. A wind angle is counted off the bow, positive to starboard, from -π to π, and a wind is named by
where it comes from: π/2 is a wind from starboard, which pushes to port (y negative).
"""
