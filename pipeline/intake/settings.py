"""The policy in force where a catalogue says nothing."""

from __future__ import annotations

from typing import Any


def documented() -> dict[str, Any]:
    """Every setting of schemas.policy at its documented default, in SI, as `catalogue_policy` reads it."""
    from pipeline.intake.catalogue.policy import documented_policy

    return documented_policy()
