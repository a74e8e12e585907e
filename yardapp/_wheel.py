"""Carry the pages, the static files, the migrations and the published figures inside a built wheel."""

from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface


class Assets(BuildHookInterface):  # type: ignore[type-arg]
    """An editable install reads them where they lie; only a wheel carries copies."""

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        """Name the folders to the builder."""
        if version != "editable":
            for name in ("templates", "static", "migrations", "tests/published"):
                build_data["force_include"][name] = f"yardapp/_assets/{name}"
