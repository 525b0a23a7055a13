"""Made-up site reports for the tests of the workbooks: a scenario of our own, small, large and awkward."""

# ruff: noqa: E501 (tables of made-up values)

from __future__ import annotations

from decimal import Decimal

from pipeline.intake.query import Query
from pipeline.intake.survey.survey_row import SurveyRow
from pipeline.sheets.report import (
    Advice,
    Change,
    FindingReport,
    KitReport,
    Margins,
    MomentShare,
    MountReport,
    PostReport,
    QuoteLine,
    Setting,
    SettingReport,
    SiteReport,
    SiteSummary,
    Totals,
)  # fmt: skip
from schemas.policy import SETTINGS

FT, IN = 0.3048, 0.0254


def setting(mounts: int = 12, boards: int = 10) -> Setting:
    """A catalogue of made-up items and the documented policy."""
    kinds = ("fixed", "stepped", "continuous")
    items: dict = {
        "Mounts": {
            f"MT-{i:02d}": {
                "mount": f"MT-{i:02d}", "description": f"Clamp mount {i}", "post_shape": "round" if i % 3 else "square",
                "size_least_m": 0.085, "size_most_m": 0.092, "adjustment": kinds[i % 3], "post_height_needed_m": 8.5 * FT,
                "for_ring_height_m": 10 * FT, "travel_m": 0.0 if i % 3 == 0 else 2.5 * FT, "step_m": 0.5 * FT if i % 3 == 1 else 0.0,
                "clamp_length_m": 0.4, "overhang_m": 0.9, "mass_kg": 40.0, "price": Decimal("410.00"), "status": "active",
            }
            for i in range(1, mounts + 1)
        },
        "Boards": {
            f"BD-{i:02d}": {
                "board": f"BD-{i:02d}", "description": f"Board {i}", "outline": "rectangular", "width_m": (48 + 2 * i) * IN,
                "height_m": 0.9, "mass_kg": 30.0, "face": ("glass", "acrylic", "steel")[i % 3], "frame": "steel",
                "price": Decimal("280.00"), "status": "active",
            }
            for i in range(1, boards + 1)
        },
        "Rings": {"RG-1": {"ring": "RG-1", "kind": "fixed", "mass_kg": 8.0}, "RG-2": {"ring": "RG-2", "kind": "breakaway", "mass_kg": 10.0}},
        "Extensions": {
            "EX-24": {
                "extension": "EX-24", "description": "Sleeve extension, 24 in", "joint": "sleeve", "added_m": 24 * IN,
                "joint_length_m": 12 * IN, "upper_size_m": 3.5 * IN,
            }
        },
    }  # fmt: skip
    policy = tuple(SettingReport(s.name, s.default, s.unit, "default", s.help, s.source) for s in SETTINGS)
    return Setting(items, policy, "postquote 0.1.0", "3f2a9c51d0e47b86")


def kit(rank: int = 1, **over: object) -> KitReport:
    """One kit; keyword arguments replace its fields."""
    fields: dict = {
        "rank": rank, "verdict": "viable", "confirm": (), "mount": f"MT-{rank:02d}", "board": f"BD-{rank:02d}", "ring": "RG-1",
        "extension": "", "covered": 1, "top": 10 * FT, "lowest": (10, 7.5, 7.5)[rank % 3] * FT, "lowered": 0.05, "added": 0.0, "load_state": "within",
        "utilisation_play": 0.62, "utilisation_storm": 0.874, "moment_play": 3100.0, "moment_storm": 4415.5, "wall_needed": 0.0041,
        "footing_depth_needed": 1.31, "ring_sag": 0.021, "hung_mass": 78.0, "unit_price": Decimal(700 + 35 * rank),
    }  # fmt: skip
    return KitReport(**{**fields, **over})


MARGINS = Margins(
    rusted=1.15,
    soft=1.05,
    windier=1.09,
    wind_limit=55.2,
    widest_board=54 * IN,
    swings=(0.3, 0.2, 0.2, 0.1, 0.05, 0.1),
    torque=1380.0,
)
SHARES = (
    MomentShare("Weight of mount, board and ring", 640.0, 640.0),
    MomentShare("Somebody hanging on the ring", 2300.0, 0.0),
    MomentShare("Wind on the board", 150.0, 3100.0),
    MomentShare("Wind on the post", 10.0, 675.5),
)


