"""Headings in lay words: how far a post stands up out of what, how wide it is, how it is kept. Source: common practice."""

from __future__ import annotations


def _words(text: str) -> frozenset[str]:
    return frozenset(text.split("|"))


UP_FROM = _words(
    "agl|afg|affl|afgl|proud|clear|above|off|out|over|abv|atop|"
    "sale|sobresale|sobresalen|sobresaliente|asoma|esce|sporge|sporgente|sporgenza|emerge|spunta|sort|sortie|dépasse|dépassement|dépassant|sai|sobressai|"
    "aflora|saliente|ragt|herausragt|herausragend|schaut|steht|sobre|desde|fuera|dessus|hors|depuis|über|ueber|ab|oberhalb|acima|fora|sopra|fuori|dal|dalla"
)
"""Words that with one for the ground say the height of what stands on it."""
GROUNDS_TO_STAND_ON = _words(
    "affl|afgl|gr|agl|fgl|ffl|egl|ngl|gl|fsl|surfacing|seal|bitumen|bitmac|macadam|tarmacadam|hardstanding|paviours|pavers|flags|flagstones|astro|astroturf|wetpour|ground|grade|floor|dirt|soil|earth|grass|sod|turf|pavement|paving|asphalt|blacktop|tarmac|concrete|cement|slab|surface|"
    "hardtop|gravel|grnd|gnd|grd|pvmt|conc|deck|"
    "suelo|piso|terreno|tierra|pavimento|asfalto|hormigón|concreto|sol|bitume|enrobé|goudron|béton|boden|erde|gelände|belag|pflaster|"
    "beton|chão|solo|betão|terra|suolo|calcestruzzo"
)
STANDS_UP = _words(
    "stands|stand|standing|sticks|stick|sticking|stickup|stickout|rises|rise|projects|project|projecting|protrudes|comes|come|pokes|"
    "extends|extend|shows|showing|exposed|visible|reaches|goes|runs|much|far|part|portion|amount|length|distance|dist|measure|"
    "measured|measurement|measurements|pokin|straight|long|longueur|longitud|distancia|largo|länge|lunghezza|comprimento|distanza|"
    "sobresale|sale|sort|dépasse|ragt|steht|heraus|sai|sporge|esce|alto|parte|quanto|cuánto|combien|wieviel|wie|viel|ce|qui|lo|que|quello|che|cuanto|il|"
    "poste|tubo|palo|partie|trozo|tramo|tratto|trecho|pedaço|del|do|dal|du|da|raus|aus"
)
"""Words beside these that say nothing more."""
UP_TO_THE_TOP = _words("top|tip|up")
"""Words of which one makes a distance from the ground a height of the post: `Ground to top`, `Up from dirt`."""

SIZED_BY_CELLS = (
    "they measure|wrap|wrapped|tape|tape reading|tape measure|caliper in|thickness|thick|thickness of post|thickness of pole|thickness of the post|thickness of the pole|post thickness|pole thickness|"
    "thickness across|how thick|how thick is it|how thick is the pole|how thick is the post|pole|post|measures|measurement|"
    "measurements|caliper|caliper reading|calipered|épaisseur|épaisseur du poteau|grosor|grosor del poste|dicke|stärke|mastdicke|"
    "pfostenstärke|spessore|spessore palo|espessura|espessura do poste|grossura|largo|grueso|espesor|épais|wie dick|grosor del tubo|rohrdicke|"
    "spessore del palo|quanto è spesso|grossura do poste"
)
"""Headings that mean a post's outside size where every cell is as large as one is, by its own unit or the heading's."""

WALLED_BY_CELLS = (
    "thickness|thick|grosor|espesor|grosor del tubo|espesor del tubo|épaisseur|épaisseur du tube|dicke|stärke|materialstärke|rohrdicke|"
    "spessore|spessore tubo|espessura|espessura do tubo"
)
"""Headings that mean the wall where every cell is as thin as one is."""

SIZED_ACROSS = (
    "thru|through|thru it|flat to flat|face to face|each side|side|sides|pole measures across|outside|outer|exterior|external|outside meas|outside measurement|outside dims|o/s|o/side|outside face|out to out|o to o|o-o|"
    "how far across|straight across|side to side|edge to edge|across the pole|across the post|across pole|across post|wide|how big|how big is it|"
    "how big is the pole|how big is the post|how fat|how fat is it|how wide|how wide is it|how wide across|pole measures|"
    "post measures|pole measurement|post measurement|extérieur|ext|außen|esterno|externo|qué ancho|wie breit|quanto è largo"
)
"""The same of headings that say no wall and name no post: numbers that have their unit elsewhere will do too."""

