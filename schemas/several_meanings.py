"""Headings with several meanings, of which what stands below them says the one; words of a title over posts."""

from __future__ import annotations

from schemas.lay_headings import (
    BASES_BY_CELLS,
    CONDITIONS_BY_CELLS,
    FITTINGS_BY_CELLS,
    HIGH_BY_CELLS,
    LINES_BY_CELLS,
    POSTS_BY_CELLS,
    SITES_BY_CELLS,
    SIZED_ACROSS,
    SIZED_BY_CELLS,
    WALLED_BY_CELLS,
)

_FORM = (
    "the poles are|the posts are|they are|support|stanchion|support post|support pole|basketball support|goal support|goal post|hoop post|hoop pole|material y forma|forma y material|tipo y material|matériau et forme|forme et matériau|material e forma|forma e material|materiale e forma|forma e materiale|particulars|particulars of pole|particulars of post|particulars of posts|details of pole|details of post|post details|pole details|specification of pole|specification of post|nature of post|construction of post|post construction|make of pole|pipe type|type of pipe|kind of pipe|pipe or tube|tube or pipe|pipe tube|tube pipe|pipe section|section used|pipe or section|pipe or shs|what|what kind|which kind|sort|what sort|kind of thing|make|tube|tubo|tubular|profile type|tipo de perfil|tipo perfil|profil tube|what they are|what it is|what are they|what is it|desc|descr|description of post|tipo de perfil|tipo de tubo|descrizione palo|descripción del poste|descrição do poste|descriptif|désignation|désignation du poteau|beschreibung|post|pole|upright|type|kind|style|form|profile|section|configuration|description|design|upright type|post type|pole type|type of post|"
    "type of pole|kind of post|kind of pole|post style|pole style|post form|pole form|post profile|pole profile|post section|"
    "pole section|post kind|pole kind|post configuration|pole configuration|post description|pole description|post design|pole design|"
    "poste|tipo|tipo de tubo|tipo de poste|tipo de mástil|forma|forma del poste|descripción|modelo|sección|perfil|"
    "sorte|sorte de poteau|sorte de tube|clase|clase de poste|espécie|genere|genere di palo|Sorte|poteau|type de tube|type de poteau|type de mât|genre|forme|forme du poteau|profil|section du poteau|modèle|"
    "Profiltyp|Profilart|Rohrtyp|Masttyp|Querschnittstyp|Mast|Pfosten|Rohr|Typ|Art|Bauart|Form|Mastform|Mastart|Masttyp|Pfostenform|Pfostenart|Pfostentyp|Ausführung|Profil|Bauform|"
    "formato|forma do poste|perfil do poste|descrição|"
    "palo|tipo di palo|tipologia|forma del palo|profilo|sezione|descrizione"
)
_POST = (
    "goals|hoops|baskets|standards|canastas|paniers|Körbe|canestri|cestas|tabelas|"
    "where on site is the post|where is the post|where is it|where on site|where on the site|where in the school|where at the school|where it is|where it stands|where on the court|location on court|location in school|"
    "equipment|equip|equipment code|apparatus|apparatus no|feature|feature id|element|component|unit no|pt no|point|point no|post location|location of post|location of post on site|post position|position of post|whereabouts|position on site|location on site|id|no|nr|number|#|ref|ref no|reference|tag|tag no|item|item no|label|mark|unit|hoop|goal|standard|basket|position|end|side|"
    "end of court|side of court|which hoop|which goal|which end|which pole|which post|id no|s no|sl no|serial|serial no|asset|"
    "structure|nº|núm|número|ítem|referencia|etiqueta|aro|canasta|tablero|posición|clave|lado|extremo|identificación|identificacion|"
    "numéro|repère|rep|réf|référence|étiquette|panier|côté|"
    "Bauteil|Element|Bauwerk|Lage|Platz am Feld|Stelle|Wo steht er|wo steht der Mast|Standplatz|elemento|ubicación del poste|emplacement du poteau|posizione del palo|dove si trova|Nummer|Lfd. Nr.|laufende Nummer|Pos.|Bezeichnung|Kennung|Korb|Seite|"
    "numero|rif|riferimento|canestro|posizione|referência|posição|cesta"
)