def survey_row(
    code: str, number: int = 2, site: str = "ALDER", held: bool = False, typed: dict | None = None, **values: object
) -> SurveyRow:
    """One survey row."""
    cells = {
        "site_code": site, "site_name": "Alder Creek School", "customer": "Alder Valley Schools", "post_code": code, "post_shape": "round",
        "post_size": '3 1/2"', "post_height": "8'6\"", "post_line": "straight", "old_fittings": "none", "ring_heights": "10 ft; 8 ft",
        **(typed or {}),
    }  # fmt: skip
    read = {
        "site_code": site, "site_name": "Alder Creek School", "customer": "Alder Valley Schools", "quantity": 1, "post_shape": "round",
        "post_size": 3.5 * IN, "post_height": 8.5 * FT, "court_rise": 0.0, "post_line": "straight", "old_fittings": "none",
        "lean": 0.0, "material": "steel", "post_base": "cast in", "condition": "sound", "ring_heights": (10 * FT, 8 * FT),
        "wind_speed": 51.4, **values,
    }  # fmt: skip
    not_stated = ("quantity", "court_rise", "lean", "condition")
    return SurveyRow(
        file="district.xlsx", sheet="Posts", row=number, label=f"row {number}", held=held, post_code=code, typed=cells, not_stated=not_stated,
        remarks=("Wall 5.49 mm from schedule 40",), extra={"Colour": "green"}, **read,
    )  # fmt: skip


def post(code: str, number: int = 2, kits: int = 10, mounts: int = 12, **over: object) -> PostReport:
    """One post with kits; keyword arguments replace its fields."""
    made = tuple(
        kit(
            r,
            shares=SHARES if r == 1 else (),
            margins=MARGINS if r == 1 else None,
            verdict="viable_extended" if r == 4 else "viable",
            extension="EX-24" if r == 4 else "",
        )
        for r in range(1, kits + 1)
    )
    ring = [3.048 + (0.0 if i % 2 else -0.61) for i in range(1, mounts + 1)]
    reports = tuple(
        MountReport(
            f"MT-{i:02d}", "viable" if i % 2 else "viable_extended" if i % 4 else "not_viable", ("SHAPE",) if i % 3 == 0 else (), (),
            z, 0.0 if i % 2 else 0.61, "" if i % 2 or i % 4 == 0 else "EX-24", 0.0 if i % 2 or i % 4 == 0 else 24 * IN, 10 * FT, 1,
        )
        for i, z in enumerate(ring, 1)
    )  # fmt: skip
    fields: dict = {
        "row": survey_row(code, number), "quantity": 1, "size": 3.5 * IN, "size_uncertainty": 0.0016, "height": 8.5 * FT,
        "height_uncertainty": 0.006, "court_rise": 0.0, "lean": 0.0, "wall": 0.00549, "wind_speed": 51.4, "exposure": "C",
        "wanted": (10 * FT, 8 * FT), "target": 10 * FT, "footing_diameter": 0.45, "soil_class": 4,
        "outcome": "viable" if kits else "no_kit", "kits": made, "kits_in_all": kits * 3, "mounts": reports,
        "findings": (FindingReport("SIZE", "pass", "Size is 3 1/2 in.", 0.0889, 0.085, 0.092, 0.0031, "m"),), "remedy": "",
        "advice": (Advice("Run-off", "The board's face stands 0.9 m inside the end line; 1.2 m is usual.", "FIBA rules"),),
        "measure_next": "wall", "taken": ("Lean: not stated, taken as plumb.", "Court level: not stated, taken as level with the ground."),
    }  # fmt: skip
    return PostReport(**{**fields, **over})


def lines(posts: int) -> tuple[QuoteLine, ...]:
    """Quote lines of `posts` alike posts."""
    zero, five = Decimal(0), Decimal("7.5")
    price = [
        ("MT-01", "Clamp mount 1, stepped", "410.05"),
        ("BD-01", "Board 1, glass in a steel frame", "280.33"),
        ("RG-1", "Ring, fixed", "74.99"),
    ]
    goods = [_line("goods", code, words, posts, Decimal(p), five) for code, words, p in price]
    return (
        *goods,
        _line("service", "FIT", "Fitting, per post", posts, Decimal("120.00"), zero),
        _line("freight", "FREIGHT", "Freight", 1, Decimal("95.00"), zero),
    )


