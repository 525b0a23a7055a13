"""The survey: one row a post (or a number of identical posts) as its sender fills it in."""

from __future__ import annotations

from schemas.column import Column, Table

SHAPES = ("round", "square", "other")
SITE_KINDS = ("school", "park", "league", "other")
SIZE_BASES = ("outside diameter", "outside width", "circumference", "nominal pipe size")
SIZE_METHODS = ("calipers", "tape round the post", "rule across", "pipe mark", "drawing", "estimate")
HEIGHT_METHODS = ("tape", "level or laser", "drawing", "estimate")
MATERIALS = ("steel", "aluminium", "wood", "other", "unknown")
LINES = ("straight", "tapered", "gooseneck", "bent", "unknown")
BASES = ("cast in", "ground sleeve", "driven", "base plate", "portable", "unknown")
FITTINGS = ("none", "removable", "fixed", "unknown")
CONDITIONS = ("sound", "surface rust", "corroded", "cracked", "loose", "unknown")
EXPOSURES = ("B", "C", "D")

SURVEY = Table(
    "Survey",
    "one post, or a number of identical posts, standing at a court",
    (
        Column(
            "site_code", "Site code", "code", needed=True,
            help="Short code of the ground, the same on every row of that ground. One quotation is written per site.",
            synonyms=("site", "site id", "site no", "site number", "site ref", "ground code", "location code", "school code", "park code", "site key", "code of site"),
        ),
        Column(
            "site_name", "Site name", "text", needed=True,
            help="Name of the school, park or league ground as it should stand on the quotation.",
            synonyms=("name of site", "ground", "ground name", "location", "location name", "school", "school name", "park", "park name", "facility", "facility name", "name"),
        ),
        Column(
            "customer", "Customer", "text",
            help="Who the quotation is for. Customers with agreed terms are listed in the catalogue.",
            synonyms=("client", "customer name", "district", "owner", "bill to", "account", "buyer"),
        ),
        Column(
            "site_kind", "Site kind", "choice", values=SITE_KINDS,
            help="School, park, league or other.",
            synonyms=("kind of site", "site type", "type of site", "ground kind", "location type", "facility type"),
        ),
        Column(
            "post_code", "Post", "code", needed=True,
            help="Name or number of the post, different for each row of the site.",
            synonyms=("pole", "post id", "post no", "post number", "post code", "post ref", "post name", "pole id", "pole no", "pole number", "pole code", "upright", "upright no", "standard", "goal", "goal no"),
        ),
        Column(
            "quantity", "Identical posts", "whole", default="1", least="quantity_least", most="quantity_most",
            help="How many posts this row stands for, alike in everything on the row.",
            synonyms=("qty", "quantity", "number of posts", "no of posts", "posts", "count", "how many", "number", "identical", "number of identical posts", "poles", "qty of posts"),
        ),
        Column(
            "post_shape", "Post shape", "choice", needed=True, values=SHAPES,
            help="Shape of the post across: round, square or other.",
            synonyms=("shape", "pole shape", "section", "section shape", "post section", "round or square", "cross section", "profile"),
        ),
        Column(
            "post_size", "Post size", "pipe", "in", needed=True, least="post_size_least", most="post_size_most",
            help="Outside size of the post where the clamps go, near the top: 3 1/2, or a pipe size such as NPS 3, 3 in sch 40 or DN 80.",
            synonyms=("od", "outside diameter", "outer diameter", "diameter", "dia", "pole size", "pole od", "post od", "pole diameter", "post diameter", "pole dia", "post dia", "size", "width", "post width", "pole width", "outside size", "outside width", "pipe size", "circumference", "girth", "pipe od", "size of post"),
        ),
        Column(
            "size_basis", "Size is", "choice", values=SIZE_BASES,
            help="What the size is: outside diameter, outside width, circumference or nominal pipe size. Blank: outside.",
            synonyms=("size basis", "basis", "size type", "size kind", "size measured as", "type of size", "size given as", "what size is"),
        ),
        Column(
            "measured_with", "Measured with", "choice", values=SIZE_METHODS, default="rule across",
            help="How the size was taken. A tape round the post or calipers are best; an estimate passes only where its whole band fits.",
            synonyms=("size measured with", "measured by", "how measured", "size method", "measuring tool", "tool", "measurement method", "size taken with"),
        ),
        Column(
            "wall", "Wall thickness", "length", "in", least="wall_least", most="wall_most",
            help="Thickness of the tube's wall near the ground, where rust eats it. Leave blank where it is not known.",
            synonyms=("wall", "thickness", "pipe wall", "tube wall", "wt", "gauge thickness", "wall thk", "post wall", "pole wall"),
        ),
        Column(
            "material", "Post material", "choice", values=MATERIALS, default="unknown",
            help="Steel, aluminium, wood, other or unknown.",
            synonyms=("material", "pole material", "made of", "metal"),
        ),
        Column(
            "post_height", "Height above ground", "length", "ft", needed=True, least="post_height_least", most="post_height_most",
            help="From the ground at the post to the very top of the post.",
            synonyms=("height", "post height", "pole height", "height of post", "height of pole", "height above grade", "above ground", "above grade", "overall height", "exposed height", "ht", "height ag", "post length above ground", "top of post", "height from ground"),
        ),
        Column(
            "height_measured_with", "Height measured with", "choice", values=HEIGHT_METHODS, default="tape",
            help="How the height was taken.",
            synonyms=("height method", "height measured by", "height taken with", "height tool", "height measurement"),
        ),
        Column(
            "court_rise", "Court above ground", "length", "in", default="0", least="court_rise_least", most="court_rise_most",
            help="How far the playing surface lies above the ground at the post; negative where it lies below. Blank: level.",
            synonyms=("court rise", "court level", "rise", "court height", "surface above ground", "playing surface above ground", "court above grade", "court over ground", "slab above ground", "court rise above ground", "court surface above ground"),
        ),
        Column(
            "clear_length", "Clear straight length", "length", "in", least="", most="",
            help="From the top of the post downwards: the length that is straight and free of fittings. Blank: the whole height.",
            synonyms=("clear length", "clear", "straight length", "clear straight", "free length", "clear height", "clear from top", "straight clear length", "unobstructed length"),
        ),
        Column(
            "post_line", "Post line", "choice", needed=True, values=LINES,
            help="Straight, tapered, gooseneck (curved or angled towards the court), bent or unknown.",
            synonyms=("line", "pole line", "straightness", "post form", "post style", "straight or gooseneck", "pole style", "post profile", "alignment"),
        ),
        Column(
            "post_base", "Post base", "choice", values=BASES, default="unknown",
            help="How the post stands in the ground: cast in, ground sleeve, driven, base plate, portable or unknown.",
            synonyms=("base", "pole base", "foot", "fixing in ground", "set in", "foundation", "base type", "footing type", "anchorage"),
        ),
        Column(
            "lean", "Lean", "angle", "deg", default="0", least="lean_least", most="lean_most",
            help="How far the post leans: an angle, or a slope such as 1/4 in per ft, 1:100 or 10 mm/m. Blank: plumb.",
            synonyms=("tilt", "out of plumb", "inclination", "plumb", "slope", "lean angle", "post lean"),
        ),
        Column(
            "old_fittings", "Old fittings", "choice", needed=True, values=FITTINGS,
            help="What still hangs on the post: none, removable, fixed (welded) or unknown.",
            synonyms=("fittings", "old hardware", "existing fittings", "existing hardware", "hardware", "attachments", "old brackets", "existing mount", "what is on it"),
        ),
        Column(
            "condition", "Condition", "choice", values=CONDITIONS, default="unknown",
            help="Sound, surface rust, corroded, cracked, loose or unknown. Look at the ground line and under collars.",
            synonyms=("state", "post condition", "pole condition", "rust", "condition of post", "soundness"),
        ),
        Column(
            "ring_heights", "Ring heights wanted", "lengths", "ft", least="ring_height_least", most="ring_height_most",
            help="Ring height wanted above the playing surface, or several with ; between. Blank: the standard height.",
            synonyms=("ring height", "ring heights", "rim height", "rim heights", "wanted ring heights", "wanted heights", "heights wanted", "rim heights wanted", "target height", "hoop height", "basket height", "goal height", "ring height wanted", "wanted rim height", "rim height wanted"),
        ),
        Column(
            "least_board_width", "Least board width", "length", "in", least="board_width_least", most="board_width_most",
            help="The narrowest board that will do.",
            synonyms=("min board width", "minimum board width", "board width", "least width", "board at least", "board width least", "smallest board"),
        ),
        Column(
            "mount_asked", "Mount asked for", "code",
            help="Code of a mount, where a certain one is wished for.",
            synonyms=("mount", "mount wanted", "mount requested", "wanted mount", "requested mount", "preferred mount", "bracket", "mount code"),
        ),
        Column(
            "board_asked", "Board asked for", "code",
            help="Code of a board, where a certain one is wished for.",
            synonyms=("board", "board wanted", "board requested", "wanted board", "requested board", "preferred board", "backboard", "board code"),
        ),
        Column(
            "ring_asked", "Ring asked for", "code",
            help="Code of a ring, where a certain one is wished for.",
            synonyms=("ring", "ring wanted", "ring requested", "rim", "rim asked for", "rim wanted", "wanted ring", "requested ring", "preferred ring", "preferred rim", "ring code"),
        ),
        Column(
            "post_to_end_line", "Post to end line", "length", "ft", least="post_to_end_line_least", most="post_to_end_line_most",
            help="From the post's face to the outer edge of the end line; positive when the post stands off the court.",
            synonyms=("end line", "post to line", "distance to end line", "post to baseline", "baseline distance", "distance to baseline", "to end line", "set back", "setback", "post face to end line"),
        ),
        Column(
            "footing_diameter", "Footing diameter", "length", "in", least="footing_diameter_least", most="footing_diameter_most",
            help="Diameter of the concrete round the post (the diagonal of a square one), where it is known.",
            synonyms=("footing dia", "footing width", "concrete diameter", "foundation diameter", "footing size", "pier diameter", "base diameter"),
        ),
        Column(
            "footing_depth", "Footing depth", "length", "in", least="footing_depth_least", most="footing_depth_most",
            help="Depth of that concrete, where it is known.",
            synonyms=("concrete depth", "foundation depth", "depth of footing", "pier depth", "embedment", "embedment depth", "depth in ground"),
        ),
        Column(
            "soil_class", "Soil class", "choice", values=("1", "2", "3", "4", "5"),
            help="1 crystalline bedrock, 2 sedimentary rock, 3 sandy gravel or gravel, 4 sand and silty or clayey sand or gravel, 5 clay and silt (rows of IBC table 1806.2). Blank: policy.",
            synonyms=("soil", "soil type", "ground class", "class of soil", "soil row", "soil group"),
        ),
        Column(
            "wind_speed", "Wind speed", "speed", "mph", least="wind_speed_least", most="wind_speed_most",
            help="The local code's 3-second design gust at strength level (ASCE 7-10 and later). Blank: policy.",
            synonyms=("wind", "design wind", "design wind speed", "wind gust", "gust", "gust speed", "basic wind speed", "v ult"),
        ),
        Column(
            "exposure", "Exposure", "choice", values=EXPOSURES,
            help="B town or woods, C open ground, D along open water. Blank: policy.",
            synonyms=("wind exposure", "exposure category", "terrain", "exposure class"),
        ),
        Column(
            "notes", "Notes", "text",
            help="Anything else worth knowing. It is carried through, not read.",
            synonyms=("note", "remarks", "remark", "comments", "comment", "memo"),
        ),
    ),
    key=("site_code", "post_code"),
)