HIGH_BY_CELLS = (
    "they stand|length sticking out|sticking out|what shows|length showing|overall ht|overall height|full height|feet up|ground up|grade up|top|top of pole|top of post|pole top|post top|top of the pole|top of the post|tip|tip of pole|stands|it stands|sticks up|"
    "sticks out|stick up|stickup|stick-up|stick out|sticks up how far|how far up|how far up does it go|how far up it goes|up|"
    "exposed|showing|visible|how high up|reaches|reaches up to|goes up|goes up to|rises|stands up|stands how tall|"
    "cima|arriba|haut|oben|in cima|sommet|tope|topo"
)
"""Headings that mean the post's height above the ground where every cell is as large as one is."""

NOMINAL = _words("nominal|nom|nomnl|nps|ips|nominale|nominell|nenn|nennweite|nenndurchmesser|nennmaß|dn|nominaux|nominais")
SIZE_OF_PIPE = _words(
    "rohr|rohre|weite|durchmesser|tubo|tubos|tuyau|tube|diamètre|diámetro|diâmetro|diametro|tamaño|taille|"
    "pipe|size|sz|dia|diam|diameter|tube|pipesize|measurement|schedule|sch|sched"
)
INCHES = _words("in|inch|inches|ins|trade")
"""Words that make the nominal size of a pipe: `Nom. pipe dia.`, `NPS`; what is wide outside is none."""

BORES = _words("bore|nb|nominal|nom|nps|dn|pipe|tube|nennweite|nominale|nominaux|nominell")
SIDES_BESIDE = _words(
    "side|sides|width|section|size|square|sq|face|dimension|dimensions|dim|od|outside|shs|box|breadth|lado|lados|côté|kante|seite|lato|"
    "ancho|largeur|breite|larghezza|largura"
)
"""Words for a pipe's name and a square tube's side in one heading, whose cells say which: `Nominal bore / side`."""

SCHEDULES = r"(?:sch(?:ed(?:ule)?)?\.?\s*)?(?:5s?|10s?|20|30|40s?|60|80s?|100|120|140|160|std|xs|xh|xxs|xxh|standard)"
SCHEDULE_HEADINGS = "sch|sched|schedule|pipe sch|pipe schedule|sch no|schedule no|wall sch|sched no|sch 40 or 80"
"""A column of pipe schedules: its headings, and its cells as a pattern. Source: ASME B36.10M's own names."""

SHAPE_THAT_IT_IS_IN = (
    r".*\bshape\b.*"
    r"\b(?:it|its|it['’]?s|they|they['’]?re|theyre|is|are|was|post|pole|poles|posts|pole['’]?s|post['’]?s|thing)\b.*\bin\W*"
    r"|in (?:what|which|good|ok|okay|decent|fair)(?: kind of| sort of)? shape\b.*"
    r"|(?:good|bad|ok|okay|decent|fair|rough)(?: or bad)? shape\W*"
)
"""Headings that ask how a post is kept, and not for its shape, as a pattern: `What kind of shape it's in`."""

THICKNESS = _words(
    "grosor|grueso|espesor|grossura|espessura|épaisseur|grosseur|spessore|grossezza|dicke|stärke|section|sección|seção|secção|sezione"
)
"""Words that say the size where `outside` stands beside them: alone a wall's, or a shape."""
TAKEN_OUTSIDE = _words(
    "afuera|fuera|exterior|externo|externa|ext|fora|extérieur|extérieure|dehors|hors|tout|fuori|esterno|esterna|außen|aussen|outside|outer"
)
BESIDE_OUTSIDE = _words("por|par|de|di|da|do|max|mm|cm")
"""Words for the outside, and words that change nothing beside them."""
AROUND_ALONE = _words("around|circ|circum|circumf|circumference|wrap|wrapped|cir|girth|perimeter")
"""Words that say the way round the post by themselves."""

CROSSWISE = _words("section|sección|coupe|seção|secção|sezione|profile|perfil|profil|profilo|tubing|cross|querschnitt")
OF_A_PIPE = _words("pipe|member|steel|tubing|standard|measured")
"""Words beside the outside diameter that say of what it is."""
WIDTHS = _words("od|diameter|dia|diam|width|dim|dims")
"""Words for a post's section beside which these say its size: `Section OD`."""

