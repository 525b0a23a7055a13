"""Words and marks that stand in a survey's cells instead of a value of their own, in six languages."""

from __future__ import annotations


def _words(text: str) -> frozenset[str]:
    return frozenset(w.strip() for w in text.split("|"))


SAME_AS_ABOVE: frozenset[str] = _words(
    # English, then Spanish, French, German, Portuguese, Italian
    "do|ditto|dito|same|as above|same as above|see above|as before|same again|same as previous|same as before|same as prev|"
    "the same|same thing|as per above|likewise|same as the one above|same as last|as last|as line above|repeat|rpt|"
    "idem|ídem|igual|lo mismo|mismo|el mismo|la misma|igual que arriba|como arriba|igual al anterior|igual que el anterior|"
    "comme ci-dessus|comme ci dessus|ci-dessus|pareil|même|le même|la même|identique|voir ci-dessus|"
    "dto|detto|desgl|wie oben|siehe oben|s.o|gleich|dasselbe|ebenso|wie vor|wie vorher|wie vorne|w.o|wie zuvor|desgleichen|"
    "como acima|igual acima|igual ao anterior|o mesmo|mesmo|a mesma|ver acima|"
    "come sopra|c.s|uguale|lo stesso|stesso|stessa|la stessa|vedi sopra|detta|come prima|idem c.s"
)
"""Words that say only `the same as above`; full stops after them are not counted. Source: common practice."""

SAME_WITH_STOP: frozenset[str] = _words("id.|(id.)|íd.")
"""Short forms that are another word without their full stop. Source: common practice."""

SAME_MARKS = frozenset("\"'`´‘’‚“”„″′‟〃ʺ˝,-–—_↑^/ ")
"""Characters of which a ditto mark is made (`"`, `''`, `,,`, `-"-`, `〃`)."""

SAME_SIGNS = frozenset(
    ('"', "''", "``", "´´", "‘‘", "’’", "“", "”", "„", "″", "′′", "‟", "〃", "ʺ", "˝", ",,", "//", "↑", "^", "‚‚")
)
"""Signs of which one at least makes such a mark: a dash alone says nothing."""

BOTH = _words(
    "both|pair|a pair|the pair|1 pair|one pair|ambos|ambas|los dos|las dos|par|un par|les deux|tous les deux|paire|une paire|"
    "beide|paar|1 paar|ein paar|os dois|as duas|um par|entrambi|tutti e due|coppia|una coppia"
)
"""Two posts without a name."""

ALL = _words("all|all of them|every|each|todos|todas|tous|toutes|alle|jeder|sämtliche|tutti|tutte|ogni")
"""Posts without a number."""

AND = ("and", "y", "et", "und", "e", "plus")
"""Words between two names; `&`, `+` and a comma are signs."""

TO = ("to", "thru", "through", "till", "until", "a", "al", "à", "au", "bis", "até", "ao", "fino a")
"""Words between the two ends of a range."""

NUMBERS: dict[str, int] = {
    **dict(
        zip(
            ["two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"],
            range(2, 13),
            strict=True,
        )
    ),
    **dict(zip(["dos", "tres", "cuatro", "cinco", "seis", "siete", "ocho"], range(2, 9), strict=True)),
    **dict(zip(["deux", "trois", "quatre", "cinq", "six", "sept", "huit"], range(2, 9), strict=True)),
    **dict(zip(["zwei", "drei", "vier", "fünf", "sechs", "sieben", "acht"], range(2, 9), strict=True)),
    **dict(zip(["dois", "três", "quatro", "cinco", "seis", "sete", "oito"], range(2, 9), strict=True)),
    **dict(zip(["due", "tre", "quattro", "cinque", "sei", "sette", "otto"], range(2, 9), strict=True)),
}
"""Numbers in words."""

SO_MANY = (
    rf"(?:there are |we have |has |have )?(?P<number>[0-9]{{1,2}}|{'|'.join(NUMBERS)}) (?:no\.? )?"
    r"(?:of (?:these|them|this (?:type|kind|size|sort))|posts? like (?:this|these)|identical posts|"
    r"such posts|de estos|de ces poteaux|davon|destes|di questi)"
    r"|(?:a )?pair of (?:these|them|identical posts)|un par de estos"
)
"""A remark on how many posts a row is, as a pattern."""

