"""Words of which headings are made: what is measured, what of, and words that change nothing, in six languages."""

from __future__ import annotations


def _words(text: str) -> frozenset[str]:
    return frozenset(text.split("|"))


POST_WORDS = _words(
    "post|posts|pole|poles|upright|uprights|stanchion|stanchions|support|supports|"
    "poste|postes|parante|parantes|pilar|pilares|mástil|mástiles|caño|jirafa|soporte vertical|columna|columnas|"
    "poteau|poteaux|mât|mâts|tube|tubes|montant|montants|pylône|"
    "mast|masten|mastes|pfosten|rohr|rohre|ständer|korbständer|säule|säulen|stange|stütze|"
    "haste|hastes|mastro|mastros|coluna|colunas|"
    "sostegno|sostegni|colonna|colonne|palo|pali|tubo|tubi|tubolare|tubolari|piantana|montante|montanti"
)
"""What is measured; a heading with one of them is surely about a post."""

SAY_NOTHING = _words(
    "the|of|is|are|was|an|this|these|that|it|its|they|them|there|what|whats|how|your|our|you|we|do|does|please|enter|"
    "at|top|measured|actual|existing|current|currently|present|now|in|for|all|way|up|and|or|type|kind|"
    "de|del|della|dello|dei|degli|delle|di|da|do|dos|das|des|du|la|le|les|el|los|las|il|lo|gli|un|una|uno|une|ein|eine|einer|uma|um|"
    "der|die|das|den|dem|am|vom|zum|und|ou|oder|et|tipo|typ|art|actual|actuel|actuelle|attuale|atual|vorhanden|mesuré|mesurée|gemessen|gemessene|misurato|misurata|medido|txt|text|desc|flag|"
    "only|itself|alone|just|recorded|surveyed|observed|taken|found|noted|each|per|as|been|has|have|exact|exactly|real|reading|individual|single|"
    "tomado|tomada|registrado|observado|exacto|exacta|cada|con|constaté|réel|réelle|exacte|chaque|par|avec|précis|"
    "ermittelt|erfasst|tatsächlich|tatsächliche|genau|genaue|jeweils|je|pro|bei|beim|des|eines|registado|exato|exata|com|"
    "reale|effettivo|effettiva|ogni|per|esatto|esatta|relevé|relevée|rilevato|rilevata|val|value|cd|dt|"
    "cuál|cual|es|son|está|están|hay|tiene|tienen|quel|quelle|quels|quelles|sont|qual|quais|são|wie|ist|sind|welche|welcher|welches|"
    "quale|quali|sono|che|que|qué|cómo|como|comment|come|su|dans|en|por|favor|bitte|prego|indicar|indique|indiquer|indicare"
)
"""Words that change nothing in any heading."""

