"""Words and patterns of headings that stand round what is measured: whose remarks, an export's fields, posts alike."""

from __future__ import annotations


def _words(text: str) -> frozenset[str]:
    return frozenset(text.split("|"))


PIPES = _words("pipe|pipes")
OUTSIDE = _words(
    "outside|outer|external|exterior|od|ext|overall|außen|aussen|äußeres|äußere|extérieur|extérieure|dehors|exteriores|afuera|fuera|"
    "externo|externa|fora|esterno|esterna|fuori"
)
"""Beside one of these a pipe is the post, whose outside is measured; a pipe's size alone can be nominal."""
THERE = _words(
    "available|installed|standing|provided|site|erected|onsite|situ|provision|disponibles|instalados|installés|disponibili|instaladas"
)
"""Words beside a number of posts that stand there."""
REMARKS = _words("remark|remarks|comment|comments|notes|note|observation|observations|findings|finding")
WHO_REMARKS = _words(
    "caretaker|caretakers|inspector|inspectors|surveyor|surveyors|officer|officers|warden|clerk|groundsman|groundsmen|coach|teacher|janitor|"
    "auditor|engineer|technician|tech|crew|staff|ranger|manager|site|field|other|general|further|any|if|completion|inspection|survey|"
    "work|additional|misc|extra|free|defects|defect|special|visit|s"
)
"""Whose remarks, or of what kind."""
BEFORE_A_FIELD = (
    r"^(?:attr(?:ibute)?s?|spec(?:ification)?s?|custom(?: fields?)?|char(?:acteristic)?s?|propert(?:y|ies)|param(?:eter)?s?|fields?|details?|"
    r"(?!\w*(?:board|ring|rim|hoop|foot|found|base|court|net|fence|light|seat))(?:\w*(?:group|grp|section|details|info|page)\w*|\w+_\w+)(?=/)|"
    r"udf|cf|user[- ]?defined(?: fields?)?|asset|equipment|survey|inspection|form|data|atributo|caract[ée]ristique|merkmal)\s*[:.>|/–-]+\s*(?=\w{2})"
)
"""What an export writes before the name of a field, as a pattern: `Attr: Shape`."""
OF_THIS_KIND = r"\b(?:of|like|such as) (?:this|these|each) (?:type|kind|size|sort|pattern|one|post|pole)\b|\blike (?:this|these)\b|\bsuch posts\b"
"""Words for posts that are alike, as a pattern."""

IN_QUESTIONS = _words(
    "hay|tiene|tienen|mide|miden|cuánto|cuánta|cuántos|está|es|son|de|"
    "est|sont|il|elle|y|a|t|ont|mesure|mesurent|quel|quelle|combien|"
    "ist|sind|hat|haben|misst|messen|wie|welcher|welchen|welches|welche|gibt|dort|ihr|ihrer|"
    "tem|têm|há|mede|medem|quanto|quanta|é|são|o|"
    "ha|hanno|misura|misurano|quanto|quant|quale|c|ci|è|sono|does|do|has|have|measure"
)
"""Words of a question that change nothing of what it asks for."""
OF_NOW = (
    r"\b(?:ring|rim|hoop|goal|basket|aro|anneau|cercle|panier|korb|ring|cesta|anello|ferro|canestro)\w*\b.*\b(?:now|today|current|currently|existing|at present|"
    r"is at|hoy|actual|actualmente|aujourd.hui|actuel|actuelle|heute|jetzt|derzeit|aktuell\w*|hoje|atual|atualmente|oggi|attuale|adesso)\b|"
    r"\b(?:now|today|current|existing|present|actual|actuel|actuelle|derzeitige|jetzige|aktuelle|atual|attuale)\b.*"
    r"\b(?:ring|rim|hoop|goal|basket|aro|anneau|cercle|panier|korb|cesta|anello|ferro|canestro)\w*\b"
)
"""Headings, as a pattern, over what the ring has now, and not over what is wanted."""
ESTIMATED = (
    r"approx(?:imate(?:ly)?)?|estimated?|est(?=\.|\))|rough(?:ly)?|guess(?:ed)?|circa|ca(?=\.)|aprox(?:imad[oa])?|estimad[oa]|environ|env(?=\.)|"
    r"approximatif|approximative|estimée?|ungefähre?|geschätzte?|ungef(?=\.)|aproximad[oa]|stimat[oa]|approssimativ[oa]|indicativ[oa]"
)
"""Words of a heading, as a pattern, by which what stands below it is an estimate."""
OTHER_NUMBERS = _words(
    "court|courts|phase|zone|ward|area|district|region|section|sector|block|lot|plot|map|grid|bay|field|building|bldg|gate|route|visit|trip|priority|"
    "rank|rating|score|grade|class|level|risk|condition|cond|year|yr|age|month|day|week|date|floor|storey|light|lights|lamp|lamps|net|nets|rim|rims|"
    "ring|rings|board|boards|backboard|backboards|chain|bolt|bolts|hole|holes|photo|photos|pic|pics|image|page|sheet|row|line|item|id|no|nr|code|"
    "tag|seq|order|cost|price|budget|value|rate|hours|days|players|team|teams|kids|pupils|children|capacity|seats|benches|bench|trees|x|y|lat|long|"
    "lng|east|north|easting|northing|elev|elevation|station|sta|point|pt|acres|size|height|width|depth|lean|deg|angle|clamp|clamps|bracket|brackets|"
    "pista|cancha|fase|zona|sector|barrio|prioridad|nota|año|edad|foto|fotos|página|fila|luces|redes|aros|tableros|costo|coste|precio|"
    "terrain|secteur|quartier|priorité|note|année|âge|feux|filets|cercles|panneaux|coût|prix|"
    "platz|feld|bezirk|priorität|jahr|alter|baujahr|foto|seite|zeile|lampen|netze|ringe|bretter|kosten|preis|stufe|zustandsnote|"
    "quadra|setor|bairro|prioridade|ano|idade|página|linha|luzes|custo|preço|"
    "campo|zona|settore|priorità|anno|età|pagina|riga|luci|reti|anelli|tabelloni|costo|prezzo|voto"
)
"""Words of headings over numbers that do not count posts."""

RINGS = _words(
    "aro|aros|canasta|canastas|anilla|cercle|cercles|arceau|arceaux|panier|paniers|anneau|anneaux|ring|rings|ringe|rim|rims|hoop|hoops|"
    "korb|körbe|canestro|canestri|ferro|ferri|anello|anelli|cesta|cestas|cesto|cestos|basket"
)
"""Words for what a height beside them is the ring's: `Hauteur panier`."""
STANDING = (
    r"existing|exist\.?|ex\.|current|present|installed|existentes|actuales|instalados|existants|actuels|en place|vorhandene|bestehende|"
    r"esistenti|attuali|presenti|atuais|presentes"
)
"""What changes nothing before posts in the plural, as a pattern: `Existing posts`."""
WHAT_THERE_IS = _words(
    "there|existing|present|item|asset|goal|element|component|stands|particulars|details|detail|construction|make|makeup|build"
)
"""Words beside posts over what they are, in free words."""