MAY_BE_SO_MANY = (
    rf"(?:qty\.?:? ?)?(?P<number>[0-9]{{1,2}}|{'|'.join(NUMBERS)}) (?:posts?|poles?|uprights?|goals?|hoops?|off|nos?\.?|postes|poteaux|mâts|masten|pfosten|pali)"
    r"(?: here| there| in all| in total| total)?|[x×] ?(?P<times>[0-9]{1,2})|(?P<before>[0-9]{1,2}) ?[x×]|"
    r"(?:a )?(?P<pair>pair)(?: of (?:posts|poles|uprights|goals|hoops))?|qty\.?:? ?(?P<qty>[0-9]{1,2})"
)
"""A remark that may be how many posts a row is, or how many the ground has, as a pattern."""

MORE_ALIKE = (
    r"\b(?:how many|number of|no\.? of|any) (?:more|other|others|further|additional|extra)\b.*\b(?:same|identical|alike|like|similar|matching)\b|"
    r"\bother(?: identical| similar| such)? (?:posts|poles) (?:like|the same|identical)\b"
)
"""A heading over how many more posts are like the one of the row, as a pattern."""

THINGS = _words(
    "post|posts|pole|poles|upright|uprights|standard|standards|goal|goals|hoop|hoops|basket|korb|canasta|aro|panier|canestro|cesta|no|nos|nr|num|number|numbers|end|ends|side|"
    "sides|the|poste|postes|mástil|mástiles|poteau|poteaux|mât|mâts|mast|masten|pfosten|pfahl|palo|pali|stück|lado|côté|seite|lato|"
    "n°|nº|#|núm|numéro|numéros|nummer|número|números|numero|numeri|los|les|die|os|i|gli"
)
"""Words round a post's name that name nothing."""

SIDES = _words(
    "n|s|e|w|o|lh|rh|ne|nw|se|sw|no|so|north|south|east|west|northeast|northwest|southeast|southwest|left|right|l|r|near|far|front|back|"
    "home|away|visitor|visitors|guest|top|bottom|inner|outer|upper|lower|middle|centre|center|northern|southern|eastern|western|"
    "linker|linke|linkes|rechter|rechte|rechtes|nördlicher|südlicher|östlicher|westlicher|nördliche|südliche|östliche|westliche|"
    "norte|sur|este|oeste|izquierda|derecha|izquierdo|derecho|nord|sud|est|ouest|gauche|droite|nord-est|süd|ost|links|rechts|"
    "sul|leste|esquerda|direita|esquerdo|direito|ovest|sinistra|destra|sinistro|destro"
)
"""Sides of a court by which posts are named."""

PLACES_OF_ONE_POST = _words(
    "end|side|half|corner|goal|hoop|basket|post|pole|upright|key|extremo|lado|lateral|aro|canasta|poste|fondo|côté|bout|panier|poteau|"
    "seite|ende|korb|mast|pfosten|ständer|lado|ponta|cesta|tabela|lato|estremità|canestro|palo|testata"
)
"""What stands over a group of columns beside a word for where: `Road end`, `Gym side`."""

NOT_ONE_POST = _words(
    "new|old|existing|proposed|replacement|current|present|future|before|after|previous|last|next|each|other|another|both|all|any|per|every|"
    "data|details|info|information|measurements|measurement|dimensions|survey|visit|year|type|condition|size|of|board|ring|rim|backboard|"
    "spare|surveyed|measured|nuevo|viejo|actual|propuesto|otros|neuf|nouveau|ancien|existant|neu|alt|vorhanden|geplant|novo|velho|atual|"
    "nuovo|vecchio|esistente|fence|light|lamp|net|gate"
)
"""Words over a group of columns that tell no post of a court from another."""

BUT = _words(
    "but|although|though|except|aber|außer|pero|excepto|mais|sauf|mas|exceto|ma|tranne|?|~|≈|not|maybe|perhaps|probably|partly|"
    "nicht|teils|no|non|never|without|hardly"
)
"""Words of a list's cell that turn or doubt what stands beside them."""

