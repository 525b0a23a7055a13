"""Words beside a number: passed over, casting doubt, or changing what the number means. Three lists."""

from __future__ import annotations


def _words(text: str) -> tuple[str, ...]:
    return tuple(w.strip() for w in text.split("|"))


_ENGLISH = (
    "od|o.d|o/d|outside|outer|outside diameter|outer diameter|outside dia|dia|diam|diameter|Ø|outside width|wide|width|"
    "across|tall|high|height|long|length|deep|depth|thick|thickness|thk|wall|wall thickness|wt|w.t|above ground|above grade|"
    "above ground level|above the ground|above existing ground|post|pole|tube|tubing|exactly|exact|measured|linear|agl|a.g.l|"
    "in height|in diameter|in width|in depth|in length|of height|ht|"
    "hgt|total|overall|from ground|off ground|from the ground|off the ground|off of ground|out of ground|out of the ground|"
    "above finish grade|above finished grade|above existing grade|to top|to the top|top of post|top of pole|to top of post|"
    "to top of pole|to the top of the post|vertical|exposed|regulation|ag|a.g|ground to top|grade to top|from grade to top|"
    "from ground to top|from ground to the top|ground to the top|post height|pole height|pole is|post is|out of grade|"
    "above dirt|above grass|"
    "external|external diameter|external dia|ext dia|external width|even|dead|above asphalt|above pavement|from pavement|from the pavement|above paving|from paving|above floor|above floor level|above surface|from surface|above tarmac|"
    "above blacktop|from asphalt|out of the dirt|above the surface|clear of ground|to tip|to the tip|above natural ground|above soil|above turf|top to ground|visible|from grade|off grade|above the grade"
)
_SPANISH = (
    "alto|alta|altura|de alto|de altura|ancho|de ancho|anchura|largo|de largo|longitud|diámetro|diametro|de diámetro|"
    "diámetro exterior|exterior|espesor|de espesor|grosor|pared|"
    "sobre el suelo|sobre el terreno|sobre terreno|sobre suelo|desde el suelo|sobre el piso|sobre piso|s/suelo|s/ suelo|"
    "sobre el nivel del suelo|profundo|profundidad|poste|esp|ext|de|altura total|"
    "altura del poste|diám|alt|del suelo|desde el piso|desde el terreno|sobre el pavimento|sobre pavimento|sobre rasante|s/rasante|s/ rasante|hasta arriba|"
    "hasta la punta|libre|altura libre|libres|visibles|vistos|visto|de alto total|en total|a la punta"
)
_FRENCH = (
    "haut|haute|hauteur|de haut|de hauteur|large|de large|largeur|de long|longueur|diamètre|diametre|de diamètre|"
    "diamètre extérieur|extérieur|épaisseur|epaisseur|d'épaisseur|ép|paroi|au-dessus du sol|hors sol|profondeur|poteau|"
    "mât|ep|hauteur totale|hauteur du poteau|du sol|depuis le sol|/sol|au dessus du sol|hors-sol|du sol au sommet|au sommet|hors terre|hors tout|au-dessus du terrain|depuis le terrain|totale|au total|libre|du terrain naturel|/ sol"
)
_GERMAN = (
    "hoch|höhe|breit|breite|lang|länge|durchmesser|durchm|aussendurchmesser|außendurchmesser|außen|aussen|dick|dicke|"
    "wandstärke|wanddicke|wand|über grund|über boden|ü. gr|über gelände|ü. gelände|über ok gelände|über gok|ü. gok|ü. g|"
    "ü. ok belag|über belag|über ok belag|ab boden|vom boden|tief|tiefe|"
    "üok|üok gelände|üok boden|ü.ok gelände|ü. boden|ü. b|über dem boden|überm boden|ü. gelände ok|ü. ok|ü. ok gelände|ü. belag|ab gelände|ab ok belag|ab ok gelände|über oberkante gelände|sichtbar|gesamt|"
    "über flur|ab grund|bis spitze|bis oberkante|bis ok|über platz|mast|pfosten|stark|masthöhe|pfostenhöhe|gesamthöhe|lichte höhe|außen-Ø|aussen-Ø"
)
_PORTUGUESE = (
    "de largura|largura|comprimento|de comprimento|diâmetro|de diâmetro|diâmetro externo|externo|espessura|parede|"
    "acima do solo|acima do chão|acima do piso|do piso|do chão|do solo|profundidade|fundo|altura do poste|diâm|acima do terreno|do terreno|a partir do solo|a partir do chão|livre|altura livre|ao topo|até ao topo|até o topo|fora do solo|total|altura total|do nível do solo"
)
_ITALIAN = (
    "alta|altezza|di altezza|largo|larghezza|lunghezza|diametro|di diametro|diametro esterno|esterno|spessore|di spessore|"
    "parete|dal suolo|dal piano|da terra|Ø est|diam. est|diametro est|diam est|d.e|fuori terra|profondo|profondità|palo|"
    "altezza palo|altezza del palo|altezza totale|"
    "altezza fuori terra|da p.c|dal p.c|dal piano campo|dal pavimento|dal terreno|libera|visibile|dal piano di campagna|sopra terra|totale|alla sommità|fino in cima"
)