MADE_OF: dict[str, tuple[frozenset[str], frozenset[str]]] = {
    "post_size": (
        _words(
            "across|outsd|diametre|diametro|caliper|ø|cote|cotes|rohrdurchmesser|querschnittsmaß|durchm|dm|"
            "diameter|dia|diam|od|width|wide|size|breadth|dim|dims|dimension|dimensions|flats|"
            "med|mis|larg|diámetro|diám|ancho|anchura|lado|lados|tamaño|medida|medidas|dimensión|dimensiones|mesure|mesures|"
            "diamètre|largeur|côté|côtés|taille|grosseur|ø|"
            "durchmesser|außendurchmesser|aussendurchmesser|breite|breit|kantenlänge|seitenlänge|abmessung|abmessungen|außenmaß|außenmaße|aussenmass|"
            "diâmetro|diâm|largura|tamanho|bitola|dimensão|dimensões|"
            "diametro|larghezza|lato|lati|misura|misure|dimensione|dimensioni"
        ),
        _words(
            "big|fat|thick|distance|dist|measurement|measure|meas|reading|caliper|calipers|calipered|calip|ruler|pole|tape|actual|outside|outer|external|exterior|overall|over|across|ext|out|side|sides|section|"
            "exterior|externo|externa|exteriores|extérieur|extérieure|extérieurs|außen|aussen|äußerer|äußere|por|fuera|afuera|fora|"
            "hors|tout|dehors|fuori|tutto|bzw|resp|rohr|"
            "externo|esterno|esterna|esterne|esterni"
        ),
    ),
    "post_height": (
        _words("hoch|height|ht|hgt|high|tall|höhe|hoehe|gesamthöhe|hauteur|haut|haute|altura|alto|alt|altezza|h"),
        _words(
            "gr|aff|afg|afs|stands|stand|sticks|sticking|showing|abv|grd|gnd|grnd|surf|pav|asph|fin|exist|concrete|pavers|dirt|"
            "affl|afgl|afl|gl|fsl|proud|projection|projects|hardstanding|hard|surfacing|astro|astroturf|seal|sealed|bitumen|bitmac|macadam|tarmacadam|"
            "wetpour|rubber|flags|flagstones|slab|slabs|synthetic|artificial|surrounding|adjacent|adjoining|local|"
            "standing|vertical|projecting|protruding|stick|stickup|playground|"
            "above|off|over|out|from|to|ground|grade|graded|surface|fgl|ffl|agl|ag|ngl|egl|ogl|level|finished|finish|natural|exposed|visible|"
            "asphalt|pavement|paving|paved|tarmac|blacktop|grass|turf|floor|earth|soil|tip|very|clear|free|"
            "oberirdisch|oberirdische|überirdisch|pflaster|rasen|erdboden|erdreich|terrain|kopf|mastkopf|mastspitze|okt|flur|bodenoberfläche|asphalt|"
            "oben|üb|freistehend|über|ueber|ab|bis|von|boden|grund|gelände|belag|oberkante|ok|okg|gok|okb|ü|oberfläche|frei|freie|sichtbar|sichtbare|spitze|"
            "visibles|aérienne|émergente|tête|bout|fini|revêtement|bitume|terre|extérieure|verticale|"
            "hors|sol|au|aux|dessus|depuis|bitume|goudron|macadam|dalle|jusqu|jusque|sommet|libre|visible|terrain|naturel|enrobé|tn|apparente|sortie|sortant|prise|bas|béton|"
            "exterior|aérea|emergente|tope|remate|coronación|cabeza|asfalto|losa|concreto|banqueta|vertical|tierra|"
            "sobre|suelo|terreno|desde|hasta|piso|pavimento|césped|rasante|nivel|punta|extremo|superior|vista|parte|arriba|al|"
            "fuera|para|pra|encima|cemento|tope|em|na|no|útil|utile|snpt|npt|terminado|radier|carpeta|contrapiso|firme|vereda|acera|baldosa|calzada|"
            "exposta|aérea|ponta|cima|relva|asfalto|pavimento|calçada|terra|terreno|"
            "acima|solo|chão|até|ao|topo|cimo|pontas|partir|livre|visível|nível|fora|cimento|"
            "esposta|emergente|testa|punta|asfalto|prato|pavimentazione|pavimento|campagna|verticale|terreno|di|"
            "visibile|visibili|sulla|fuori|terra|dal|dalla|suolo|piano|sopra|fino|alla|cima|sommità|libera|libero|calpestio|pc|da"
        ),
    ),
    "post_shape": (
        _words(
            "formato|feitio|geometría|géométrie|gabarit|geometrie|profilart|rohrart|querschnittsform|geometria|sagoma|rectangular|tubing|"
            "shape|shp|geometry|section|cross|round|rnd|rd|square|sq|circular|profile|rund|runde|quadratisch|eckig|querschnitt|"
            "redondo|cuadrado|redonda|cuadrada|sección|rond|ronde|carré|carrée|coupe|tondo|quadro|quadrato|quadrado|seção|secção|sezione|"
            "perfil|profil|profilo"
        ),
        _words("form|forma|forme|formato|sect|x|transversal|transversale|trasversale|hollow"),
    ),
    "post_line": (
        _words(
            "straight|straightness|curved|curvature|gooseneck|bent|derecho|recto|curvo|curvado|rectitud|curvatura|doblado|"
            "droit|rectitude|courbe|courbé|cintré|courbure|gerade|gebogen|geradheit|krumm|reto|direito|dritto|diritto|storto|andamento|alignment|verlauf"
        ),
        _words("line|linea|línea|ligne|linha|shape"),
    ),
    "old_fittings": (
        _words(
            "stuff|junk|gubbins|bits|zeug|kram|sachen|krempel|cosas|chatarra|trucs|choses|machins|roba|cose|coisas|tralha|"
            "arms|hanging|leftover|hdwr|hdwe|bracketry|fittings|bracket|brackets|attached|attachment|attachments|brkt|brkts|hardware|fixtures|fixings|equipment|remnants|remains|leftovers|"
            "clamps|backboard bracket|fitments|ironmongery|ironwork|steelwork|obstructions|appurtenances|gear|kit|bits|"
            "herrajes|herraje|fijaciones|accesorios|soportes|restos|piezas|elementos|equipamiento|abrazaderas|"
            "ferrures|fixations|attaches|accessoires|restes|équipement|équipements|colliers|pattes|"
            "halterung|halterungen|anbauteile|befestigungen|beschläge|reste|altteile|bauteile|anbauten|schellen|"
            "suportes|acessórios|fixações|ferragens|peças|equipamento|equipamentos|braçadeiras|"
            "supporti|attacchi|accessori|staffe|residui|resti|elementi|ferramenta|fissaggi"
        ),
        _words(
            "have|has|got|rim|rims|hoop|hoops|backboard|backboards|board|boards|goal|goals|mounting|mount|mounts|with|redundant|retained|remain|to|hanging|old|left|on|any|still|items|things|anything|other|remaining|there|previous|prior|former|parts|welded|"
            "viejos|viejas|antiguos|antiguas|anteriores|existentes|restantes|presentes|previos|colocados|puestos|"
            "anciens|anciennes|ancien|existants|existantes|restants|restantes|présents|présentes|place|il|reste|"
            "vorhandene|alte|alt|alter|bisherige|bestehende|verbliebene|übrige|noch|teile|dran|"
            "antigas|antigos|presenti|anteriores|"
            "vecchi|vecchie|esistenti|rimasti|rimaste|preesistenti|precedenti"
        ),
    ),
    "condition": (
        _words(
            "condition|state|zustand|erhaltungszustand|estado|état|stato|condizione|condizioni|condición|condição|conservação|conservación|conservazione|situação"
        ),
        _words("repair|of|cond|general|overall|générale|général|generale|geral|allgemeiner|physical|structural|visual|rating"),
    ),
    "material": (_words("material|materials|werkstoff|matériau|matériaux|materiale|materiales|matière"), _words("made|out")),
    "quantity": (
        _words(
            "identical|alike|like|similar|matching|same|mismos|mismas|pareils|gleich|mesmos|mesmas|stessi|iguales|similares|ähnliche|identiques|gleiche|gleicher|iguais|uguali|idénticos|idênticos|identici"
        ),
        _words(
            "x|times|cnt|count|this|one|number|no|nr|nº|nro|nb|nbre|cantidad|nombre|anzahl|número|numero|how|many|quantidade|quantità|qty|quantity"
        ),
    ),
    "post_base": (
        _words(
            "fixity|footing|foundation|anchor|anchorage|anchoring|anchored|fixed|set|embedded|mounted|installed|"
            "cimentación|anclaje|anclado|sujeción|sujeto|fijación|fijado|empotramiento|cimiento|"
            "fondation|fondations|ancrage|scellement|scellé|implantation|massif|"
            "fundament|fundamentierung|gründung|verankerung|verankert|"
            "fundação|ancoragem|fixação|fixado|sapata|"
            "fondazione|ancoraggio|fissaggio|fissato|basamento|plinto"
        ),
        _words(
            "base|fixing|fixings|fix|into|to|ground|floor|method|detail|details|below|means|suelo|piso|terreno|al|sol|au|boden|im|solo|chão|ao|no|suolo|terra|modo|système|mode|sistema"
        ),
    ),
}
"""Words that say the one column, and words that change nothing beside them. Source: common practice."""

