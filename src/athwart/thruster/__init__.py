"""The thruster in the water: disc and jet, tunnel losses, immersion, speed through the water, and what each drive can bear."""
