"""Headings of yes and no: the heading says what a yes means, and `no` rules out just what it asks."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class YesNo:
    """One question: its column, what yes and no mean there ('' = neither is one value), its headings."""

    column: str
    yes: str
    no: str
    headings: tuple[str, ...]


def _row(column: str, yes: str, no: str, headings: str) -> YesNo:
    return YesNo(column, yes, no, tuple(headings.split("|")))


YES_NO: tuple[YesNo, ...] = (
    _row("post_line", "straight", "unknown", "straight|is straight|post straight|pole straight|is the post straight|is post straight|is pole straight|is the pole straight|straight post|straight pole|recto|poste recto|es recto|droit|poteau droit|gerade|mast gerade|reto|poste reto|dritto|palo dritto|recta|es recto el poste|el poste es recto|derecho|está recto|droite|est-il droit|le poteau est droit|mât droit|ist gerade|gerader Mast|Mast ist gerade|Pfosten gerade|direito|poste direito|está reto|diritto|è dritto|palo diritto|il palo è dritto|straight all the way up|straight to the top"),
    _row("post_line", "bent", "unknown", "bent|is bent|post bent|pole bent|is the post bent|any bends|doblado|plié|verbogen|torto|piegato|torcido|está doblado|poste doblado|tordu|mât plié|poteau plié|krumm|Mast verbogen|dobrado|está torto|poste torto|storto|palo storto|palo piegato"),
    _row("post_line", "gooseneck", "unknown", "gooseneck|goose neck|is gooseneck|gooseneck post|gooseneck pole|curved|is curved|post curved|pole curved|curved post|curved pole|cuello de ganso|cols? de cygne|Schwanenhals|gebogen|pescoço de ganso|collo d'oca|curvo|curvado|curva|poste curvo|cuello de cisne|con curva|courbe|cintré|poteau courbé|gebogener Mast|Mast gebogen|com curva|pescoço de cisne|ricurvo|collo di cigno|palo curvo|curved at top|curved over|curved top|bends over"),
    _row("post_line", "tapered", "unknown", "tapered|is tapered|tapered post|tapered pole"),
    _row("old_fittings", "fixed", "unknown", "welding|any welding|welding on post|welding on the post|evidence of welding|there any evidence of welding on|any evidence of welding|any sign of welding|signs of welding|any signs of welding|welding present|any welding on the post|welding visible|anything attached that cannot be unbolted|anything that cannot be unbolted|anything that will not unbolt|anything that cannot be removed|anything that can not be removed|anything permanently fixed|anything fixed permanently|anything that is not bolted|welded parts|welded fittings|welded brackets|welded bracket|welded|anything welded|welded on parts|anything welded on|welds on post|welded hardware|piezas soldadas|pièces soudées|angeschweißte Teile|peças soldadas|parti saldate|soldado|soldaduras|con soldaduras|tiene soldaduras|restos soldados|hay algo soldado|algo soldado|soudé|soudures|soudure|éléments soudés|restes soudés|quelque chose de soudé|pattes soudées|geschweißt|Schweißteile|Schweißreste|angeschweißte Reste|etwas angeschweißt|Schweißungen|soldas|solda|com soldas|tem solda|saldature|saldato|presenza saldature|presenza di saldature|qualcosa di saldato|residui saldati|parti saldate presenti|anything welded to the post|anything welded to it|is anything welded|welds|weld marks left|lugs welded on"),
    _row("old_fittings", "unknown", "unknown", "old boards on|old board on|old boards still on|old board still on|board still on|boards still on|old backboard attached|old backboard still attached|old backboards attached|backboard attached|existing backboard attached|old board attached|old boards attached|old backboard on|backboard still attached|old hoop attached|old hoop on|old rim attached|old rim on|rim attached|tablero viejo puesto|ancien panneau en place|altes Brett noch dran|tabela antiga instalada|vecchio tabellone montato|tablero|todavía tiene tablero|conserva el tablero|panneau encore en place|panneau présent|Brett vorhanden|Brett noch montiert|tabela instalada|ainda tem tabela|tabellone presente|tabellone ancora montato"),
    _row("old_fittings", "unknown", "none", "old hardware attached|existing hardware attached|hardware attached|hardware on post|anything attached|anything on the post|anything still on|old fittings on|old fittings attached|any fittings|any old fittings|fittings attached|anything left on the post|anything left on it|anything on it|anything on them|anything on em|anything on these|anything on any of them|anything still on them|anything left on them|anything attached to it|anything attached to them|anything hung on it|anything mounted on it|anything bolted on|anything bolted on it|anything still bolted on|anything up there|anything still up|anything still on it|anything left on the pole|anything on the pole|anything on pole|anything on post|anything left on|what is left on it|algo puesto|queda algo|queda algo puesto|tiene algo puesto|hay algo puesto|encore quelque chose dessus|quelque chose dessus|il reste quelque chose|reste-t-il quelque chose|ainda tem algo|ainda tem alguma coisa|tem algo preso|tem alguma coisa presa|resta algo preso|c'è ancora qualcosa|è rimasto qualcosa|qualcosa attaccato|hängt noch etwas|algo colocado|quedan herrajes|reste-t-il des fixations|noch etwas dran|resta algo|resta qualcosa|old parts on"),
    _row("old_fittings", "none", "unknown", "bare|bare post|bare pole|is bare|is the post bare|is the pole bare|free of fittings"),
    _row("condition", "cracked", "unknown", "cracked|any cracks|is cracked|cracks visible|agrietado|tiene grietas|grietas|fissuré|fissures|gerissen|Risse|fissurado|trincas|tem fissuras|crepe|fessurato|presenta crepe"),
    _row("condition", "loose", "unknown", "loose|is loose|post loose|loose in the ground|wobbles|wobbly|moves when pushed|suelto|flojo|se mueve|branlant|bouge|descellé|wackelt|locker|solto|bambo|mexe|traballa|allentato|si muove"),
    _row("condition", "corroded", "unknown", "corroded|rusted through|rust through|corroído|corrodé|percé par la rouille|durchgerostet|corroso|corroído na base"),
    _row("condition", "sound", "unknown", "sound|is sound|good condition|in good condition|post sound|en buen estado|bon état|en bon état|guter Zustand|em bom estado|bom estado|in buono stato|buono stato"),
    _row("condition", "unknown", "unknown", "rust|rusted|rusty|any rust|damaged|any damage|damage|óxido|oxidado|tiene óxido|hay óxido|dañado|rouille|de la rouille|abîmé|Rost|verrostet|rostig|beschädigt|ferrugem|enferrujado|tem ferrugem|danificado|ruggine|arrugginito|presenza ruggine|danneggiato|rust visible|visible rust|signs of rust|corrosion"),
    _row("post_base", "cast in", "unknown", "cast in|is cast in|set in concrete|in concrete|concreted in|cast in concrete|empotrado|empotrado en hormigón|hormigonado|scellé|scellé dans le béton|einbetoniert|chumbado|betonado|cementato|annegato nel cemento"),
    _row("post_base", "base plate", "unknown", "base plate|has base plate|bolted down|on base plate|con placa base|tiene placa base|sur platine|avec platine|mit Fußplatte|com chapa de base|com placa de base|con piastra|con piastra di base"),
    _row("post_base", "portable", "unknown", "portable|is portable|movable|on wheels|portátil|es portátil|móvil|mobile|fahrbar|transportabel|é portátil|portatile"),
    _row("post_base", "ground sleeve", "unknown", "ground sleeve|in sleeve|in a sleeve|has sleeve|in ground sleeve|con vaina|con casquillo|en fourreau|sur fourreau|in Bodenhülse|Bodenhülse|com luva|con bussola|in bussola"),
    _row("material", "steel", "unknown", "steel|is steel|galvanized|galvanised|steel post|steel pole"),
    _row("material", "wood", "unknown", "wooden|wood post|wood pole|is wood"),
    _row("material", "aluminium", "unknown", "is aluminium|is aluminum|aluminum post|aluminium post"),
    _row("post_shape", "round", "", "round|is round|round post|round pole|post round|pole round|redondo|es redondo|poste redondo|tubo redondo|rond|poteau rond|tube rond|rund|Mast rund|Rundrohr|é redondo|tondo|palo tondo|tubo tondo"),
    _row("post_shape", "square", "", "square|is square|square post|square pole|post square|pole square|cuadrado|es cuadrado|poste cuadrado|tubo cuadrado|carré|poteau carré|tube carré|quadratisch|Vierkant|Mast quadratisch|quadrado|é quadrado|poste quadrado|tubo quadrado|quadro|quadrato|palo quadrato|palo quadro"),
)  # fmt: skip
"""The questions that people head a column with. Source: common practice.

