"""The register of a yard's propellers and shafts."""
