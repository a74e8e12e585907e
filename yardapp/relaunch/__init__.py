"""Before a relaunch: faults, what is still open, who lets her go, and what must be looked at afterwards."""
