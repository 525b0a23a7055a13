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
YES_NO = ("yes", "no")

TOOL_OF = {"post_size": "measured_with", "post_height": "height_measured_with"}
"""The column that says how another one was measured."""

WEAK_SYNONYMS: dict[str, tuple[str, ...]] = {
    "site_code": ("site",),
    "site_name": ("pk", "ground", "location", "school", "park", "facility", "name", "field", "establishment", "loc", "job site", "jobsite", "court location", "location of court", "court site", "bldg", "bldg name", "building", "venue", "institution", "property", "complex", "club", "site or school", "school or park", "park or school", "place name"),
    "customer": ("district", "owner", "account"),
    "post_code": ("standard", "goal", "hoop", "hoop id", "hoop no", "hoop number", "goal id", "goal no", "goal number", "basket id", "basket no"),
    "quantity": ("posts", "poles", "count", "how many", "identical"),
    "post_shape": ("section", "profile", "r/s", "r or s"),
    "post_size": ("sz", "size", "width", "dimensions", "dimension", "side length", "across", "measurement", "ext dia", "ext diameter", "outside", "outer", "external", "wide", "breadth", "how wide", "how big", "how fat",
                  "fatness", "straight across", "across it", "misura fuori", "misura esterna", "misura", "ingombro", "da lato a lato", "quanto misura", "Außen", "außen", "Außenmaß",
                  "medida por fuera", "medida exterior", "medida", "ancho por fuera", "mesure extérieure", "largeur extérieure", "cote extérieure", "medida por fora", "medida externa"),
    "post_height": ("h", "tall", "high", "hgt"),
    "size_basis": ("basis",),
    "measured_with": ("measured by", "tool"),
    "wall": ("thickness", "wt", "thick", "t"),
    "post_line": ("line", "alignment"),
    "post_base": ("base", "foundation"),
    "clear_length": ("clear",),
    "court_rise": ("rise",),
    "mount_asked": ("mount", "bracket"),
    "board_asked": ("board", "backboard"),
    "ring_asked": ("ring", "rim"),
}
"""Headings that can mean much else: they count where nothing surer claims the column, and never make a table a survey."""

SIZE_BASIS_OF_HEADING: dict[str, str] = {
    "distance around": "circumference",
    **dict.fromkeys(("how far round", "how far around", "how far round is it", "how far around is it", "distance round post", "distance round the post", "distance round", "length round post", "measurement round post", "size round post", "distance round pole", "tape round post"), "circumference"),
    "distance around post": "circumference",
    "distance around pole": "circumference",
    **dict.fromkeys(
        ("circunferencia", "circunferencia del poste", "perímetro", "perímetro del poste", "circonférence", "circonférence du poteau",
         "périmètre", "tour du poteau", "Umfang", "Mastumfang", "circunferência", "circunferência do poste", "circonferenza",
         "circonferenza del palo", "perimetro"),
        "circumference",
    ),
    **dict.fromkeys(
        ("diámetro nominal", "diamètre nominal", "Nennweite", "diâmetro nominal", "diametro nominale"), "nominal pipe size",
    ),
    "circumference": "circumference",
    "post circumference": "circumference",
    "pole circumference": "circumference",
    "girth": "circumference",
    "nominal pipe size": "nominal pipe size",
    "nominal size": "nominal pipe size",
    "nps": "nominal pipe size",
}
"""Headings over the post's size that say themselves what the size is."""

BARE_THINGS = frozenset(
    ("board", "backboard", "boards", "ring", "rings", "rim", "hoop", "basket", "mount", "bracket", "footing", "foundation",
     "concrete", "pier", "court", "slab", "extension", "line", "net", "pad", "fence", "light", "old", "existing", "new")
)
"""Things of a court: under such a group heading, `Height` is not the post's."""

