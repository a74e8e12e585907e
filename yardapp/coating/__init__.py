"""Coating: what a sheet says, whether it can be done, the job against the clock, and what became of it.

Pure beside the room's doors: `system` (what a data sheet says), `checking`, `exchange`, `timing`, `shipped`; `weather`;
`pieces`, `amounts`, `stock`; `planning`; `acts`, `running`, `standing` (the live job as a fold over what was tapped);
`history`. Moments are seconds since the epoch (`at_s`); how they are shown is the page's business.
"""