def _line(kind: str, item: str, words: str, quantity: int, price: Decimal, discount: Decimal) -> QuoteLine:
    total = (quantity * price * (1 - discount / 100)).quantize(Decimal("0.01"), "ROUND_HALF_UP")
    return QuoteLine(kind, item, words, quantity, price, price, discount, total)


def totals(made: tuple[QuoteLine, ...], rate: str = "0.0725") -> Totals:
    """Totals of quote lines."""
    net = sum((x.line_total for x in made if x.kind != "freight"), Decimal("0.00"))
    freight = sum((x.line_total for x in made if x.kind == "freight"), Decimal("0.00"))
    tax = ((net + freight) * Decimal(rate)).quantize(Decimal("0.01"), "ROUND_HALF_UP")
    return Totals(net, freight, Decimal(rate), tax, net + freight + tax, 512.3)


def report(posts: tuple[PostReport, ...], **over: object) -> SiteReport:
    """A site with these posts."""
    made = lines(len(posts)) if any(p.kits for p in posts) else ()
    fields: dict = {
        "site_code": "ALDER", "site_name": "Alder Creek School", "customer": "Alder Valley Schools", "site_kind": "school", "revision": 1,
        "date": "2026-11-25", "valid_until": "2026-12-25", "state": "ready", "currency": "USD", "customer_listed": True,
        "tax_exempt": False, "posts": posts, "held": (), "queries": (), "lines": made, "totals": totals(made), "feet": True,
        "remarks": ("The customer's discount of 7.5 % is on goods.",), "changes": (), "total_was": None,
        "posts_in_all": sum(p.quantity for p in posts), "rows_held": 0,
    }  # fmt: skip
    return SiteReport(**{**fields, **over})


def small() -> SiteReport:
    """Eight posts: all verdicts, a held row, a wish that is not met, an over-loaded post, a second revision."""
    sentence = (
        "The size lies 0.4 mm outside the mount's window and may lie within: look for a circumference of 10.99 to 11.18 in."
    )
    size = FindingReport("SIZE", "confirm", sentence, 0.0889, 0.085, 0.0885, -0.0004, "m")
    strong = FindingReport("STRENGTH", "confirm", "The storm case uses 142 % of the rough strength.", 1.42, None, 1.0, -0.42, "")
    over = kit(
        1, verdict="viable_confirm", confirm=("SIZE", "STRENGTH"), load_state="over", utilisation_storm=1.42, shares=SHARES
    )
    long = kit(1, verdict="viable_extended", extension="EX-24", added=24 * IN, load_state="unknown", utilisation_play=None,
               utilisation_storm=None, ring_sag=None, shares=SHARES)  # fmt: skip
    slim = kit(
        1,
        load_state="over",
        confirm=("STRENGTH",),
        verdict="viable_confirm",
        utilisation_play=float("inf"),
        utilisation_storm=float("inf"),
        wall_needed=None,
    )
    posts = (
        post("1"), post("2", 3), post("3", 4, outcome="viable_confirm", kits=0, kits_in_all=1, findings=(size, strong)),
        post("4", 5, outcome="viable_extended", height=7.0 * FT), post("5", 6, kits=0, remedy="Strip the welded bracket, then mount MT-01 fits."),
        post("6", 7, quantity=4), post("7", 8, height=9.25 * FT, court_rise=0.1), post("8", 9, wall=None),
    )  # fmt: skip
    posts = (
        *posts[:2], _with(posts[2], kits=(over,)), _with(posts[3], kits=(long,), wall=None), *posts[4:7], _with(posts[7], kits=(slim,)),
    )  # fmt: skip
    held = survey_row("9", 10, held=True, typed={"post_height": "about 8 ft"})
    queries = (
        Query(
            "district.xlsx",
            "Posts",
            "F10",
            "UNREADABLE",
            "'about 8 ft' is an estimate in words.",
            "Type the height alone, such as 8 ft 2 in.",
            True,
            "ALDER",
            "9",
            "post_height",
            "row 10",
        ),
        Query(
            "district.xlsx",
            "Posts",
            "M4",
            "ASKED",
            "Board BD-99 is withdrawn.",
            "The best other kit is quoted.",
            False,
            "ALDER",
            "3",
            "board_asked",
            "row 4",
        ),
    )
    changes = (
        Change("price", "BD-01", "275.00", "280.33"),
        Change("survey row added", "Post 8", "", "8 ft 6 in, round 3 1/2 in"),
    )
    return report(posts, held=(held,), queries=queries, state="incomplete", rows_held=1, revision=2, changes=changes,
                  total_was=Decimal("5120.75"), posts_in_all=12)  # fmt: skip


