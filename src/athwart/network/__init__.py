"""Control line: the bus, its supply, its topology and its common negative.

Nodes sit on short drops along a trunk that ends in a terminator at each end; two wires of the trunk carry the signal, two
the supply. Positions count along the trunk from its first terminator. The trunk's negative joins the negatives of all
nodes and must carry no other current.
"""
