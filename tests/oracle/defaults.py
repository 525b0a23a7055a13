"""Documented defaults of the policy, typed again from the design, in SI; percentages as fractions."""

from __future__ import annotations

import math
from decimal import Decimal
from typing import Any

DEFAULTS: dict[str, Any] = {
    "ring_height_wanted": (3.048,),
    "ring_height_tolerance": 0.006,
    "ring_level_tolerance": 0.006,
    "lean_limit": math.radians(2),
    "size_uncertainty_calipers": 0.0005,
    "size_uncertainty_tape": 0.0005,
    "size_uncertainty_rule": 0.0016,
    "size_uncertainty_pipe_mark": 0.01,  # of the size
    "size_uncertainty_drawing": 0.01,  # of the size
    "size_uncertainty_estimate": 0.006,
    "height_uncertainty_tape": 0.006,
    "height_uncertainty_level": 0.003,
    "height_uncertainty_drawing": 0.025,
    "height_uncertainty_estimate": 0.075,
    "court_rise_uncertainty": 0.006,
    "play_load": 3200.0,
    "push_load": 1000.0,
    "least_wind_pressure": 766.0,
    "play_wind_speed": 15.0,
    "wind_speed": 51.4,
    "exposure": "C",
    "board_drag": 1.8,
    "gust_factor": 0.85,
    "steel_yield": 207e6,
    "steel_modulus": 200e9,
    "design_wall_factor": 0.93,
    "footing_diameter": 0.45,
    "soil_class": 5,
    "soil_short_term_factor": 1.0,
    "currency": "USD",
    "tax_rate": Decimal(0),
    "quote_valid_days": 30,
    "wanted_window": 0.00635,
}

MINOR_UNIT = {"USD": 2, "EUR": 2, "JPY": 0, "KWD": 3}
"""Decimal places of a currency's minor unit. Source: ISO 4217 (memory)."""