_GROUND = (
    ("above|from|off", "|the|finished|existing|natural", "ground|grade|pavement|asphalt|surface|floor|paving|grass|turf|soil|dirt"),
    ("über|ab|vom|von|ü.|oberhalb|oberhalb von", "|dem|ok|oberkante|okt", "boden|grund|gelände|belag|pflaster|asphalt|rasen|erdboden|terrain|flur"),
    ("au-dessus du|au dessus du|du|depuis le|sur|sur le|à partir du|au dessus|par rapport au", "|niveau du", "sol|terrain|sol fini|terrain naturel|revêtement"),
    ("sobre|desde|del|a partir del|por encima del", "|el|nivel del|nivel de", "suelo|piso|terreno|pavimento|césped|asfalto"),
    ("acima do|do|desde o|a partir do|sobre o|sobre", "|nível do", "solo|chão|piso|terreno|pavimento|relvado"),
    ("dal|da|sopra il|sopra|sul|rispetto al", "|piano|livello del", "suolo|terra|terreno|pavimento|piano campo|piano di campagna|prato|asfalto"),
)
"""Words before the ground, between, and for it: `über OK Gelände`."""
_ABOVE_GROUND = "|".join(
    " ".join((before, between, ground)).replace("  ", " ")
    for befores, betweens, grounds in _GROUND
    for before in befores.split("|")
    for between in betweens.split("|")
    for ground in grounds.split("|")
)

PASSED_OVER: dict[str, tuple[str, ...]] = {
    "length": tuple(dict.fromkeys(_words("|".join((_ENGLISH, _SPANISH, _FRENCH, _GERMAN, _PORTUGUESE, _ITALIAN, _ABOVE_GROUND))))),
    "angle": _words(
        "slope|lean|leaning|tilt|out of plumb|from plumb|from vertical|off plumb|off vertical|toward court|towards court|"
        "toward the court|towards the court|away from court|away from the court"
    ),
    "speed": _words(
        "v|wind|gust|gusts|wind speed|ultimate|ult|vult|design|basic|design wind speed|basic wind speed|design wind|"
        "3-second gust|3 second gust|3-sec gust|3-sec. gust|3 sec gust|3 sec. gust|3 s gust|3s gust|3-s gust"
    ),
    "mass": _words("mass|weight|weighs|each|ea"),
}
"""Words that say what was measured, by kind; they change nothing."""

LETTERS = ("h", "w", "l", "d", "t")
"""Letters that name a dimension before an equals sign or after a unit: `H = 8.5 ft`, `H: 8 ft`, `72 in W`."""

