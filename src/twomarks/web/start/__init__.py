"""The first two minutes: what it is, what the odometer says, and the answer from that alone."""
