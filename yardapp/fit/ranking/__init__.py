"""The stock ranked for a drive, and the drives for a propeller: judged as columns, before the judge looks."""
