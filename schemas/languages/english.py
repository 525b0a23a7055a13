"""English: words of lists beside those of the glossary itself. Source: common practice."""

from __future__ import annotations

from schemas.languages.language import Language

_NOT_KNOWN = "not known|don't know|do not know|not sure|unsure|no idea|unk|no data|not recorded|not inspected|not assessed|not checked"
_ESTIMATE = "estimated|est|guess|guessed|eyeballed|by eye|approximate|approx"
_DRAWING = "drawings|plan|plans|from drawing|as built drawing"

ENGLISH = Language(
    "en", "English",
    headings={},
    weak={
        "post_code": "asset|support|support post|support pole",
        "post_size": "dim|dims|ext dims",
        "post_height": "height total|reach|height above ground line",
        "post_base": "base detail|base details|base fixings|base fixing",
        "condition": "status condition|state of repair",
        "old_fittings": "stuff still on it|stuff on it|stuff left on it|stuff on the pole|stuff on pole|still on it|left on it|what is on it|what is still on it|whats still on it|fixings remaining on post|what is left on|whats left on|still fixed to post|still attached|still attached to post|still on post|left on post|remaining on post|equipment on post",
        "site_name": "school and post|site and post|park and post|park and pole|school and pole|site and pole|location and post|school and court|site and court|park and court|ground and post|ground and court|facility and post|asset location|parent location|open space name|village|open space|play area|sports facility|reserve|estate|premises|hall|plaza|ball park|ballfield|ball field|sports complex|sports field|sports park|athletic field|recreation centre|recreation area|rec center|rec centre|community center|center|centre|college|kindergarten|nursery|hospital|housing estate|camp|church", "quantity": "no of units|number of units|asset qty|asset quantity|asset count|unit qty|unit quantity|unit count|number of assets|no of assets|no of items|number of items|item qty|item quantity|element quantity|pcs|pieces|nos|ea|amount|tot|uprights|stanchions|supports"},
    words={
        "site_kind": {
            "school": "schools|school ground|school grounds|schoolyard|elementary school|middle school|high school",
            "park": "parks|public park|city park|park ground",
            "league": "leagues|league ground|youth league",
        },
        "post_shape": {
            "round": "circular hollow section|chs|circ|circular|circle|rnd|rd|r|round tube|round pipe|pipe|round post|round pole|cylindrical|cylinder|tubular round|ø|rnd tube|rnd pipe|rd tube|rd pipe|round steel pole|round steel poles|round steel|round steel post|round galvanized pipe|cyl|round galv pipe|circular hollow|hollow circular|round hollow|tubular|round hollow section",
            "square": "square hollow section|shs|sq|sqr|s|square tube|square tubing|square post|square pole|box square|sq tube|square steel|square hss|hss square|sq steel|square steel pole|square steel poles|square steel post|rhs square|square section|square steel tube|sq hss|square hollow|hollow square|square hollow section|square box section",
        },
        "size_basis": {
            "outside diameter": "od|outer diameter|diameter|dia|outside dia|diam|external diameter",
            "outside width": "width|outer width|width across flats|across flats|outside width across flats|external width",
            "circumference": "circ|circum|girth|around|round the post|distance around|circumf",
            "nominal pipe size": "nominal|nps|nominal size|nominal pipe|nom|nominal diameter|dn|pipe nominal",
        },
        "measured_with": {
            "calipers": "caliper|calliper|callipers|vernier|vernier caliper|vernier calipers|digital caliper|digital calipers|slide caliper",
            "tape round the post": "tape around the post|tape around|tape round|tape around post|tape round post|tape measure around|tape measure around the post|wrap tape|diameter tape|pi tape",
            "rule across": "ruler|ruler across|rule|ruler across the post|rule across the post|straight rule|tape across|tape across the post|tape measure across",
            "pipe mark": "mark on pipe|mark on the pipe|pipe marking|pipe markings|stamp on pipe|stencil on pipe",
            "drawing": _DRAWING,
            "estimate": _ESTIMATE,
        },
        "material": {
            "steel": "galvanized steel|galvanised steel|galv steel|galvanized|galvanised|galv|painted steel|carbon steel|mild steel|black steel|steel pipe|steel tube|steel galvanized|steel galvanised|steel painted|galvanized pipe|galvanised pipe|galv pipe|hot dip galvanized steel|hot dip galvanized|hot dipped galvanized|hdg|hdg steel|structural steel|steel tubing|gal steel|stl|galv stl|gs|ms|galvanised mild steel|galvanized mild steel|gi|g i|gms|gi pipe|gi steel|galvanised iron|galvanized iron|gal steel|steel gal|gal|gal pipe|hot dip galv|hot dip galvanised|hot dip galvanised steel|mild steel galvanised|powder coated steel|powdercoated steel|ms pipe|ms tube|weathering steel|erw steel",
            "aluminium": "aluminum|alu|alum|alum pipe|al|ali|ally",
            "wood": "timber|wooden|lumber|treated wood|treated timber|pressure treated wood|hardwood|softwood|treated pine|timber post|wooden post",
            "other": "stainless steel|stainless|ss|cast iron|concrete|fibreglass|fiberglass|fibre glass|frp|grp|plastic|pvc|composite|brick",
            "unknown": f"{_NOT_KNOWN}|metal|metallic|metal pole|metal post",
        },
        "height_measured_with": {
            "tape": "tape measure|measuring tape|steel tape",
            "level or laser": "level|laser|laser level|laser meter|laser measure|laser distance meter|optical level|total station",
            "drawing": _DRAWING,
            "estimate": _ESTIMATE,
        },
        "post_line": {
            "straight": "str|straight up|straight post|straight pole|straight all the way|straight to the top|vertical straight|straight vertical|straight up and down|strt|st|vertical and straight|plumb and straight|str8",
            "tapered": "taper|tapering|conical",
            "gooseneck": "s-curve|s-curved|l-shaped|cranked|bend at top|bends at top|curve at top|overhang bend at top|inclined at top|goosenecked|goose neck|goosneck|gooseneack|gosseneck|goosenek|gooesneck|gooseneck style|swan neck|gooseneck post|gooseneck pole|curved|curved post|curved pole|curves over|angled|cantilever|cantilevered|cantilever post|curved top|straight w curved top|straight with curved top|straight then curved|bends over|bent over court|bent over the court|arched|offset|offset arm|offset post|offset pole|cantilever arm|bends over the court|bends over court|curves over court|curves over the court|bends toward the court|bends towards the court|curved arm|curved at top|curved at the top|angled arm|shepherds crook|crook|hooked|candy cane|bends over|post bends over the court|it curves over|curves|curves over the top|curves at the top|swan necked|swanneck|swan neck post|swan necked post|gooseneck type|swan neck type|overhanging arm|bends forward at top|bent over at top towards court|curved over at the top",
            "bent": "bent post|bent pole|buckled|kinked",
            "unknown": _NOT_KNOWN,
        },
        "post_base": {
            "cast in": "cip|c.i.p.|cast-in-place|cast in pl|conc ftg|concrete ftg|conc footing|conc. footing|cast in concrete|in concrete|concreted in|concreted|set in concrete|embedded in concrete|cast in place|cast into concrete|concrete in|concrete|concrete footing|poured in concrete|concrete footer|embedded in concrete footing|direct embedded in concrete|in concrete footing|conc|conc footing|in conc|concrete base|concrete pad|mass concrete|concrete foundation|set in conc|embedded|concrete block|in ground concrete|concrete pier|direct buried in concrete|grouted in|cast in slab|cast into slab|cast in concrete block|concrete block foundation|in rcc|embedded in rcc|rcc foundation|rcc block|in cement concrete|embedded in cement concrete|cc block|mass concrete foundation|set into concrete|concreted into ground|concreted into the ground|in ground in concrete|in the ground in concrete|buried in concrete|planted in concrete|root fixed in concrete|cast in situ|cast in footing",
            "ground sleeve": "sleeve|in ground sleeve|ground socket|socket|in sleeve|sleeved|sleeve in ground|ground sleeves|socketed|removable sleeve|socket in ground|socketed in ground|ground sockets|drop in socket|in ground sockets|socketed base|ground spigot socket",
            "driven": "driven in|driven into ground|rammed",
            "base plate": "pl|plt|b/p|bp|base pl|base plt|bolted plate|bolted base plate|bolted down|flange|base flange|anchor bolts|plate|bolted to slab|bolted to concrete|surface mounted|surface mount|baseplate|bolt down|bolted base|flanged|flanged base|bolted flange|plate and bolts|bolted to concrete slab|bolt down base plate|base plate on concrete|base plate on slab|base plate bolted to concrete|base plate bolted to slab|base plate bolted down|plate on concrete|plated|base plated|flange plate|holding down bolts|hd bolts|surface fixed|bolted to concrete base|bolted to the slab|bolted to ground|bolted to the ground|ms base plate|plate bolted to slab|plate bolted to concrete",
            "portable": "mobile|on wheels|movable|moveable|wheeled|rolling",
            "unknown": _NOT_KNOWN,
        },
        "old_fittings": {
            "none": "no|nil|bare|nothing|no fittings|0|nothing on it|nothing left|none left|all removed|removed|already removed|bare post|bare pole|no hardware|empty|clean|clean post|clean pole|no attachments|none on it|stripped|stripped bare|taken off|taken down|all taken off|nothing attached|cleared|clear|all clear|nothing on|nothing there|nowt|nothing fixed|nothing fitted|stripped off|none fitted|none present|all taken down|gone|all gone|long gone|already gone|not there any more|not there anymore|no longer there|not there now|no longer on|no longer fitted|no longer attached|not there any longer",
            "removable": "with bolts|by bolts|with straps|by straps|straps|with clamps|by clamps|with bands|by bands|by u bolts|by a u bolt|with a u bolt|bolted|to be unbolted|bolted on|clamped|clamped on|can be removed|can be taken off|unboltable|comes off|come off|unbolts|bolts on|bolt on|bolts off|u bolts|u bolted|strapped|strapped on|screwed|screwed on|banded|detachable|removeable|clamp bands|clamps|clamp on|bolt on bracket|bolted to post|unboltable clamps|bolt ons|bolted clamps|clamped brackets|with u bolts|strap on|u bolted on|can be unbolted|easily removed|will unbolt|unbolts easily|hook on|hooked on|clipped on|lifts off|jubilee clips|band clamps|pipe clamps|clamped with u bolts",
            "fixed": "welded|permanently attached|permanently fixed|weldment|weldments|tack welded|spot welded|tack welds|welded on|weld|welds|fixed on|cannot be removed|can't be removed|not removable|non removable|permanent|does not come off|will not come off|won't come off|welded to post|fully welded|site welded|field welded|shop welded|brazed|fixed by welding|attached by welding",
            "unknown": _NOT_KNOWN,
        },
        "condition": {
            "sound": "good|no damage|intact|excellent|new|very good|as new|like new|brand new|good condition|good shape|excellent condition|no defects|good cond|very good condition|no visible damage|undamaged|no issues|no problems|like new condition|solid|no rust|no corrosion|g|sound condition|gd|as built|no corrosion noted|no defects noted|no visible corrosion|no visible defects|no defect|nil defects|in good order|good order|good nick",
            "surface rust": "rusty on surface|rusty on the surface|rusted on surface|rusty surface|surface rusty|surface rusted|rusty on outside|rust on the surface|rust on outside only|light surface oxidation|a bit rusty|slightly rusty|little rusty|lightly rusted|some light rust|light rust|some surface rust|slight rust|minor rust|rust on surface|superficial rust|light surface rust|minor surface rust|surface corrosion|slight surface corrosion|minor surface corrosion|slight surface rust|rust surface only|surface rust only|light corrosion|a little rust|a little on the surface|some surface|light surface corrosion|bit of surface rust|little surface rust",
            "corroded": "heavy rust|heavily rusted|badly rusted|rusted through|severe rust|heavy corrosion|severe corrosion|severely corroded|heavily corroded|badly corroded|rust through|rusted out|rusted out at base|rusted through at base|perforated by rust|perforated|holes from rust|rust holes|rusted through at ground|rusting through|holed|holed at base|rotted through|rotten at base|rusted away|rusted away at base|severely rusted|perforated at base|heavily rusted at base",
            "cracked": "crack|cracks|cracked at base|cracked weld|crack at base|hairline crack|hairline cracks|visible crack|visible cracks|crack in weld|weld cracked",
            "loose": "wobbly|wobbles|loose in ground|loose footing|loose at base|rocks|moves in the ground|loose in socket|wobbles in socket|rocking|rocks in ground|moves in socket|unstable in ground",
            "unknown": _NOT_KNOWN,
        },
        "exposure": {w: f"exposure {w}|exp {w}|category {w}|cat {w}|exposure category {w}|class {w}" for w in "BCD"},
        "soil_class": {w: f"class {w}|row {w}|soil class {w}|{w}.0" for w in "12345"},
    },
    yes="yes|y|yep|yeah|true|x|✓|✔|☑",
    no="no|n|nope|false|✗|☐",
    months="January|February|March|April|May|June|July|August|September|October|November|December",
    weekdays="Monday|Tuesday|Wednesday|Thursday|Friday|Saturday|Sunday",
)