FILLERS: dict[str, frozenset[str]] = {
    "": _words(
        "the|a|an|is|are|it|its|very|still|post|pole|posts|poles|and|all|of|on|at|to|yes|y|sí|si|oui|ja|sim|de|del|con|avec|mit|com|has|also"
    ),
    "old_fittings": _words(
        "held|secured|fastened|redundant|only|disused|old|board|boards|backboard|backboards|bracket|brackets|ring|rings|rim|rims|hoop|hoops|fittings|hardware|lug|lugs|tab|tabs|"
        "plate|plates|arm|arms|stub|stubs|ear|ears|hook|hooks|frame|gusset|gussets|piece|pieces|part|parts|steel|near|top|side|"
        "back|front|some|two|one|with|has|have|there|from|left|tack|spot|stitch|seam|fully|partially|"
        "sides|ends|faces|cleat|cleats|stubs|clevis|clevises|angle|angles|iron|bar|bars|flange|flanges|channel|collar|sleeve|nut|nuts|bolt|bolts|pin|pins|rod|rods|"
        "tube|pipe|crossarm|crossbar|mount|mounts|mounting|support|supports|metal|small|large|big|short|long|remains|remnants|"
        "leftover|attached|existing|both|three|four|place|solid|directly|attachment|attachments|braces|brace|u|"
        "tablero|tableros|tabela|tabelas|panneau|panneaux|tabellone|tabelloni|brett|bretter|zielbrett|aro|aros|arceau|cercle|cercles|anello|ferro|canasta|canastas|"
        "todo|toda|todos|todas|tout|toute|tous|tudo|tutto|tutti|alles|ménsula|ménsulas|brazo|brazos|braço|braços|bras|braccio|bracci|arm|potence|consola|"
        "herrajes|ferragem|ferragens|ferrures|ferrure|ferramenta|piezas|pieza|pièces|pièce|peças|peça|parti|parte|teile|teil|orejas|ferros|fierros|al|ao|à|au|"
        "sur|su|no|na|tubo|caño|mástil|mastro|mât|tube|tubolare|rohr|antigua|antiguas|antiguo|antiguos|viejas|vieilles|vieux|vieille|antiga|antigas|velha|velhas|"
        "anterior|anteriores|actual|atual|existente|existentes|le|la|el|los|las|o|a|os|as|les|il|lo|i|gli|le|un|una|uno|une|uma|dos|deux|dois|due|ein|einen|"
        "placa|placas|soporte|soportes|oreja|orejas|restos|viejo|vieja|viejos|herraje|herrajes|"
        "platine|platines|patte|pattes|oreilles|ancien|anciens|ancienne|restes|support|"
        "lasche|laschen|platte|platten|halter|halterung|halterungen|alte|alter|reste|noch|"
        "chapa|chapas|suporte|suportes|orelhas|velho|velhos|antigo|"
        "piastra|piastre|in|cima|arriba|oben|haut|al|palo|poste|poteau|mast|staffa|staffe|supporti|supporto|vecchio|vecchi|vecchie"
    ),
    "material": _words("painted|pipe|tube|tubing|coated|powder"),
    "condition": _words("overall|condition|looks|in|ground|base|bottom|foot|near|level|its|around|footing|generally|general"),
    "post_line": _words(
        "top|whole|way|up|then|w|with|arm|a|over|court|towards|toward|shaft|section|extension|style|type|design|ft|in|m|cm|deg|degree|degrees|bend"
    ),
    "post_base": _words(
        "with|footing|ground|into|bolts|anchor|four|grouted|holding|down|nuts|foundation|cc|rcc|pcc|existing|below|type|fixed|set|"
        "en|em|in|dans|no|na|nel|nella|im|el|la|le|o|a|al|au|ao|à|piso|suelo|chão|solo|sol|suolo|boden|béton|betão|concreto|hormigón|"
        "cemento|cimento|cls|calcestruzzo|beton|con|com|avec|mit|par|por|4|pernos|pernas|tornillos|parafusos|boulons|tirafondi|schrauben|dado|massif|sapata|plinto"
    ),
    "post_shape": _words(
        "gooseneck|goosenecked|goose|neck|necked|straight|curved|arched|steel|tube|pipe|section|tubes|pipes|sections|ms|gi|ci|mild|galv|galvanised|galvanized|gal|hot|dip|dipped|hdg|hollow|metal|metallic|"
        "iron|aluminium|aluminum|alu|alum|stainless|black|painted|powder|coated|single|one|seamless|erw|upright|uprights|column|shaft|"
        "standard|plain|walled|heavy|light|duty|medium|timber|wood|wooden|type|profile|form|shaped|"
        "acero|acier|stahl|aço|acciaio|formrohr|profilrohr|hohlprofil|box|boxed|hss|shs|rhs|scatolare|tubolare|tubular|metalón|metalon|ptr|tubing|"
        "verzinkt|verzinktes|galvanizado|galvanisé|zincato|en|in|aus|tubo|rohr|profil|perfil|profilo|sección|section|sezione|seção|profile|stock|"
        "tubería|caño|cano|tubulaire|hierro|fierro|ferro|fer|galvanizada|estructural|estrutural|metálico|metálica|métallique|secção|"
        "verniciato|verniciata|verniciati|pintado|pintada|peint|peinte|lackiert|laccato|thermolaqué|lacado|lacada|galva|zincati|zincata|galvanizados|inox|negro|preto|"
        "poste|postes|parante|pilar|poteau|poteaux|mastro|montante|pali|colonna|creux|hueco|oco|de|em|tipo|columna|coluna|mástil|mastro|mât|palo"
    ),
}
"""Words of a list's cell that change nothing, in every column ('') and in one."""