AROUND = _words(
    "contorno|contour|vuelta|volta|giro|rohrumfang|around|circumference|circumf|circum|circ|cir|cference|wrap|wrapped|girth|perimeter|umfang|circonférence|périmètre|tour|pourtour|circunferencia|perímetro|"
    "circunferência|circonferenza|perimetro"
)
"""Words for the way round the post."""
BESIDE_AROUND = _words(
    "exterior|externo|externa|extérieur|extérieure|esterno|esterna|ext|big|distance|tape|tapes|measure|measurement|size|length|whole|distancia|medida|mesure|maß|misura|distância|distanza|outside|outer"
)
"""Words that change nothing beside these."""

ALONE_SAYS_TOO_LITTLE = _words(
    "stuff|junk|bits|zeug|kram|sachen|cosas|trucs|choses|roba|cose|coisas|"
    "equipment|remains|restos|piezas|elementos|equipamiento|équipement|équipements|restes|reste|bauteile|peças|equipamento|equipamentos|resti|"
    "elementi|obstructions|appurtenances|gear|kit|bits|steelwork|ironwork|attached|soportes|suportes|supporti|colliers"
)
"""Words for old fittings that alone can mean much else."""

PLACES = _words(
    "clubhouse|lodge|arena|rink|armory|barracks|camp|resort|marina|ymca|ywca|rec|domain|prop|fac|facil|sch|reserve|estate|precinct|muga|playspace|"
    "school|schools|gym|gymnasium|branch|park|parks|field|fields|club|venue|site|facility|ground|grounds|campus|location|building|academy|college|playground|"
    "centre|center|complex|premises|reserve|oval|institution|property|establishment|church|"
    "escuela|colegio|centro|parque|instalación|instituto|polideportivo|recinto|plantel|instalaciones|"
    "école|collège|lycée|parc|établissement|équipement|gymnase|stade|"
    "schule|schulen|park|sportplatz|spielplatz|anlage|standort|sportanlage|einrichtung|objekt|liegenschaft|ort|"
    "escola|escolas|instituição|recinto|estabelecimento|"
    "scuola|scuole|parco|impianto|plesso|istituto|struttura|edificio|"
    "condo|condominium|condomínio|condominio|residencial|residence|résidence|residenza|copropriété|urbanización|fraccionamiento|conjunto|siedlung|wohnanlage|loteamento"
)
OF_A_PLACE = _words(
    "parish|village|town|council|public|local|leisure|sports|community|play|recreational|recreation|playing|deportiva|escolar|educativo|sportif|scolaire|desportivo|desportiva|sportivo|scolastico"
)
"""Words beside a place that name none alone: `Sports ground`."""
NAMES = _words("name|nombre|nom|nome|names|denominación|dénomination|bezeichnung|denominação|denominazione|intitulé|nm")
FAINT_PLACES = _words(
    "school and post|site and post|park and post|park and pole|school and pole|site and pole|location and post|school and court|site and court|park and court|ground and post|ground and court|facility and post|"
    "freguesia|parish|ward|sector|suburb|borough|municipality|comuna|municipio|município|concelho|delegación|colonia|gemeinde|stadtteil|bezirk|quartiere|circoscrizione|"
    "hall|zone|yard|patio|plaza|plateau|cour|espace|schulhof|areal|bereich|espaço|espacio|zona|pavilhão|cortile|giardino|open space|play area|"
    "block|wing|green|common|"
    "location|loc|place|where|position|area|village|town|neighborhood|building|bldg|bldg name|building name|location name|site location|"
    "vereda|corregimiento|comunidad|ejido|caserío|localidad|aldea|parroquia|emplazamiento|bâtiment|edificio|edifício|prédio|gebäude|onde fica|dónde está|dónde queda|où c'est|où se trouve|dove si trova|dove sta|endroit|lieu-dit|court location|location of court|address|lugar|ubicación|localización|localisation|emplacement|lieu|où|dónde|"
    "standort|ort|wo|localização|luogo|ubicazione|località|onde|dove|village|commune|quartier|barrio|bairro|ortsteil|frazione|via|street|edificio"
)
"""Headings that say where, of a ground or within one: they yield to one that names the ground."""
MEASURES = _words(
    "medida|medidas|misura|misure|mesure|mesures|misurata|misurato|measure|measured|measurement|reading|gemessen|maß|medido|mesuré|"
    "mesurée|taken|tomada|prise|presa|genommen"
)
"""Words for a size, or for what was measured beside another word."""
HELD = _words(
    "bolted|unbolted|screwed|welded|removable|fixed|attached|clamped|"
    "atornillado|atornillados|soldado|soldados|desmontable|desmontables|fijo|fijos|"
    "boulonné|boulonnés|vissé|vissés|soudé|soudés|démontable|démontables|fixé|fixés|"
    "geschraubt|verschraubt|angeschraubt|geschweißt|verschweißt|angeschweißt|abnehmbar|befestigt|"
    "aparafusado|aparafusados|parafusado|desmontável|desmontáveis|fixo|fixos|soldada|soldadas|"
    "imbullonato|imbullonati|avvitato|avvitati|saldato|saldati|smontabile|smontabili|fissato|fissati"
)
"""How an old board is held: beside a word for it they ask for the old fittings."""
WHICH = _words("which|cuál|quel|welcher|qual|quale")
FREE_TEXT = _words("detail|details|info|data|dato|datos|dati|dados|angabe|angaben|donnée|données|text|txt|desc|flag")
"""Words over free text: `Site details` is no site's name."""
CODED_PLACES = _words("site|fac|facil|facility|park|school|sch|campus|property|prop|loc|location|ground|venue|institution")
CODES = _words("cd|code|id|no|num|nbr|nr|number|key|abbr|abbrev|abbreviation|idno|ident|identifier")
"""A word of each makes the code of a ground: `SITE_CD`, `FAC_ID`."""
DESCRIPTIONS = _words("desc|descr|description|descript|descrip|txt|text|title|label")
"""Words beside a place for what it is called: `SITE_DESC`."""
KINDS = _words("clase|classe|sorte|nature|type|kind|style|form|tipo|typ|art|forma|forme|modelo|modèle|modello|bauart")
"""Words of a heading over what a post is, by any of its columns: `What kind of pole`."""
NUMBERS = _words(
    "mk|lbl|ltr|letter|position|n|no|nr|nº|num|number|id|ref|reference|code|label|mark|tag|identifier|identification|designation|"
    "número|núm|nro|código|referencia|clave|etiqueta|identificación|numéro|repère|réf|référence|identifiant|"
    "nummer|bezeichnung|kennung|kennzeichen|kürzel|identificação|referência|sigla|numero|codice|riferimento|identificativo"
)
"""Words beside the post for what it is called."""
ASSETS = _words("structure|asset|eq|equip|equipment|structure|element|activo|actif|objekt|ativo|cespite")
OWNERS = _words("council|city|county|town|shire|district|municipal|park|our")
"""What a number of an asset is called by, and whose it is: `Council asset ID`."""
COMPOUND = r"(mast|rohr|pfosten|stander|korbstander|saulen)(form|durchmesser|hohe|hoehe|breite|nummer|nr|typ|art|zustand|querschnitt|mass)"
"""German words of two, as they are compared."""
IN_COMPOUNDS = {"mass": "dimension"}
"""What the second part of such a word says, where it says another thing alone."""
OTHER_THINGS = _words(
    "tree|trees|species|dbh|trunk|sign|signs|light|lights|lamp|luminaire|fixture|manhole|tank|bollard|bench|culvert|hydrant|valve|pump|"
    "door|window|flag|flagpole|planter|player|student|árbol|especie|arbre|essence|albero|specie|árvore|espécie|baum|baumart|schild|leuchte|"
    "laterne|señal|luminaria|lampadaire|lampione|cartello"
)
"""What a table is of where it is not of posts, in the heading of what its rows are: `Tree ID`, `Species`."""
THINGS_OF_A_GROUND = _words(
    "tree|trees|bollard|bollards|bench|benches|hydrant|culvert|manhole|flagpole|planter|luminaire|lamppost|streetlight|floodlight|floodlights|"
    "signpost|signage|seating|fountain|litter|trash|fence|fencing|shelter|swing|swings|goalpost|goalposts|"
    "árbol|árboles|farola|farolas|papelera|papeleras|luminaria|portería|porterías|columpio|arbre|arbres|lampadaire|candélabre|réverbère|poubelle|clôture|"
    "baum|bäume|sitzbank|bänke|laterne|leuchte|lichtmast|fahnenmast|mülleimer|papierkorb|zaun|fußballtor|tischtennisplatte|laternenmast|"
    "árvore|árvores|lixeira|lampião|baliza|balizas|albero|alberi|lampione|lampioni|panchina|panchine|cestino|recinzione|pennone"
)
"""Other things that stand on a ground, as a cell names them."""
OTHER_USES = _words(
    "deck|pergola|porch|scoreboard|dugout|backstop|swing|fitness|exercise|climbing|banner|clothesline|valla|vallas|vallado|cerramiento|clôture|"
    "grillage|filet|rete|reti|recinzione|redes|marcador|columpio|balançoire|schaukel|altalena|"
    "shade|structure|canopy|awning|stop|traffic|antenna|mailbox|electric|electrical|telegraph|handrail|railing|"
    "light|lights|lighting|lamp|sign|signs|flag|fence|net|nets|power|utility|telephone|camera|cctv|gate|tetherball|volleyball|soccer|football|tennis|"
    "netball|badminton|handball|rugby|hockey|luz|señal|bandera|voleibol|fútbol|tenis|balonmano|éclairage|signalisation|volley|"
    "beleuchtung|schild|fahne|zaun|volleyball|fußball|bandeira|sinal|futebol|luce|segnale|bandiera|pallavolo|calcio"
)
"""What else a post, a pole or a goal can be for."""
OTHERS_IN_TITLES = (
    r"(?:gym|play|fitness|exercise) equipment|"
    r"luminarias|farolas|lampioni|lampadaires|candélabres|réverbères|lampposts?|streetlights?|flag ?poles?|bollards?|sign ?posts?|goalposts?|"
    r"panneaux de signalisation|iluminação|alumbrado|éclairage|illuminazione|beleuchtung|"
    r"(?:volleyball|fu[ßs]+ball|fahnen|licht|laternen|lampen|zaun|netz|schilder|beleuchtungs)(?:pfosten|masten?|ständer|tore?)"
)
"""Words of a title over a table of other things, as a pattern."""
OF_WORDS = _words("de|d|di|da|do|del|la|las|los|le|les|l|du|des|della|delle|fur|of|for|the")
AND_WORDS = frozenset(("and", "&", "y", "et", "und", "e", "or", "o", "ou", "oder"))
"""Small words between posts and what they are for, and between two games."""
OF_A_SALE = _words("price|unit price|sku|precio|prix|preis|preço|prezzo|line total|discount|lead time")
"""Headings of a list of what is sold or ordered."""
OF_THE_GAME = r"basket|hoop|backboard|baloncest|b[áa]squet|canast|panier|canestr|pallacanestr|korb|körbe"
"""Beginnings of words for the game or its goals, as a pattern: with one of them a table is of its posts."""
OF_OTHER_POSTS = _words(
    "luminaire|luminaires|wattage|watts|lamp|lamps|bulb|lumens|camera|cctv|species|leuchte|leuchtmittel|leistung|lampe|ampoule|puissance|"
    "luminaria|luminarias|lámpara|potencia|lâmpada|lampada|potenza|potência|tetherball|volleyball|netball|flagpole"
)
"""Words of a heading that only a table of other posts and poles has."""
GOALS = _words("column|columns|mast|masts|standard|standards|goal|goals|porta|porte|buts|tor|tore")
SPORT = r"(?<=poteaux )basket|(?<=poteau )basket|(?<=mâts )basket|(?<=mât )basket|(?<=pali )(?:basket|canestro)|(?<=palo )(?:basket|canestro)|(?<=postes )b[áa]s(?:quet|ket)|(?<=poste )b[áa]s(?:quet|ket)|(?<=postes )basquete|(?<=poste )basquete|basket-?ball|b-?ball|goal(?=[ _-]?(?:posts?|poles?)\b)|(?:de|da|di|del) (?:basket|b[áa]squet(?:bol)?|baloncesto|basquet(?:e|ebol)?|pallacanestro)|basketball(?=pfosten|mast|st[äa]nder)"
"""What posts are for, as a pattern: it changes nothing in a heading."""
COUNTED = _words(
    "viele|wieviele|"
    "qty|quantity|count|how|many|cantidad|quantidade|quantità|anzahl|nombre|cuántos|quantos|quanti|combien|cant|qtde|qtd|quant|qté|nb|nbr|nbre|"
    "qtà|anz|stk"
)
"""Words beside posts, in the plural, for how many there are."""
PLURALS = (
    r"posts|poles|uprights|stanchions|supports|parantes|pilares|sostegni|colonne|pylônes|tubos|caños|tubi|tubes|stangen|postes|poteaux|m[âa]ts|montants|masten|pfosten|ständer|säulen|mástiles|mastros|colunas|columnas|pali|"
    r"montanti"
)
GOALS_COUNTED = (
    r"goals|hoops|baskets|standards|goal posts|canastas|jirafas|aros|tableros|buts|tabelloni|paniers|paneaux|panneaux|k[öo]rbe|basketballk[öo]rbe|cestas|tabelas|"
    r"canestri"
)
"""What stands on posts, one on each, in the plural: a number of these is one of posts, as a pattern. Source: common practice."""
FROM_GROUND = _words("ground|grade|suelo|piso|terreno|sol|boden|grund|gelände|suolo|terra|solo|chão")
WHOLE = _words("total|overall|totale|gesamt|gesamte|gesamthöhe|whole|full")
"""Words beside a height where it is said of the post, or from the ground: a total height may be a board's."""
BOARD_WORDS = _words(
    "board|boards|backboard|backboards|ring|rings|rim|rims|tablero|tableros|aro|aros|panneau|panneaux|cercle|cercles|brett|bretter|korb|ringe|"
    "zielbrett|tabela|tabelas|tabellone|tabelloni|canestro|canestri|ferro"
)
"""Words of a board or a ring, of which a height can be one's too."""
REQUIRED = r"required|mandatory|obligatoire|obligatorio|obligatório|pflichtfeld|obbligatorio"
"""Words in a bracket for a field that must be filled in, as a pattern."""