def _with(p: PostReport, **over: object) -> PostReport:
    from dataclasses import replace

    return replace(p, **over)  # type: ignore[arg-type]


def large() -> SiteReport:
    """Four hundred posts of twelve heights, in metric."""
    posts = tuple(post(f"P{i}", i + 1, kits=3, height=2.2 + 0.05 * (i % 12)) for i in range(1, 401))
    return report(posts, feet=False, site_code="BIRCH-7", site_name="Birch Fields")


AWKWARD = '=HYPERLINK("http://x")'


def awkward() -> SiteReport:
    """Names that try to be formulas, markup or pages of text; scripts of all kinds; no customer; no mount fits."""
    name = "Quỳnh Lâm 体育公園 ملعب الحي ‘Ω’ — " + "a ground with a very long name that goes on and on, " * 6
    row = survey_row("<r>x</r>", 2, typed={"notes": "\x07bell \ud800 half"}, notes="\x07bell \ud800 half")
    odd = post("+SUM(A1)", kits=0, remedy="An extension of at least 24 in that takes the post would serve it. " * 3)
    posts = (_with(odd, row=row, taken=("x" * 33_000,)), post("'quoted' & <b>", 3, kits=2, quantity=3))
    return report(posts, site_name=name, customer=AWKWARD, site_kind="", state="incomplete", site_code="S&S <1>")


GOODS = tuple(
    {"kind": "goods", "item": code, "description": words, "quantity": quantity, "list_price": price, "unit_price": price,
     "discount_percent": "5", "line_total": total}
    for code, words, quantity, price, total in (
        ("MT-01", "Clamp mount 1", 5, "400.00", "1900.00"),
        ("BD-01", "Board 1", 3, "300.00", "855.00"),
        ("BD-02", "Board 2", 2, "250.00", "475.00"),
        ("RG-1", "Ring", 5, "70.00", "332.50"),
    )
)  # fmt: skip


def summary(index: int, **over: object) -> SiteSummary:
    """One site of the portfolio."""
    code = f"S{index:03d}"
    state = ("ready", "to_confirm", "incomplete")[index % 3]
    site = {
        "site_code": code, "site_name": f"Ground {index}", "customer": "Alder Valley Schools", "site_kind": "park", "revision": 1,
        "state": state, "posts": 6, "posts_quoted": 5, "rows_held": 1 if state == "incomplete" else 0, "net": "1000.10", "freight": "95.00",
        "tax": "79.39", "total": f"{1174 + index}.49", "valid_until": "2026-12-25", "workbook": f"sites/{code}/{code}-r1.xlsx",
    }  # fmt: skip
    fields: dict = {
        "site": site, "outcomes": {"viable": 3, "viable_confirm": 1, "viable_extended": 1, "no_kit": index % 2},
        "goods": GOODS,
        "extensions": ({"site_code": code, "post_code": "4", "quantity": 1, "mount": "MT-01", "shortfall_m": 0.6, "extension": "EX-24",
                        "extension_added_m": 0.6096, "joint": "sleeve", "upper_size_m": 0.0889},),
        "shortfalls": ({"post_code": "5", "quantity": 1, "shape": "round", "size_m": 0.0889, "height_m": 2.1, "target_m": 3.048,
                        "shortfall_m": 0.5, "remedy": "An extension of at least 0.5 m."},) if index % 2 else (),
        "stops": {"HEIGHT": 1, "LINE": 1} if index % 2 else {}, "reach_mounts": {"MT-01": {"serves": 4, "confirm": 1, "extended": 1, "SHAPE": 1},
                                                                                 "MT-02": {"serves": 0, "SIZE": 6}},
        "reach_boards": {"BD-01": 4, "BD-02": 3}, "would_serve": {"extension of 0.500 m on round 88.9 mm": 1} if index % 2 else {},
        "confirms": {"SIZE": 1, "STRENGTH": 1}, "feet": True, "senders": ("district.xlsx",),
    }  # fmt: skip
    return SiteSummary(**{**fields, **over})
