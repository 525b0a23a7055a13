"""Words of which headings are made: what is measured, what of, and words that change nothing, in six languages."""

from __future__ import annotations


def _words(text: str) -> frozenset[str]:
    return frozenset(text.split("|"))


POST_WORDS = _words(
    "post|posts|pole|poles|upright|uprights|poste|postes|mástil|poteau|poteaux|mât|mâts|mast|masten|mastes|pfosten|rohr|tube|tubo|palo|pali|caño|jirafa|ständer|korbständer|säule|stange|piantana|haste"
)
"""What is measured; a heading with one of them is surely about a post."""

SAY_NOTHING = _words(
    "the|of|is|are|an|this|these|it|what|whats|how|your|our|please|enter|at|top|near|measured|actual|existing|current|currently|"
    "present|now|in|for|all|way|up|and|or|type|kind|"
    "de|del|della|dello|di|da|do|dos|des|du|la|le|les|el|los|il|lo|der|die|das|den|dem|am|vom|und|ou|oder|et|tipo|typ|art|"
    "actual|cuál|cual|es|está|quel|quelle|est|qual|wie|ist|welche|welcher|quale"
)
"""Words that change nothing in any heading."""

MADE_OF: dict[str, tuple[frozenset[str], frozenset[str]]] = {
    "post_size": (
        _words(
            "diameter|dia|diam|od|width|wide|size|durchmesser|außendurchmesser|aussendurchmesser|breite|breit|kantenlänge|diamètre|largeur|"
            "côté|diámetro|ancho|lado|tamaño|bitola|diâmetro|largura|tamanho|diametro|larghezza|lato|dimension|dimensions|dimensione|dimensiones"
        ),
        _words("outside|outer|external|externa|across|ext|außen|aussen|extérieur|exterior|externo|esterno"),
    ),
    "post_height": (
        _words("height|ht|hgt|high|tall|höhe|hoehe|hauteur|haut|altura|alto|altezza"),
        _words(
            "above|off|ground|grade|surface|fgl|ffl|agl|ngl|egl|ogl|asphalt|from|to|over|level|finished|finish|exposed|visible|über|grund|boden|gelände|ab|"
            "piso|pavimento|césped|belag|oberkante|ok|hors|sol|au|dessus|depuis|sobre|suelo|terreno|desde|acima|solo|fuori|terra|dal|suolo|libre|livre|libera"
        ),
    ),
    "post_shape": (
        _words(
            "shape|shp|geometry|section|cross|round|rnd|rd|square|sq|circular|rund|quadratisch|eckig|querschnitt|redondo|cuadrado|rond|carré|tondo|"
            "quadro|quadrato|quadrado|sección|seção|sezione|perfil|profil|profilo"
        ),
        _words("form|forma|forme|sect|x"),
    ),
    "post_line": (
        _words(
            "straight|straightness|derecho|curved|curvature|gooseneck|bent|recto|curvo|droit|rectitude|courbe|gerade|gebogen|reto|dritto|"
            "andamento|alignment"
        ),
        _words("line|linea|línea|ligne|linha"),
    ),
    "old_fittings": (
        _words(
            "fittings|bracket|brackets|attached|attachment|attachments|brkt|brkts|hardware|fixtures|fixings|herrajes|herraje|fijaciones|ferrures|"
            "fixations|suportes|soportes|supporti|attaches|attacchi|halterung|anbauteile|halterungen|befestigungen|acessórios|fixações|accessori|staffe|accesorios|accessoires"
        ),
        _words(
            "old|left|on|any|still|items|things|anything|remaining|there|presenti|presentes|existentes|existants|existantes|antigas|antigos|"
            "viejos|viejas|antiguos|anciennes|anciens|vorhandene|alte|alt|bisherige|vecchi|vecchie"
        ),
    ),
    "condition": (
        _words("condition|state|zustand|estado|état|stato|condizione|condizioni|conservação|conservación"),
        _words("cond|general|overall|générale|generale|geral|allgemeiner|physical"),
    ),
    "material": (_words("material|werkstoff|matériau|materiale"), _words("made")),
    "quantity": (
        _words("identical|iguales|identiques|gleiche|gleicher|iguais|uguali"),
        _words("number|no|nr|nº|nro|cantidad|nombre|anzahl|número|numero|how|many|quantidade|quantità"),
    ),
}
"""Words that say the one column, and words that change nothing beside them. Source: common practice."""

PLACES = _words(
    "school|park|field|club|venue|site|facility|ground|campus|location|building|escuela|colegio|parque|école|parc|schule|escola|scuola|parco"
)
NAMES = _words("name|nombre|nom|nome|names")
WHICH = _words("which|cuál|quel|welcher|qual|quale")
KINDS = _words("type|kind|style|form|tipo|typ|art|forma|forme|modelo|modèle|modello|bauart")
"""Words of a heading over what a post is, by any of its columns: `What kind of pole`."""
NUMBERS = _words("n|no|nr|nº|num|number|id|ref|code|label|número|numéro|nummer|numero")
"""Words beside the post for what it is called."""
COMPOUND = r"(mast|rohr|pfosten|stander|korbstander|saulen)(form|durchmesser|hohe|hoehe|breite|nummer|nr|typ|art|zustand|querschnitt|mass)"
"""German words of two, as they are compared."""
IN_COMPOUNDS = {"mass": "dimension"}
"""What the second part of such a word says, where it says another thing alone."""
ABOVE = _words("above|off")
GROUND = _words("ground|grade|floor")
OTHER_THINGS = _words(
    "tree|trees|species|dbh|trunk|sign|signs|light|lights|lamp|luminaire|fixture|manhole|tank|bollard|bench|culvert|hydrant|valve|pump|"
    "door|window|flag|flagpole|planter|player|student|árbol|especie|arbre|essence|albero|specie|árvore|espécie|baum|baumart|schild|leuchte|"
    "laterne|señal|luminaria|lampadaire|lampione|cartello"
)
"""What a table is of where it is not of posts, in the heading of what its rows are: `Tree ID`, `Species`."""
COUNTED = _words("qty|quantity|count|how|many|cantidad|quantidade|quantità|anzahl|nombre|cuántos|quantos|combien")
"""Words beside posts, in the plural, for how many there are."""
PLURALS = r"posts|poles|uprights|postes|poteaux|m[âa]ts|masten|pfosten|pali"
FROM_GROUND = _words("ground|grade|suelo|piso|terreno|sol|boden|grund|gelände|suolo|terra|solo|chão")
WHOLE = _words("total|overall|totale|gesamt|whole|full")
"""Words beside a height where it is said of the post, or from the ground: a total height may be a board's."""