SEVERAL_MEANINGS: tuple[tuple[tuple[str, ...], str], ...] = (
    (("post_shape", "post_line", "post_base", "material", "old_fittings"), _FORM),
    (("post_code",), _POST),
    (
        ("site_name",),
        "nombre|nome|court|courts|court name|gym|gym or court|court or gym|cancha|pista|terrain|campo|quadra|platz|spielfeld|where|place|location|site location|address|at|area|dónde|où|wo|onde|dove|luogo|lieu|Ort|sede",
    ),
    (("post_shape",), "pipe|caño|perfil|tubería|rohr|profil|cano|tubo|tube|tubolare|profilo|tuyau"),
    (
        ("post_size",),
        "section|sections|section used|post section|pole section|upright section|member|profile|post profile|tube|type of section|section type|steel section|section details|section detail|spec|specification|post type|type|description|post description|post details|post|pole|upright|perfil|sección|profil|rohr|profilo|sezione|seção",
    ),
    (
        ("post_size",),
        "pipe size|pipe|size of pipe|schedule|tubería|tubo|tuyau|tube utilisé|tubo usado|tubulação|cano|caño|tubolare|Rohr|Rohrgröße|diámetro nominal del tubo",
    ),
    (("site_name",), SITES_BY_CELLS),
    (("post_code",), POSTS_BY_CELLS),
    (("condition",), CONDITIONS_BY_CELLS),
    (("old_fittings",), FITTINGS_BY_CELLS),
    (("post_base",), BASES_BY_CELLS),
    (("post_line",), LINES_BY_CELLS),
    (
        ("post_shape",),
        "pipe or tube|pipe/tube|tube or pipe|tube/pipe|tube type|sect|stock|configuration|steel|section of post|pole or tube",
    ),
    (("post_size",), SIZED_BY_CELLS),
    (("post_size",), SIZED_ACROSS),
    (("post_height",), HIGH_BY_CELLS),
    (("post_code", "material"), "mat|mât"),
    (("wall",), WALLED_BY_CELLS),
    (
        ("old_fittings", "post_base"),
        "how is it fixed|how fixed|how is it attached|how is it held|how attached|how held|fixed by|fixed how|how are they fixed|how are they attached|mounting|mounting type|mounting method|how mounted|fixing|fixings|fixation|fixations|fijación|fijaciones|sujeción|fixação|fixações|fissaggio|fissaggi|befestigung|befestigungen|montage|attachment|ancoraggi",
    ),
    (
        ("quantity",),
        "goals|hoops|baskets|standards|canastas|jirafas|paniers|Körbe|Basketballkörbe|canestri|cestas|tabelas|unidades|units|unid|number|no|nr|nos|n|off|no off|nr off|nbr|nro|num|count|total|qty on site|número|nombre|Anzahl|quantos|numero|nummer",
    ),
)
"""Columns that a heading can mean, and its words. Source: common practice."""

COUNTS = (
    "unidades",
    "units",
    "unid",
    "count",
    "nombre",
    "Anzahl",
    "quantos",
    "qty on site",
    "cantidad",
    "quantità",
    "cuántos",
    "combien",
    "quanti",
    "total de postes",
)
"""Of the words for a number, those that number nothing."""

POSTS_IN_TITLES = (
    r"posts?|poles?|uprights?|hoops?|basketball|basket|b[áa]squet(?:bol)?|jirafas?|backboards?|postes?|poteaux?|mast(?:en)?|pfosten|pal[oi]|baloncesto|basquete?|"
    r"pallacanestro|canastas?|paniers?|k[öo]rbe|basketballk[öo]rbe|canestri"
)
"""Words of a title over a table of posts, as a pattern."""

TYPES_OF_POSTS = (
    r"(?:(?:post|pole|goal|upright|standard|drawing|detail) )?(?:type|kind|class|pattern|style|spec\.?|specification|model)(?: of (?:post|pole))?"
    r"(?: (?:no\.?|nr|ref\.?|code|mark|id|letter))?|"
    r"tipo(?: de (?:poste|tubo|mástil|mastro))?|type de (?:poteau|mât)|(?:mast|pfosten|st[äa]nder)?typ|tipo di palo|tipologia|modelo|modèle|modello"
)
"""Headings, as a pattern, of the types of posts that a table of their own describes."""