PASSED_OVER_IN_HEADINGS = frozenset(
    ("needed", "required", "mandatory", "optional", "if", "known", "nos", "nr", "off", "near", "at", "the", "top", "of", "post", "pole", "where",
     "clamps", "go", "see", "note", "notes", "one", "per", "row", "yes", "no", "pcs", "ea", "each", "text", "number", "list",
     "pick", "choose", "from", "a", "to", "very", "please", "fill", "in", "short", "whole", "od", "outside", "ø", "x", "t", "d", "s", "b", "h", "w", "l", "aussen", "außen", "da", "de", "dn")
)
"""Words in a heading's bracket that say nothing about what is measured."""

NOTHING_IS_READ = (
    "Nothing on this sheet is read.", "Nada de esta hoja se lee.", "Rien n'est lu sur cette feuille.",
    "Auf diesem Blatt wird nichts gelesen.", "Nada desta folha é lido.", "Nulla di questo foglio viene letto.",
)
"""One of them stands on a sheet that explains the columns, whatever else it looks like."""

HOLDS_ROW = frozenset(
    ("site_code", "site_name", "post_code", "quantity", "post_shape", "post_size", "size_basis", "post_height", "court_rise",
     "ring_heights")
)
"""What nothing can do without: a cell of these that cannot be read holds its row; any other cell is unknown then."""

ROUND_ONLY = ("circumference", "nominal pipe size")
"""What the size of no other post than a round one can be."""

WALL_PART = 5
"""A wall is at most this part of the post's size."""