SQUARE = _words(
    "square|sq|box section|square hss|square tube|square tubing|square post|square pole|square steel|sq tube|sq. tube|shs|□|"
    "cuadrado|cuadrada|carré|"
    "carre|tube carré|tubo cuadrado|tubo quadrado|tubo quadrato|tubolare quadrato|scatolato|"
    "quadratrohr|quadrat|quadratisch|vierkant|vkt|vierkantrohr|quadrado|quadrada|quadro|quadra|quadrato|quadrata|carrée|quadratisches|sq hollow section|square hollow section|sq. hollow section|square section"
)
ROUND_POST = _words(
    "round post|round pole|round tube|round tubing|chs|dia|diam|diameter|Ø|od|o.d|o/d|outside diameter|outer diameter|"
    "outside dia|"
    "diámetro|diametro|diamètre|diametre|diâmetro|durchmesser|durchm|außendurchmesser|aussendurchmesser|redondo|redonda|rond|"
    "ronde|rundrohr|rundmast|tubolare tondo|diám|diâm|außen-Ø|aussen-Ø|external diameter|external dia|tondo|tonda|rotondo|rotonda|rundes|runder|runde|rundes rohr|round steel|round hollow section|circular hollow section|ø ext|ø est|circular|circulaire|circolare"
)
"""Words beside a post's size that say its shape."""

ACROSS = _words(
    "od|o.d|o/d|outside dia|outside diameter|outside width|dia|diam|diameter|wide|width|across|Ø|diámetro|diametro|diamètre|"
    "diâmetro|durchmesser|durchm|ancho|largeur|breit|largura|larghezza"
)
"""Words for a size taken across the post."""

MADE_OF = _words(
    "steel|in acciaio|d'acciaio|d'acier|en acier|en acero|de acero|de aço|em aço|aus stahl|galv|galvanized|galvanised|aluminum|aluminium|acero|acier|stahl|verzinkt|aço|acciaio|zincato|tubolare|tubular|tubulaire|profil|profilo|perfil|hollow section|hollow|section|box|stl|painted|pintado|verniciato|galvanizado|galvanisé"
)
"""What a post is made of, beside its size; wood is not here, since a 4 x 4 of wood is less than 4 in."""

ROUND = _words("round|rnd|rd|rund")
"""Words for a round post or, of a number that would do, for a length round the post."""

SHAPE_WORDS = tuple(dict.fromkeys((*SQUARE, *ROUND_POST)))

ROUND_WORDS = _words(
    "around the post|around post|around the pole|round the pole|circunf|contour|tour|tour de poteau|perimetro|circumf|circumference|circ|circumf|around|girth|all round|all around|tape round|round the post|circunferencia|contorno|perímetro|"
    "circonférence|périmètre|pourtour|umfang|circunferência|circonferenza|in circumference|de circunferencia"
)
"""Words for a size taken round the post."""

PIPE = _words("pipe|tubería|tubo|caño|tuyau|rohr|stahlrohr|cano")
"""Words for a pipe: a number beside them may be its nominal size."""

DOUBT = _words(
    "about|approx|approximately|ca|c|circa|roughly|around|est|estimate|estimated|maybe|perhaps|nearly|almost|over|under|"
    "at least|at most|less than|more than|min|max|up to|or|ish|probably|guess|say|unsure|not sure|plus or minus|"
    "give or take|nominal|nom|approximate|apx|appx|aprox|aproximadamente|aproximado|unos|casi|environ|env|à peu près|etwa|"
    "ungefähr|zirka|geschätzt|cerca|cerca de|mais ou menos|más o menos|plus ou moins|più o meno|estimado|estimé|"
    "stimato|quasi|+/-|+-|±|~|≈|≃|≅|?|<|>|≤|≥"
)
"""Words and signs that cast doubt on a number."""

CHANGING: dict[str, str] = {
    **dict.fromkeys(_words("id|i.d|inside|inner|bore|interior|intérieur|interno|innen|innendurchmesser"), "an inside size"),
    **dict.fromkeys((w for w in ROUND_WORDS if w != "round the post"), "a length round the post"),
    **dict.fromkeys(_words("ga|gauge|gage"), "a gauge number"),
    **dict.fromkeys(_words("below|lower"), "a level below"),
    **dict.fromkeys(_words("radius|r"), "a radius"),
    **dict.fromkeys(PIPE, "a pipe's name, which is not its outside size"),
    **dict.fromkeys(ROUND, "a round post or a length round the post"),
}
"""Words that change what the number means, and into what."""

RANGE = _words("to|through|thru|till|between|..|…")
"""Words between two ends of a range."""