A_PART = _words("ground|base|bottom|foot|near|level|around|footing")
"""Parts of a post: what is sound there is not yet all sound."""

PIPE_ALONE = _words("pipe|pipes")
"""Words that say round by themselves, and nothing beside a word for a square post."""

_POST = r"(?:post|pole|tube|tubing|pipe|section|hollow|upright|column|stanchion)s?\b"
SAYS_SQUARE_POST = rf"\bshs\b|\b(?:square|sq)\b\.?\s+(?:\w+\s+){{0,2}}?{_POST}"
SAYS_ROUND_POST = rf"\bchs\b|\b(?:round|circular)\s+(?:\w+\s+){{0,2}}?{_POST}"
SAYS_OTHER_SHAPE = (
    rf"\brhs\b|\b(?:rectangular|octagonal|hexagonal|oval|lattice|triangular)\s+(?:\w+\s+){{0,2}}?{_POST}|\b(?:i|h)-?beam\b"
)
"""Words of a text that says a post's shape among other things, as patterns."""

DOUBTFUL_SHAPES = (
    r"no|not|non|never|maybe|perhaps|probably|possibly|looks|seems|or|o|ou|oder|was|were|replaced|but|new|old ones?|some|most|mostly|others?|half|semi|quarter|each|"
    r"one|two|both|either|about|unsure|unknown|(?:round|square|circular|sq)\W+(?:\w+\W+)?(?:base|plate|cap|sleeve|boards?|rim|ring|hoop|top|flange)"
)
"""Words of a description, as a pattern, beside which it does not plainly say the post's shape."""

ANGULAR = _words(
    "box|boxsection|boxtube|boxed|rhs|rectangular|rectangularhollowsection|eckig|kantig|viereckig|vierkantig|formrohr|profilrohr|hohlprofil|scatolare|ptr|hss|tube|angular|angulaire|angolare"
)
"""Words for a post that is not round: square where its size has equal sides."""

UNIT_HEADINGS = _words(
    "unit|units|uom|u.o.m|u/m|unit of measure|units of measure|unité|unités|unité de mesure|unidad|unidades|unid.|unidad de medida|"
    "einheit|einheiten|maßeinheit|unità|unità di misura|u.m.|um|unidade|unidade de medida|un. medida"
)
"""Headings of a column of units."""

NOTHING_UNITS = (
    "", "text", "number", "code", "list", "na", "n/a", "choose", "-", "yes/no", "y/n", "no", "nos", "nr", "num", "each", "ea", "pcs",
    "pc", "qty", "item", "off", "name", "ref", "id", "shape", "date", "free text", "string", "integer", "numeric", "select", "r/s",
    "rd/sq", "round/square", "sq/rd", "chs/shs", "type", "#", "x", "posts", "count", "none", "short text", "whole number", "drop down",
    "nombre", "texte", "número", "texto", "Stück", "Stk", "Anzahl", "testo", "numero", "n.", "pz", "ud", "uds", "un", "pç", "pza", "u",
    "stk.", "stck", "st", "st.", "pz.", "n°", "nº", "ud.", "un.", "u.", "und", "unid", "unid.", "unidad", "unité", "unités", "unidade",
    "cad", "pce", "pces", "pzas", "txt", "fecha", "datum", "data", "ja/nein", "oui/non", "sí/no", "si/no", "sim/não", "no.", "nr.",
    "nb", "nbre", "n.º", "n", "qté", "lista", "liste", "sì/no", "s/n", "o/n", "pçs", "cant", "qtd",
)  # fmt: skip
"""What stands in a row or column of units where nothing is measured."""

ROUND_HEADING = (
    r"\b(o\.?\s?d|dia|diam|diameter|round|rnd|circumference|girth|pipe|nps|dn|\w*durchmesser|di[aáâ]m[eè]tr[eo]|di[áâ]m|umfang|"
    r"circonf[ée]rence|circunfer[eê]ncia|circonferenza)\b|ø"
)
SQUARE_HEADING = r"\b(sq|square)\b"
EITHER_HEADING = r"\b(?:or|ou|oder)\b|\b[ou]\b(?!\.)|/(?!d\b)|width|wide|(?<!out)side|breite|kante|seite|ancho|lado|largeur|c[ôo]t[ée]|largura|larghezza|lato"
"""Headings of a size that say a round post, a square one, or leave it open, as patterns. Source: common practice."""

WOODEN = r"\b(wood|wooden|timber|lumber|treated|madera|bois|holz|madeira|legno)\b"
"""Words of a size for a post of wood, as a pattern."""
