"""What comes in and what goes out, one module a noun; the JSON keys are the parameter names."""