WHERE_IT_IS = (
    r"(?:places?|parks?|schools?|sites?|locations?|grounds?|courts?|facilit(?:y|ies)|buildings?|churche?s?|gyms?|playgrounds?|fields?|campus|venues?|"
    r"propert(?:y|ies)) (?:visited|checked|inspected|walked|covered|seen|measured|surveyed|assigned)|"
    r"(?:places?|parks?|schools?|sites?|locations?|grounds?|courts?|facility|building|church|gym|playground|field|campus|venue|property)(?: where| that| which)? (?:we|they|you|i|kids|the kids|our team) [a-z].*|"
    r"(?:which|what) (?:court|gym|lot|yard|pad)s? (?:did|do|are|is|was|were|have) .*|"
    r"where (?:it|it['’]?s|its|they|they['’]?re|we|you|is|are|the|kids|team|located|at|this|these|posts?|poles?|hoops?|goals?)\b"
    r"(?!.*\b(?:court|measured|rust\w*|weld\w*|clamp\w*|cracks?|bent|bends?)\b).*"
)
"""Headings that ask where posts are, as a pattern."""

SITES_BY_CELLS = (
    "association|community association|homeowners association|owners association|complex|apartment community|congregation|parish|resort|camp|"
    "community|community name|development|hoa|townhome|apartment complex|common area|amenity|amenity area|lot|which lot|playlot|play lot|tot lot|neighborhood|subdivision|practice site|practice location|"
    "practice court|school bldg|attendance center|attendance ctr|attendance centre|rec site|rec area|program site|program location|job|"
    "job name|job location|job site name|project site|project location|location of goal|location of goals|location of hoop|"
    "location of hoops|location of pole|location of poles|location of post|home court|home gym|loc desc|locale|spot|stop|"
    "court or park|court and park|gym or park|site visited|place visited|played at|plays at|found at|located at|locality|"
    "sitio|endroit|lugar del poste|emplacement du poteau|aufstellort|local|posto"
)
"""Headings that name the site where every cell under them is the name of a place."""

POSTS_BY_CELLS = (
    "mk|mk no|pt|pt no|pt id|point|point id|point no|which one|which one is it|which|which is it|seq|seq no|letter|pole spot|"
    "post spot|std|std no|bb no|backstop|backstop no|standard no|unit no|goals|hoops|goal posts|baskets|standards|"
    "post location|pole location|pole loc|post loc|location on court|where on court|where on the court|spot on court|place on court|"
    "post end|pole end|end or side|n/s|n or s|e/w|which side of court|sub id|item id|line|line no|row|entry|goal letter|goal name|"
    "hoop name|hoop letter|bb goal no|goal mark|ident|post position|pole position|position on court|court position|court end|court side"
)
"""Headings that name posts where every row has a name of its own under them."""

BASES_BY_CELLS = (
    "fixity|set|mounting|mount type|ground mount|anchor|anchoring|base detail|base det|install type|installation|embed|embedment|in ground|"
    "ground|footing detail|foundation detail|how installed|how it was set|at base|base condition|at grade|set type|support"
)
LINES_BY_CELLS = (
    "config|post config|pole config|str gn|str or gn|straight gooseneck|line of pole|upright style|top|pole top style"
)
"""Headings that say the base, or the line, where every cell is one of its words."""

WHOSE_OR_WHAT = "community|job|job name|lot|which lot|spot|stop|local|posto|sitio|endroit|locale|phase|development"
"""Headings among them that can say whose, or what is done: their names must be of two words at least."""

FITTINGS_BY_CELLS = (
    "attached|attached to it|attached to pole|attached to post|on pole|on post|on it|on them|on it now|whats on them|what's on them|whats attached|"
    "what's attached|stuff on|stuff on them|hanging on|mounted on it|mounted|bolted on|still there|still up|leftovers|left over|remains|left up|"
    "old gear|gear|rigging|appurtenance|old equip|old equipment|equipment on it|board & rim|board and rim|backboard|bkbd|bb & rim|hdw|hdwe|hrdwr|"
    "old hdwe|old hdw|old hrdwr|existing hdwe|old stuff|old junk|junk|on the post|on the pole|fittings now|existing|exist|exist.|(e)|present|currently on|currently there"
)
"""Headings that say what hangs on a post where every cell is one of its words."""

CONDITIONS_BY_CELLS = (
    "found|as found|found to be|observed|observation|observations|ok|good or bad|good bad|quality|assessment|rating|integrity|appearance|how is it|"
    "hows it look|how they look|rust|rusty|corrosion|shape they are in|health|status|result|results|inspection|inspection result|remarks on post|looks"
)
"""Headings that say how a post is kept where every cell is one of its words."""