A yes under `Old boards on?` is unknown, since how they hold is not said; no old boards is not yet a bare post.
"""

_WELDED = (
    r"weld|welds|welded|(?:by|with) welding|soldad[oa]s?|electrosoldad[oa]s?|soldaron|soldou|soldaram|soldaduras?|soldas?|saldat[oaie]|saldatur[ae]|soud[ée]e?s?|soudures?|"
    r"(?:an|auf)?geschwei(?:ß|ss)t(?:e[snr]?)?|verschwei(?:ß|ss)t(?:e[snr]?)?|schwei(?:ß|ss)nähte"
)
_CURVED = (
    r"goose-?necks?|goose-?necked|goose necks?|swan necks|candy canes|schwanenhals|cols? de cygne|cou de cygne|cintr[ée]e?s?|ricurv[oa]|(?:cuello|pesco[çc]o) de (?:jirafa|girafa)|cuellos? de (?:ganso|cisne)|collo (?:d.oca|di cigno)|pescoço de (?:ganso|cisne)|curved|curvad[oa]|curv[oa]|"
    r"curvato|courb[eé]e?|gebogen|bent over|bends over|bent at (?:the )?top|curves? over|curls over|crook(?:ed)? over|swan-?neck|swan neck|hooked|candy cane|cantilever(?:ed)?"
)

_STRAIGHT = r"straight|recto|droit|gerade|reto|dritto"

TELLING_WORDS: tuple[tuple[str, str], ...] = ((_WELDED, "welded parts"), (_CURVED, "gooseneck"), (_STRAIGHT, "straight"))
"""Words, as patterns, by which a heading asks a question of the table above."""

ASKS_MORE = r"or|ou|oder|o|u|bolted|removable|bent|condition|type|size|thickness|ring|rim|board|backboard|without|no|not|number"
"""Words of a heading that asks something else besides, as a pattern."""

UNSAID = (
    r"no|not|non|never|without|none|nothing|anything|nor|but|maybe|perhaps|probably|if|could|may|should|would|nicht|nichts|ohne|kein|keine|não|nao|ne|ning[úu]n[oa]?|nenhuma?|aucune?|nessun[oa]?|sin|nada|niente|rien|sans|pas|sem|"
    r"senza|bolted|removable|unwelded|base|cap|seam|crack|cracks|cracked|joint|splice|footing|soudée? au pied|saldata al piede|soldada al pie"
)
"""Words, as a pattern, beside which a word for welded or a gooseneck does not plainly say that there is one."""

NO_NEGATION = (
    r"n[oa]s? (?:(?:pr[óo]prio|mesmo) )?(?:tubos?|postes?|mastros?|canos?|topo|meio|corpo|lados?|alto|p[ée]|pilar|perfil|metal|coluna|hastes?|cima|ponta|ferro|a[çc]o)|"
    r"(?:(?:y|e|et|und|and|but|que|ma|pero|mais|mas) )?(?:ya )?(?:"
    r"no (?:sale|salen|se (?:quitan?|sacan?|pueden? (?:quitar|sacar|desmontar|retirar)|desmontan?))|"
    r"não (?:sai|saem|se (?:tiram?|retiram?)|d[áa] para tirar|desmontam?)|"
    r"ne (?:s['’]enl[èe]vent?|part(?:ent)? pas|se d[ée]montent?|sort(?:ent)?)(?: pas)?|pas d[ée]montables?|non d[ée]montables?|impossible [àa] enlever|"
    r"non (?:si (?:tolgono|toglie|smontano|smonta|levano|leva)|viene via|vengono via|smontabil[ei]|rimovibil[ei])|"
    r"(?:geht|gehen) nicht ab|nicht (?:abnehmbar|l[öo]sbar|demontierbar|abmontierbar)|l[äa]sst sich nicht \w+|"
    r"no (?:desmontables?|removibles?)|não (?:desmont[áa]ve(?:l|is)|remov[íi]ve(?:l|is)))"
)
"""Words, as a pattern, that only look like a `not`: where a thing is, or that it does not come off."""

OF_A_BOARD = r"frame[ds]?|mesh|grille?|panel|sheet|marco|cadre|rahmen|telaio|moldura"
"""Words, as a pattern, beside which welded can be the make of a board."""

OF_THE_BASE = (
    r"base|foot(?:ing)?s?|foundation|ground|concrete|anchor\w*|embed\w*|set|floor|suelo|piso|ciment\w*|anclaje|sol|fondation\w*|ancrage|scell\w*|"
    r"boden|fu(?:ß|ss)\w*|fundament\w*|gründung|veranker\w*|ch[ãa]o|funda[çc]\w*|ancoragem|terra|fondazion\w*|ancoraggio|plinto"
)
"""Words of a heading, as a pattern, that say that it asks for the post's base: there a weld is no old fitting's."""

TAKEN_OFF = (
    r"removed|remove|cut|ground|gone|previously|formerly|former|repaired|repair|replaced|entfernt|retirad[oa]s?|quitad[oa]s?|cortad[oa]s?|cort[óo]|d[ée]pos[ée]e?s?|coupée?s?|tolt[oaie]|tagliat[oaie]|enlev[ée]e?s?|"
    r"removid[oa]s?|rimoss[oaie]"
)
"""Words, as a pattern, anywhere in a text that speaks of what is no longer there."""