SURVEY = Table(
    "Survey",
    "one post, or a number of identical posts, standing at a court",
    (
        Column(
            "site_code", "Site code", "code",
            help="Short code of the ground, the same on every row of that ground. One quotation is written per site.",
            synonyms=("site id", "site no", "site number", "site ref", "site reference", "ground code", "ground no", "location code", "location id", "school code", "school no", "park code", "park no", "facility code", "site key", "code of site"),
        ),
        Column(
            "site_name", "Site name", "text",
            help="Name of the school, park or league ground as it should stand on the quotation.",
            synonyms=("name of site", "ground name", "location name", "school name", "park name", "facility name", "name of school", "name of park", "name of ground", "building name", "site location", "campus", "campus name", "school building", "name of building", "name of location", "court name", "name of facility", "name of venue", "school or site", "sports ground", "name of reserve", "reserve name", "property name", "name of campus", "branch name", "name of academy", "venue name", "club name", "site or facility", "centre name", "community centre", "leisure centre", "school or park name", "name of the school", "name of the park", "park or school name", "name of school or park", "facility or school", "school district site", "where is the post", "location of posts"),
        ),
        Column(
            "customer", "Customer", "text",
            help="Who the quotation is for. Customers with agreed terms are listed in the catalogue.",
            synonyms=("client", "customer name", "client name", "name of customer", "bill to", "buyer"),
        ),
        Column(
            "site_kind", "Site kind", "choice", values=SITE_KINDS,
            help="School, park, league or other.",
            synonyms=("kind of site", "site type", "type of site", "ground kind", "location type", "facility type", "kind of ground"),
        ),
        Column(
            "post_code", "Post", "code",
            help="Name or number of the post, different for each row of the site.",
            synonyms=("pole", "post id", "post no", "post number", "post ref", "post name", "post label", "post mark", "pole id", "pole no", "pole number", "pole code", "pole ref", "pole name", "pole label", "upright", "upright no", "upright id", "asset num", "asset nbr", "asset code", "asset ref", "asset reference", "asset id", "asset no", "asset number", "asset tag", "pole num", "post num", "structure id", "structure no", "pole tag", "post tag", "tag no", "tag number", "goal id", "goal no", "goal number", "post identifier", "pole identifier", "which post", "which pole", "post reference", "pole reference", "stanchion", "stanchion no", "upright ref", "hoop pole", "goal post no"),
        ),
        Column(
            "quantity", "Identical posts", "whole", default="1", least="quantity_least", most="quantity_most",
            help="How many posts this row stands for, alike in everything on the row.",
            synonyms=("qty", "cnt", "qnty", "qy", "no of", "amt", "pole cnt", "post cnt", "goal cnt", "pcs", "posts per court", "poles per court", "posts at court", "poles at court", "posts here", "poles here", "how many of these", "no here", "quan", "qty ea", "qty each", "goals per court", "hoops per court", "number of posts", "no of posts", "qty of posts", "post qty", "posts alike", "number of identical posts", "no of identical posts", "number of poles", "no of poles", "identical poles", "how many posts", "how many alike", "post count", "pole count", "num posts", "num of posts", "num poles", "num of poles", "total posts", "total poles", "no off", "nr off", "number off", "qty off", "qty on hand", "number of uprights", "number of stanchions", "number on site", "quantity of poles", "number alike", "how many like this", "number of uprights like this", "posts like this", "no of uprights", "number of supports", "no of supports"),
        ),
        Column(
            "post_shape", "Post shape", "choice", needed=True, values=SHAPES,
            help="Shape of the post across: round, square or other.",
            synonyms=("shp", "shape code", "shape cd", "rnd sq", "rd sq", "shape", "pole shape", "shape of post", "shape of pole", "section shape", "post section", "pole section", "round or square", "cross section", "post cross section", "upright shape", "tube shape", "pipe shape", "round or sq", "round square", "post round or square", "what shape", "shape r s", "shape of the post", "shape of the pole", "tube profile", "profile shape", "post profile shape", "square or round", "sq or rd", "rd or sq", "round square other", "rnd or sq", "shape of tube", "shape of pipe", "shape of upright", "what shape is it", "what shape is the post", "what shape is the pole", "post is round or square", "type round square"),
        ),
        Column(
            "post_size", "Post size", "pipe", "in", needed=True, least="post_size_least", most="post_size_most",
            help="Outside size of the post where the clamps go, near the top: 3 1/2, or a pipe size such as NPS 3, 3 in sch 40 or DN 80.",
            synonyms=("od", "sq side", "square side", "side of square", "width of square", "side if square", "width if square", "dia if round", "diameter if round", "od if round", "round dia", "round diameter", "round od", "square width", "square size", "sq width", "sq size", "round size", "diameter round", "width square", "side square", "dia round", "flat to flat", "o/a width", "o/a size", "o/a dia", "o/a dimension", "o/a dim", "post dim", "post dims", "post dimension", "post dimensions", "pole dim", "pole dims", "pole dimension", "pole dimensions", "o/dia", "o/s dia", "o/s diameter", "o/s size", "post od", "pole od", "pipe od", "tube od", "od of post", "od of pole", "outside diameter", "outer diameter", "external diameter", "outside dia", "outer dia", "diameter", "dia", "diam", "ø", "post diameter", "pole diameter", "post dia", "pole dia", "pole size", "size of post", "size of pole", "upright size", "outside size", "post outside size", "post size od", "pole size od", "outside width", "post width", "pole width", "circumference", "post circumference", "pole circumference", "girth", "nominal pipe size", "nominal size", "nps", "out dia", "out diam", "outside diam", "outer diam", "post outside diameter", "pole outside diameter", "post outer diameter", "pole outer diameter", "tube size", "tube diameter", "tube dia", "pipe diameter", "pipe dia", "diameter of post", "diameter of pole", "dia of post", "dia of pole", "width of post", "post od size", "distance around", "distance around post", "distance around pole", "pipe od size", "pole diam", "post diam", "measured od", "od width", "width od", "diameter width", "diameter or width", "od or width", "outside diameter or width", "how wide is the pole", "how wide is the post", "member size", "section size", "profile size", "profile dimension", "profile width", "profile dims", "outside diameter of post", "outside diameter of pole", "pole width or diameter", "post width or diameter", "ext dim", "external dim", "outside dim", "external dimension", "outside dimension", "outside dimensions", "overall width", "external size", "size across", "dia or width", "width or dia", "od or side", "external dia", "external diam", "external width", "pole ø", "post ø", "dia or side", "outside measurement", "outer width", "outside width or diameter", "overall diameter", "size od", "od dimension", "outer size", "outside measure", "dia outside", "diameter od", "tube o d", "pole thickness across", "measured across", "measured width", "measured diameter", "post across", "dia mm", "outside face to face", "face to face", "pole gauge across", "distance round post", "distance round the post", "distance round", "length round post", "measurement round post", "size round post", "distance round pole", "tape round post", "how far round", "how far around", "how far round is it", "how far around is it"),
        ),
        Column(
            "size_basis", "Size is", "choice", values=SIZE_BASES,
            help="What the size is: outside diameter, outside width, circumference or nominal pipe size. Blank: outside.",
            synonyms=("size basis", "basis of size", "size type", "size kind", "size measured as", "type of size", "size given as", "what size is", "what the size is"),
        ),
        Column(
            "measured_with", "Measured with", "choice", values=SIZE_METHODS, default="rule across",
            help="How the size was taken. A tape round the post or calipers are best; an estimate passes only where its whole band fits.",
            synonyms=("size measured with", "size measured by", "how size was measured", "size method", "measuring tool", "size taken with", "how measured", "measurement method"),
        ),
        Column(
            "wall", "Wall thickness", "length", "in", least="wall_least", most="wall_most",
            help="Thickness of the tube's wall near the ground, where rust eats it. Leave blank where it is not known.",
            synonyms=("wall", "wall thk", "wall thick", "pipe wall thickness", "tube wall thickness", "wall thickness of pipe", "wall thickness of tube", "section wall thickness", "pipe wall", "tube wall", "post wall", "pole wall", "thickness of wall", "post wall thickness", "pole wall thickness", "pole thickness", "post thickness", "tube thickness", "pipe thickness", "steel thickness", "wall thickness of post", "wall thickness of pole", "thk"),
        ),
        Column(
            "material", "Post material", "choice", values=MATERIALS, default="unknown",
            help="Steel, aluminium, wood, other or unknown.",
            synonyms=("material", "pole material", "post made of", "material of post", "materials", "post materials", "pole materials", "material type", "type of material", "made of", "matl", "material of construction", "construction material"),
        ),
        Column(
            "post_height", "Height above ground", "length", "ft", needed=True, least="post_height_least", most="post_height_most",
            help="From the ground at the post to the very top of the post.",
            synonyms=("height", "post height", "pole height", "height of post", "height of pole", "height above grade", "height over ground", "above ground", "above grade", "exposed height", "ht", "post ht", "pole ht", "height ag", "post height above ground", "pole height above ground", "post height above grade", "pole height above grade", "upright height", "height from ground", "length above ground", "height above ground level", "height above the ground", "post height above ground level", "pole height above ground level", "height of post above ground", "height of pole above ground", "height of post above grade", "height of pole above grade", "overall post height", "overall pole height", "height to top", "height to top of post", "height to top of pole", "height to the top", "height agl", "ht agl", "ht a/g", "height a/g", "ht ag", "post height agl", "how tall is the pole", "how tall is the post", "how high is the pole", "how high is the post", "total post height", "total pole height", "height of post from ground", "how tall", "how high", "ht above grade", "height out of ground", "overall height out of the ground", "reach to top", "above ground height", "height clear of ground", "free standing height", "exposed height", "height exposed", "height projecting", "free height", "standing height", "exposed length", "length above grade", "length out of ground", "stick up height", "height of upright", "top of post above ground", "top of pole above ground", "projection above ground", "ht abv grade", "ht above ground", "ht abv ground", "height abv ground", "vertical height", "post top height", "top of post height", "height to post top", "height to pole top", "grade to top", "ground to top", "ground to top of post", "from ground to top", "height from grade", "height off ground", "height off the ground", "out of ground", "above surface", "height above surface", "height above pavement", "height above asphalt", "tip height", "post length above ground", "pole length above ground"),
        ),
        Column(
            "height_measured_with", "Height measured with", "choice", values=HEIGHT_METHODS, default="tape",
            help="How the height was taken.",
            synonyms=("height method", "height measured by", "height taken with", "height tool", "height measurement", "how height was measured"),
        ),
        Column(
            "court_rise", "Court above ground", "length", "in", default="0", least="court_rise_least", most="court_rise_most",
            help="How far the playing surface lies above the ground at the post; negative where it lies below. Blank: level.",
            synonyms=("court rise", "court level", "court above grade", "court over ground", "court height above ground", "surface above ground", "playing surface above ground", "slab above ground", "court surface above ground", "court rise above ground"),
        ),
        Column(
            "clear_length", "Clear straight length", "length", "in", least="", most="",
            help="From the top of the post downwards: the length that is straight and free of fittings. Blank: the whole height.",
            synonyms=("clear length", "straight length", "clear straight", "free length", "clear from top", "straight clear length", "unobstructed length", "straight free length", "clear length from top"),
        ),
        Column(
            "post_line", "Post line", "choice", values=LINES, default="unknown",
            help="Straight, tapered, gooseneck (curved or angled towards the court), bent or unknown.",
            synonyms=("pole line", "line of post", "straightness", "post straightness", "post form", "post style", "straight or gooseneck", "pole style", "post profile", "straight or curved", "curved or straight", "straight or bent", "straight or angled", "straight curved", "post straight or curved", "pole straight or curved", "bent or straight", "straight or goose neck"),
        ),
        Column(
            "post_base", "Post base", "choice", values=BASES, default="unknown",
            help="How the post stands in the ground: cast in, ground sleeve, driven, base plate, portable or unknown.",
            synonyms=("pole base", "base of post", "base type", "post base type", "footing type", "anchorage", "fixing in ground", "set in ground", "foundation type", "type of foundation", "type of base", "how set", "how mounted in ground", "how is it set", "foundation kind", "type of footing", "footing", "footings", "footer", "ftg", "foundation detail", "ground fixing", "fixing to ground", "fixed how", "how fixed", "set in", "setting", "set into", "embedment type", "mounting type", "type of fixing", "mounting method", "fixing method"),
        ),
        Column(
            "lean", "Lean", "angle", "deg", default="0", least="lean_least", most="lean_most",
            help="How far the post leans: an angle, or a slope such as 1/4 in per ft, 1:100 or 10 mm/m. Blank: plumb.",
            synonyms=("tilt", "out of plumb", "inclination", "lean angle", "post lean", "pole lean", "lean of post"),
        ),
        Column(
            "old_fittings", "Old fittings", "choice", values=FITTINGS, default="unknown",
            help="What still hangs on the post: none, removable, fixed (welded) or unknown.",
            synonyms=("fittings", "whats on it", "whats left on it", "old parts", "old parts left", "still on pole", "still on post", "remaining on pole", "remaining on post", "mounts left", "old mounts", "old mount", "whats there now", "whats hanging on it", "anything hanging on it", "old hardware", "existing fittings", "existing hardware", "hardware", "attachments", "old brackets", "fittings on post", "what is on it", "existing attachments", "old attachments", "whats still on it", "whats on the post", "old stuff on post", "brackets on pole", "brackets on post", "bracket on pole", "bracket on post", "existing brackets", "existing bracket", "brkts", "brkt", "brackets", "attachment", "attached items", "items attached", "fittings left", "fittings on", "hardware left", "left on post", "left on pole", "fixtures", "existing fixtures", "hardware on pole", "attached hardware", "prior equipment", "previous equipment", "remaining hardware", "remaining fittings", "fittings remaining", "fixings remaining", "existing fixings", "residual fittings", "whats on it now", "what is on it now", "anything still attached"),
        ),
        Column(
            "condition", "Condition", "choice", values=CONDITIONS, default="unknown",
            help="Sound, surface rust, corroded, cracked, loose or unknown. Look at the ground line and under collars.",
            synonyms=("post condition", "looks", "how it looks", "hows it look", "how does it look", "how is it holding up", "holding up", "rust or cracks", "rust damage", "rust or damage", "condition code", "wear", "wear and tear", "overall look", "rust cracks", "condition now", "pole condition", "condition of post", "condition of pole", "soundness", "overall condition", "general condition", "condition rating", "cond", "post cond", "pole cond", "structural condition", "physical condition", "condition overall", "state of post", "state of pole", "condition grade", "cond code", "cond rating", "condition score", "condition description"),
        ),
        Column(
            "ring_heights", "Ring heights wanted", "lengths", "ft", least="ring_height_least", most="ring_height_most",
            help="Ring height wanted above the playing surface, or several with ; between. Blank: the standard height.",
            synonyms=("ring height", "ring heights", "rim height", "rim heights", "ring ht", "rim ht", "height of ring", "height of rim", "wanted ring heights", "wanted ring height", "ring height wanted", "wanted heights", "heights wanted", "wanted rim height", "wanted rim heights", "rim height wanted", "rim heights wanted", "target height", "target ring height", "hoop height", "basket height", "goal height", "desired ring height", "desired ring heights", "desired rim height", "desired rim heights", "required ring height", "required ring heights", "required rim height", "required rim heights"),
        ),
        Column(
            "least_board_width", "Least board width", "length", "in", least="board_width_least", most="board_width_most",
            help="The narrowest board that will do.",
            synonyms=("min board width", "minimum board width", "least width of board", "board width at least", "board at least", "board width least", "board width min", "board width minimum", "smallest board width"),
        ),
        Column(
            "mount_asked", "Mount asked for", "code",
            help="Code of a mount, where a certain one is wished for.",
            synonyms=("mount wanted", "mount requested", "mount asked", "wanted mount", "requested mount", "preferred mount", "mount code", "mount wish"),
        ),
        Column(
            "board_asked", "Board asked for", "code",
            help="Code of a board, where a certain one is wished for.",
            synonyms=("board wanted", "board requested", "board asked", "wanted board", "requested board", "preferred board", "board code", "board wish"),
        ),
        Column(
            "ring_asked", "Ring asked for", "code",
            help="Code of a ring, where a certain one is wished for.",
            synonyms=("ring wanted", "ring requested", "ring asked", "rim asked for", "rim wanted", "rim requested", "wanted ring", "requested ring", "preferred ring", "preferred rim", "ring code", "rim code", "ring wish"),
        ),
        Column(
            "post_to_end_line", "Post to end line", "length", "ft", least="post_to_end_line_least", most="post_to_end_line_most",
            help="From the post's face to the outer edge of the end line; positive when the post stands off the court.",
            synonyms=("end line", "post to line", "distance to end line", "post to baseline", "pole to baseline", "pole to end line", "baseline distance", "distance to baseline", "to end line", "set back", "setback", "post face to end line", "post to base line"),
        ),
        Column(
            "footing_diameter", "Footing diameter", "length", "in", least="footing_diameter_least", most="footing_diameter_most",
            help="Diameter of the concrete round the post (the diagonal of a square one), where it is known.",
            synonyms=("footing dia", "concrete diameter", "foundation diameter", "diameter of footing", "pier diameter", "footing diam", "footing ø"),
        ),
        Column(
            "footing_depth", "Footing depth", "length", "in", least="footing_depth_least", most="footing_depth_most",
            help="Depth of that concrete, where it is known.",
            synonyms=("concrete depth", "foundation depth", "depth of footing", "depth of concrete", "pier depth"),
        ),
        Column(
            "soil_class", "Soil class", "choice", values=("1", "2", "3", "4", "5"),
            help="1 crystalline bedrock, 2 sedimentary rock, 3 sandy gravel or gravel, 4 sand and silty or clayey sand or gravel, 5 clay and silt (rows of IBC table 1806.2). Blank: policy.",
            synonyms=("soil", "soil type", "class of soil", "soil row", "soil group"),
        ),
        Column(
            "wind_speed", "Wind speed", "speed", "mph", least="wind_speed_least", most="wind_speed_most",
            help="The local code's 3-second design gust at strength level (ASCE 7-10 and later). Blank: policy.",
            synonyms=("wind", "design wind", "design wind speed", "wind gust", "gust speed", "basic wind speed", "v ult", "design gust"),
        ),
        Column(
            "exposure", "Exposure", "choice", values=EXPOSURES,
            help="B town or woods, C open ground, D along open water. Blank: policy.",
            synonyms=("wind exposure", "exposure category", "exposure class", "terrain category"),
        ),
        Column(
            "surveyed_on", "Surveyed on", "date",
            help="The day on which the post was looked at: 2026-03-14, or 14 March 2026. Never 3/4/26, which is two days.",
            synonyms=("survey date", "date of survey", "surveyed", "date surveyed", "measured on", "date measured", "date of measurement", "inspected on", "inspection date", "date inspected", "visited on", "date of visit"),
        ),
        Column(
            "lean_shimmed", "Lean shimmed", "choice", values=YES_NO, default="no",
            help="Whether the lean is taken up by a shim or the mount's own adjustment: yes or no. Blank: no.",
            synonyms=("shimmed", "lean is shimmed", "shim fitted", "lean taken up"),
        ),
        Column(
            "strength_cleared", "Strength cleared", "choice", values=YES_NO,
            help="Whether a licensed engineer has cleared the loads on post, base and footing (yes) or refused them (no). Blank: not asked.",
            synonyms=("cleared by engineer", "engineer cleared", "loads cleared", "strength approved"),
        ),
        Column(
            "cleared_by", "Cleared by", "text",
            help="Name and licence of the engineer who cleared the strength. Without it a yes does not count.",
            synonyms=("engineer", "engineer and licence", "engineer and license", "cleared by whom", "name of engineer", "licensed engineer"),
        ),
        Column(
            "cleared_moment", "Cleared up to", "moment", "N m",
            help="Moment at the ground up to which that holds. Blank: for any kit.",
            synonyms=("cleared moment", "cleared up to moment", "moment cleared", "cleared to"),
        ),
        Column(
            "notes", "Notes", "text",
            help="Anything else worth knowing. It is carried through, not read.",
            synonyms=("note", "remarks", "remark", "comments", "comment", "memo", "comments notes", "notes comments", "additional notes", "additional comments", "general comments", "general notes", "other info", "other information", "additional info", "info", "misc", "observations", "other comments", "remarks notes", "notes remarks", "other notes", "further comments", "auditor comments", "inspector comments", "inspector notes", "field notes", "surveyor comments", "surveyor notes", "site notes", "comments or notes", "obs", "anything else", "anything else to add", "further information", "other remarks", "further remarks", "worth knowing", "worth noting", "worth a mention", "good to know", "findings", "finding", "inspection findings", "defects noted", "defects", "defects found", "any comments", "any other comments", "any remarks", "any notes", "remark if any", "remarks if any", "comment if any", "comments if any", "completion notes", "officer comments", "officer notes", "caretaker comments", "caretakers comments", "notes and comments", "comments and notes", "notes and remarks", "surveyors comments", "surveyors remarks", "surveyors notes", "inspectors comments", "inspectors remarks", "inspectors notes", "other observations", "general observations", "general remarks", "additional remarks", "additional observations", "further notes", "things to note", "points to note", "observation", "annotation", "annotations", "jottings", "what else"),
        ),
    ),
    key=("site_code", "post_code"),
)
