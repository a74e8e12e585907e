"""One module for each thing that can keep a propeller off a shaft."""
