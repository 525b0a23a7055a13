"""A post as it was surveyed: what the rules read of a row, in SI."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class SurveyedPost:
    """One post, or several alike, by the glossary's names (`schemas.survey`).

    Lengths [m], angles [rad], speeds [m/s], moments [N m]; None (of the two codes: '') where nothing is stated or what
    stands there could not be read. `not_stated` names the columns that were blank and took their default, which then
    stands here where the glossary has one. `unread` names those whose cell could not be read: they count as unknown,
    never as their default. `post_size` is the outside size D whatever it was stated as, `size_nominal` whether it was a
    nominal pipe size; `shape_inferred` whether the shape was taken from what the size says.
    """

    site_code: str = ""
    site_name: str | None = None
    customer: str | None = None
    site_kind: str | None = None
    post_code: str = ""
    quantity: int | None = None
    post_shape: str | None = None
    post_size: float | None = None
    size_basis: str | None = None
    measured_with: str | None = None
    wall: float | None = None
    material: str | None = None
    post_height: float | None = None
    height_measured_with: str | None = None
    court_rise: float | None = None
    clear_length: float | None = None
    post_line: str | None = None
    post_base: str | None = None
    lean: float | None = None
    old_fittings: str | None = None
    condition: str | None = None
    ring_heights: tuple[float, ...] | None = None
    least_board_width: float | None = None
    mount_asked: str | None = None
    board_asked: str | None = None
    ring_asked: str | None = None
    post_to_end_line: float | None = None
    footing_diameter: float | None = None
    footing_depth: float | None = None
    soil_class: int | None = None
    wind_speed: float | None = None
    exposure: str | None = None
    surveyed_on: str | None = None
    lean_shimmed: str | None = None
    strength_cleared: str | None = None
    cleared_by: str | None = None
    cleared_moment: float | None = None
    notes: str | None = None
    size_nominal: bool = False
    shape_inferred: bool = False
    not_stated: tuple[str, ...] = ()
    unread: frozenset[str] = frozenset()
