"""Words of lines that state something for a whole sheet, in six languages.

`All measurements in inches unless noted`, `All poles are square`.
"""

from __future__ import annotations

EVERY_MEASURE = (
    "measurement", "measurements", "measure", "measures", "dimension", "dimensions", "dim", "dims", "unit", "units", "uom",
    "length", "lengths", "everything", "all", "numbers", "figures", "values", "readings", "data", "measured", "taken", "dimensioned",
    "medida", "medidas", "dimensiones", "cotas", "unidades", "unidad", "longitudes", "todo", "todas", "todos", "cifras", "datos", "valores",
    "mesure", "mesures", "cotes", "unité", "unités", "longueurs", "tout", "toutes", "tous", "chiffres", "valeurs",
    "Maß", "Maße", "Masse", "Abmessungen", "Angaben", "Maßangaben", "Einheit", "Einheiten", "Längen", "Werte", "alles", "alle",
    "Längenangaben", "Messwerte",
    "misura", "misure", "dimensioni", "quote", "unità", "lunghezze", "tutto", "tutte", "valori", "dati",
    "dimensões", "unidade", "comprimentos", "tudo", "dados",
)  # fmt: skip
"""What is said of all lengths."""

IN_STATEMENTS = (
    "all", "every", "each", "the", "our", "these", "note", "notes", "nb", "are", "is", "given", "shown", "were", "of", "post",
    "posts", "pole", "poles", "recorded", "stated", "expressed", "reported", "in", "please", "my", "listed", "entered", "below",
    "here", "sheet", "table", "was", "field", "tape", "taken",
    "todas", "todos", "las", "los", "la", "el", "son", "está", "están", "expresadas", "expresados", "nota", "de", "en", "tomadas",
    "dadas", "lineales", "postes", "poste",
    "toutes", "tous", "les", "le", "des", "sont", "est", "exprimées", "exprimés", "données", "prises", "relevées", "du", "poteaux",
    "nb", "remarque",
    "alle", "sämtliche", "die", "der", "sind", "ist", "angegeben", "gemessen", "Hinweis", "Pfosten", "Masten", "aller",
    "tutte", "tutti", "le", "i", "sono", "espresse", "espressi", "è", "dei", "delle", "pali", "in", "rilevate",
    "as", "os", "são", "estão", "expressas", "em", "dos", "das", "o", "a",
)  # fmt: skip
"""Words that change nothing in such a line."""

WHERE_MEASURED = (
    "outside", "por fuera", "por fora", "de fuera", "de fora", "afuera", "fuera", "exteriores", "exterior", "externas", "externos",
    "a partir do piso", "a partir do chão", "a partir do solo", "desde el suelo", "desde el piso", "del piso", "del suelo",
    "par l'extérieur", "extérieurs", "extérieures", "hors sol", "depuis le sol", "à partir du sol", "au-dessus du sol",
    "außen", "über Boden", "ab Boden", "über Gelände", "esterni", "esterne", "fuori terra", "da terra", "dal suolo", "dal piano",
)  # fmt: skip
"""What a statement of a unit says of where things were measured."""

UNLESS = r"u\.?n\.?o|u\.?o\.?n|unless|with|using|mit|avec|con|com|except where|if not|sauf|salvo|excepto|wenn nicht|sofern nicht|soweit nicht|falls nicht|se non|exceto"
"""What begins an exception, which a cell with its own unit makes by itself."""

ALL_OF_THEM = (
    "all", "every", "they", "these", "those", "them", "everything", "each", "ones",
    "todos", "todas", "estos", "tous", "toutes", "alle", "sämtliche", "tutti", "tutte", "todos", "todas",
)  # fmt: skip
"""Words for all posts of a list."""

BESIDE_A_SHAPE = (
    "are", "is", "the", "of", "steel", "metal", "galvanized", "galvanised", "hollow", "down", "here", "our", "note", "section",
    "sections", "in", "shape", "shaped", "only", "list", "basketball", "bball", "bb", "have", "type", "old", "existing", "just",
    "los", "las", "son", "de", "acero", "sección", "con", "nota", "solo", "les", "sont", "des", "en", "acier", "à", "section",
    "die", "sind", "aus", "Stahl", "nur", "i", "sono", "di", "acciaio", "in", "os", "as", "são", "aço", "seção", "secção", "a",
    "baloncesto", "básquet", "basquetebol", "basquete", "basket", "pallacanestro",
)  # fmt: skip
"""Words that change nothing beside a shape."""

THIS_ONE = (
    r"\b(?:this|that|last|previous) (?:one|post|pole|upright)\b|\babove\b|\beste poste\b|\b[eé]ste\b|\bce poteau\b|\bcelui-ci\b|\bdieser mast\b|"
    r"\bdieser\b|\bquesto palo\b|\bquesto\b|\beste\b"
)
"""Words, as a pattern, for the post in the row above."""

ALL_SIZES = ("sizes", "size", "tamaños", "tailles", "Größen", "tamanhos", "grandezze")
"""Words that with one for all of them mean every measure."""
