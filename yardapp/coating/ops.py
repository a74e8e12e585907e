"""One coat on one blade, as planned or as forecast."""

from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True)
class Op:
    """One coat on one blade as planned; `opens_s` to `shuts_s` is when it may start, by the coat before."""

    unit: str
    label: str
    step: int
    name: str
    person: int
    start_s: float
    end_s: float
    opens_s: float | None = None
    shuts_s: float | None = None

    @property
    def met(self) -> bool:
        """Whether it starts inside its window."""
        early = self.opens_s is not None and self.start_s < self.opens_s - 1e-3
        late = self.shuts_s is not None and self.start_s > self.shuts_s + 1e-3
        return not (early or late)
