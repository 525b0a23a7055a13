"""Headings with several meanings, of which what stands below them says the one; grounds by name, courts, posts in titles."""

from __future__ import annotations

_FORM = (
    "tube|tubo|tubular|profile type|tipo de perfil|tipo perfil|profil tube|what they are|what it is|what are they|what is it|desc|descr|description of post|tipo de perfil|tipo de tubo|descrizione palo|descripción del poste|descrição do poste|descriptif|désignation|désignation du poteau|beschreibung|post|pole|upright|type|kind|style|form|profile|section|configuration|description|design|upright type|post type|pole type|type of post|"
    "type of pole|kind of post|kind of pole|post style|pole style|post form|pole form|post profile|pole profile|post section|"
    "pole section|post kind|pole kind|post configuration|pole configuration|post description|pole description|post design|pole design|"
    "poste|tipo|tipo de tubo|tipo de poste|tipo de mástil|forma|forma del poste|descripción|modelo|sección|perfil|"
    "poteau|type de tube|type de poteau|type de mât|genre|forme|forme du poteau|profil|section du poteau|modèle|"
    "Mast|Pfosten|Rohr|Typ|Art|Bauart|Form|Mastform|Mastart|Masttyp|Pfostenform|Pfostenart|Pfostentyp|Ausführung|Profil|Bauform|"
    "formato|forma do poste|perfil do poste|descrição|"
    "palo|tipo di palo|tipologia|forma del palo|profilo|sezione|descrizione"
)
_POST = (
    "id|no|nr|number|#|ref|ref no|reference|tag|tag no|item|item no|label|mark|unit|hoop|goal|standard|basket|position|end|side|"
    "end of court|side of court|which hoop|which goal|which end|which pole|which post|id no|s no|sl no|serial|serial no|asset|"
    "structure|nº|núm|número|ítem|referencia|etiqueta|aro|canasta|tablero|posición|clave|lado|extremo|identificación|identificacion|"
    "numéro|repère|rep|réf|référence|étiquette|panier|côté|"
    "Nummer|Lfd. Nr.|laufende Nummer|Pos.|Bezeichnung|Kennung|Korb|Seite|"
    "numero|rif|riferimento|canestro|posizione|referência|posição|cesta"
)

SEVERAL_MEANINGS: tuple[tuple[tuple[str, ...], str], ...] = (
    (("post_shape", "post_line", "post_base", "material", "old_fittings"), _FORM),
    (("post_code",), _POST),
    (
        ("site_name",),
        "court|courts|court name|gym|gym or court|court or gym|cancha|pista|terrain|campo|quadra|platz|spielfeld|where|place|location|site location|address|at|area|dónde|où|wo|onde|dove|luogo|lieu|Ort|sede",
    ),
    (("post_size",), "pipe size|pipe|size of pipe|schedule|tubería|tubo|tuyau|Rohr|Rohrgröße|diámetro nominal del tubo"),
    (("post_code", "material"), "mat|mât"),
    (
        ("old_fittings", "post_base"),
        "fixing|fixings|fixation|fixations|fijación|fijaciones|sujeción|fixação|fixações|fissaggio|fissaggi|befestigung|befestigungen|montage|attachment|ancoraggi",
    ),
    (("quantity",), "unidades|units|unid|number|no|num|count|total|qty on site|número|nombre|Anzahl|quantos|numero|nummer"),
)
"""Columns that a heading can mean, and its words. Source: common practice."""

GROUNDS = (
    r"school|elementary|elem|primary|middle school|high school|academy|college|park|playground|recreation (?:ground|center|centre|area)|"
    r"fields?|rec (?:center|centre|ground)|community (?:center|centre)|playing fields?|sports (?:ground|field|park|complex|center|centre)|"
    r"church|ymca|gym|schoolyard|rec$|(?:middle|high|intermediate)$|(?-i:ES|MS|HS|JHS|PS)$|escuela|colegio|instituto|liceo|parque|polideportivo|unidad deportiva|"
    r"[ée]cole|coll[èe]ge|lyc[ée]e|stade|parc|gymnase|[\w-]*schule|gymnasium|sportplatz|sportanlage|[\w-]*park|"
    r"escola|col[ée]gio|gin[áa]sio|scuola|istituto|parco|palestra|oratorio"
)
"""Words that name a kind of ground, as a pattern. Source: common practice."""

COUNTS = ("unidades", "units", "unid", "count", "nombre", "Anzahl", "quantos", "qty on site")
"""Of the words for a number, those that number nothing."""

BARE_GROUNDS = (
    "park|parc|school|schule|sportpark|skatepark|carpark|hochschule|grundschule|realschule|hauptschule|gymnasium|sportplatz|"
    "sportanlage|elementary|elem|primary|academy|college|playground|church|ymca|escuela|colegio|instituto|liceo|parque|"
    "polideportivo|école|ecole|collège|lycée|lycee|stade|gymnase|escola|colégio|ginásio|ginasio|scuola|istituto|parco|palestra|"
    "oratorio|gesamtschule|volksschule|mittelschule|berufsschule|förderschule|oberschule|field|fields|middle|high|intermediate"
)
"""Words for a ground that are no name by themselves."""

NO_GROUND = (
    r"schools|parks|grounds|district|county|department|dept|division|board|authority|council|league|association|company|inc|llc|ltd|"
    r"services?|office|programs?|projects?|bureau|ministry|committee|consultants?|contractors?|engineers?|city of|town of|village of|"
    r"distrito|municipalidad|ayuntamiento|municipio|secretar[íi]a|escuelas|colegios|parques|mairie|commune|[ée]coles|"
    r"landkreis|gemeinde|amt|schulamt|schulen|verein|verband|prefeitura|secretaria|escolas|comune|provincia|scuole"
)
"""Words of a title that speak of more than one ground, or of whose it is. Source: common practice."""

COURTS = r"(?:courts?|playgrounds?|pitch|cancha|pista|terrain|spielfeld|platz|quadra|campo)"
"""Words of a heading over the court of a ground, as a pattern."""

POSTS_IN_TITLES = (
    r"posts?|poles?|uprights?|hoops?|basketball|basket|b[áa]squet(?:bol)?|jirafas?|backboards?|postes?|poteaux?|mast(?:en)?|pfosten|pal[oi]|baloncesto|basquete?|"
    r"pallacanestro|canastas?|paniers?|k[öo]rbe|basketballk[öo]rbe|canestri"
)
"""Words of a title over a table of posts, as a pattern."""
