"""Words that say the same in any heading, and short forms of registers and field books. Source: common practice."""

from __future__ import annotations

SAME_WORDS = {
    "pole": "post", "poles": "posts", "upright": "post", "uprights": "posts", "rim": "ring", "rims": "rings",
    "hoop": "ring", "hoops": "rings", "backboard": "board", "dia": "diameter", "diam": "diameter", "ht": "height",
    "hgt": "height", "thk": "thickness", "sect": "section",
    "num": "no", "nbr": "no", "matl": "material", "attach": "attachments", "ag": "above ground",
    "ext": "outside", "grade": "ground", "min": "least", "minimum": "least", "baseline": "end line",
    "pk": "park", "sz": "size", "loc": "location", "locn": "location", "bldg": "building", "fac": "facility", "facil": "facility", "cd": "code", "nm": "name",
    "cnt": "count", "lbl": "label", "mk": "mark", "ltr": "letter", "struct": "structure", "strct": "structure",
    "cond": "condition", "condn": "condition", "exp": "exposed", "expsd": "exposed", "hdwr": "hardware", "hdwe": "hardware",
    "hdw": "hardware", "hw": "hardware", "exist": "existing", "exst": "existing", "att": "attachments", "attachmts": "attachments",
    "attch": "attachments", "attchmts": "attachments", "fndn": "foundation", "fdn": "foundation", "fnd": "foundation",
    "ftg": "footing", "det": "detail", "quan": "quantity", "quant": "quantity", "meas": "measured", "msrd": "measured",
    "xsect": "cross section", "xsection": "cross section", "xsec": "cross section", "abv": "above", "grnd": "ground", "gnd": "ground",
    "grd": "ground", "afg": "above ground", "aff": "above ground", "afs": "above ground", "agl": "above ground",
    "dt": "date", "surv": "survey", "srvy": "survey", "insp": "inspection", "fitt": "fittings", "ftgs": "fittings",
    "mtl": "material", "inst": "installed", "rem": "remaining", "shp": "shape", "outsd": "outside", "pvmt": "pavement",
}  # fmt: skip
"""Our own word for each."""

RUN_TOGETHER = (
    r"(site|park|fac|facility|sch|school|loc|location|struct|structure|asset|post|pole|shape|cond|condition|outside|out|abv|above|"
    r"num|no|old|exist|base|section|sect|height|hgt|ht)"
    r"(shp|hgt|qty|desc|descr|ids?|no|num|nbr|codes?|cd|names?|nm|desc|type|rating|cnt|count|diam?|diameter|od|grnd|grd|gnd|ground|grade|hgt|ht|height|size|"
    r"shape|width|cond|condition|material|fittings|tag|lbl|label|mark|posts|poles|dim)"
)
"""Two words of a register's field written as one, as a pattern: `SHAPECODE`, `ABVGRD_FT`."""
