"""Grounds by name, and what else stands in a row of its own: totals, remarks, places within a ground. Patterns, in six languages."""

from __future__ import annotations

GROUNDS = (
    r"(?<=\w )k-\d{1,2}|school|elementary|elem|primary|middle school|high school|academy|college|park|playground|recreation (?:ground|center|centre|area)|"
    r"fields?|rec (?:center|centre|ground)|community (?:center|centre)|playing fields?|sports (?:ground|field|park|complex|center|centre)|"
    r"church|chapel|fellowship|tabernacle|synagogue|mosque|cathedral|temple|lutheran|baptist|methodist|presbyterian|episcopal|parish|"
    r"ymca|gym|schoolyard|rec$|(?:middle|high|intermediate)$|(?-i:ES|MS|HS|JHS|PS)$|escuela|colegio|instituto|liceo|parque|polideportivo|unidad deportiva|"
    r"[ée]cole|coll[èe]ge|lyc[ée]e|stade|parc|gymnase|[\w-]*schule|gymnasium|sportplatz|sportanlage|[\w-]*park|"
    r"[\w-]*schul(?:haus|zentrum|anlage|campus)|[\w-]*gymnasium|kita|(?:bolz|spiel|fest|sport)platz|(?:freizeit|spiel|ballspiel)anlage|"
    r"jugendzentrum|jugendhaus|sportzentrum|sportgelände|schulsportanlage|freibad|(?-i:GS|VS|RS|NMS|BORG|HAK|SH|OS|KiTa|WG)(?= )|"
    r"centro sportivo|impianto sportivo|plesso|campetto|area verde|giardin[oi]|palazzetto|polisportivo|istituto comprensivo|"
    r"(?-i:I\.?C\.?)(?= )|I\.C(?=\.? \w)|scuola media|(?:scuola )?(?:primaria|secondaria|elementare|materna)|parrocchia|"
    r"escola|col[ée]gio|gin[áa]sio|scuola|istituto|parco|palestra|oratorio|"
    r"(?-i:CP)(?= [A-ZÁÉÍÓÚ])|CEIP|C\.E\.I\.P|IES|I\.E\.S|IED|I\.E\.D|I\.E(?=\.\s)|(?-i:Esc|Col)(?=\.)|(?-i:C\.P|U\.E|C\.R\.A|E\.P|C\.E\.P|I\.E\.P|E\.B|E\.E\.B|U\.E\.F)(?=\.? [A-ZÁÉÍÓÚ])|secundaria|preescolar|jard[íi]n de (?:infantes|ni[ñn]os)|unidad dep\.?|"
    r"play[óo]n|multicancha|polidesportivo|poliesportivo|plaza|instituci[óo]n educativa|unidad educativa|c[íi]rculo infantil|guarder[íi]a|"
    r"E\.[ME](?=\.?\s)|EMEF|EMEI|EMEB|CEU|CIEP|E\.M\.E\.F|(?-i:EB1?(?= \w))|(?-i:EB) ?[123](?:,[123])*(?=\W)|jardim de inf[âa]ncia|pra[çc]a|ringue|creche|unidade escolar|"
    r"ath[ée]n[ée]e|institut|groupe scolaire|complexe|maternelle|city-stade|plaine|square d(?:es?|u)|jardin|cégep|polyvalente|centre (?:sportif|de loisirs)|aire de jeux|"
    r"liceo|asilo|(?-i:Ist)(?=\.)|piazza"
)
"""Words that name a kind of ground, as a pattern. Source: common practice."""

BARE_GROUNDS = (
    "park|parc|school|schule|sportpark|skatepark|carpark|hochschule|grundschule|realschule|hauptschule|gymnasium|sportplatz|"
    "sportanlage|elementary|elem|primary|academy|college|playground|church|chapel|fellowship|temple|parish|ymca|escuela|colegio|instituto|liceo|parque|"
    "polideportivo|école|ecole|collège|lycée|lycee|stade|gymnase|escola|colégio|ginásio|ginasio|scuola|istituto|parco|palestra|"
    "centro sportivo|impianto sportivo|plesso|campetto|area verde|giardino|giardini|palazzetto|parrocchia|primaria|secondaria|elementare|materna|scuola media|"
    "schulhaus|schulzentrum|schulanlage|bolzplatz|spielplatz|festplatz|freizeitanlage|spielanlage|jugendzentrum|jugendhaus|sportzentrum|sportgelände|freibad|kita|"
    "plaza|praça|plaine|institut|jardin|complexe|maternelle|playón|playon|multicancha|secundaria|preescolar|ringue|creche|piazza|"
    "asilo|guardería|ceip|ies|ied|emef|emei|emeb|ceu|ciep|eb|eb1|eb2|eb3|athénée|unidad dep|unidad dep.|polidesportivo|poliesportivo|"
    "unidad educativa|institución educativa|unidade escolar|groupe scolaire|city-stade|square de|square du|square des|polyvalente|cégep|centre sportif|"
    "oratorio|gesamtschule|volksschule|mittelschule|berufsschule|förderschule|oberschule|field|fields|middle|high|intermediate"
)
"""Words for a ground that are no name by themselves."""

SMALL_GROUNDS = (
    "école|collège|lycée|stade|parc|gymnase|escuela|colegio|instituto|liceo|parque|polideportivo|plaza|cancha|multicancha|playón|unidad deportiva|escola|"
    "colégio|ginásio|praça|polidesportivo|scuola|istituto|parco|palestra|oratorio|piazza|complexe|square"
)
"""Words for a ground that stand small before its name in running text, as a pattern: `école Jules Ferry`."""

NUMBERED_SCHOOLS = (
    "school|escuela|escola|colegio|colégio|liceo|instituto|école|collège|lycée|athénée|scuola|schule|secundaria|primaria|preparatoria|"
    "telesecundaria|jardín|grundschule|volksschule|ies|ceip|esc\\.?|e\\.m\\.?|emef"
)
"""Kinds of school that are called by their numbers, as a pattern."""

NO_GROUND = (
    r"schools|parks|grounds|district|county|department|dept|division|board|authority|council|league|association|company|inc|llc|ltd|"
    r"services?|office|programs?|projects?|bureau|ministry|committee|consultants?|contractors?|engineers?|city of|town of|village of|"
    r"polisportiva|polideportiva|sportverein|turnverein|(?-i:ASD|SSD|TSV|TV|SV|BC|SC)|distrito|municipalidad|ayuntamiento|municipio|secretar[íi]a|escuelas|colegios|parques|mairie|commune|[ée]coles|"
    r"landkreis|gemeinde|amt|schulamt|schulen|verein|verband|prefeitura|secretaria|escolas|comune|provincia|scuole"
)
"""Words of a title that speak of more than one ground, or of whose it is. Source: common practice."""

COURTS = r"(?:courts?|amenity|area|zone|yard|pad|play(?:ing)? area|playgrounds?|pitch|canchas?|pista|terrain|plateau|cour|spielfeld|platz|quadra|campo|campetto|cortile|patio|pátio|recreio|piastra)"
"""Words of a heading over the court of a ground, as a pattern."""
BEFORE_A_COURT = r"(?:(?:covered|indoor|open|roofed|public|street|ball|hoops?|basketball|basket|bball|b-ball|bb|outdoor|outside|sports?|play|game|hard|practice|school|our|which|what)\s+)*"
BEHIND_A_COURT = r"(?:\s+(?:de|da|di|del)\s+(?:baloncesto|b[áa]squet(?:bol)?|basket|basquete(?:bol)?|pallacanestro))?"
"""What court it is, before and behind the word, as patterns: `Ball court`, `cancha de básquet`."""

BETWEEN_NAMES = (
    r"(\s+[-–—|]\s+|\s+(?:is|are|was|is called|called|has|have)\s+|[;:()\[\]/]|(?<!\d),|,(?!\d)|(?-i:(?<!\b[A-Z])(?<!\b[A-Z]\w)(?<!\b[A-Z]\w\w)(?<!\b[A-Z]\w\w\w)|(?<=Park)|(?<=Parc)|(?<=Hall)|(?<=Club)|(?<=Gym)|(?<=Rec)|(?<=Kita))\.\s|\s+(?:at|for|from|by|near|and|&|on|en|para|pour|à|au|für|an der|am|presso|per|na|no|"
    r"por|par|von|da)\s+"
    r"|(?<!school)(?<!college)(?<!academy)(?<!church)\s+(?:of|in|der)\s+)"
)

POSTAL_CODES = r"[A-Z]{1,2}\d[A-Z\d]?\s*\d[A-Z]{2}|[A-Z]\d[A-Z]\s*\d[A-Z]\d|[A-Z]\d[\dW]\s*[A-Z\d]{4}|\d{4,6}(?:\.0)?"
"""Postal codes of Britain, Canada, Ireland, and those of figures alone, as a pattern. Source: memory."""

_SO_MANY = r"\d{1,2}|one|two|three|four|five|six"
POSTS_BEHIND = (
    rf"\s*(?:[(\[]|[-–—,:]\s)\s*({_SO_MANY})\s+(?:no\.?\s+)?(?:basketball\s+|netball\s+)?"
    r"(?:posts?|poles?|hoops?|goals?|uprights?|standards?|off|postes?|poteaux?|mâts?|masten?|pfosten|pal[oi])\s*[)\]]?\s*$"
    r"|\s+[x×]\s?(\d{1,2})\s*$"
)
"""A number of posts behind the name of a ground, as a pattern."""
COUNT_BEHIND = rf"{POSTS_BEHIND}|\s*(?:[(\[]|[-–—,:]\s)\s*(?:{_SO_MANY})\s+(?:basketball\s+)?courts?\s*[)\]]?\s*$"
"""A number of posts behind a ground's name, as a pattern: `Priory Park (2 posts)`."""

_DETERMINERS = (
    "our|my|this|your|their|each|every|all|both|which|what|any|some|no|these|those|its|here|behind|near|"
    "beside|opposite|outside|inside"
)
DETERMINERS = frozenset(_DETERMINERS.split("|"))
"""Words before a kind of ground that are no name of one: `Our school`."""

BEFORE_A_PERSON = r"\s+(?:from|by|por|par|von)\s+"
"""What stands before somebody's name."""

PROJECT_LABELS = (
    r"^\s*(?:project|job|job name|re|subject|obra|proyecto|projet|chantier|projekt|objekt|bauvorhaben|maßnahme|betreff|projeto|"
    r"progetto|lavoro|oggetto)\s*:\s*"
)
"""Labels after which a ground may be named."""

SITE_LABELS = (
    r"(?!.*\b(?:contact|ranger|surveyor|manager|principal|phone|attn|person|inspector|keeper|caretaker|coach|officer|staff)\b)"
    r".*\b(?:survey|posts?|poles?|hoops?|location|venue|site(?: no| number| code| id)?|school|park)\b.*"
)

ROUND_A_NAME = (
    r"(?:basketball|post|posts|pole|poles|hoop|hoops|goal|goals|backboard|backboards|court|courts|survey|surveys|inventory|list|"
    r"schedule|report|inspection|audit|measurements?|sheet|form|replacement|repair|upgrade|renovation|refurbishment|works|project|condition|assessment|site|visit|the|field|data|"
    r"ficha|técnica|fiche|scheda|tecnica|planilla|hoja|formulario|formulário|catastro|relación|relevamiento|censo|censimento|recensement|état|audit|elenco|lista|listado|"
    r"cadastro|vistoria|inspección|revisión|revisão|relatório|rapport|informe|registro|registre|medición|mediciones|medidas|mesures|misure|medições|liste|tableau|cuadro|"
    r"(?-i:la|el|las|los|le|les|il|lo|os|as)|baloncesto|b[áa]squet(?:bol)?|basquete(?:bol)?|basket|pallacanestro|paniers|canestri|tableros|aros|mâts|mastros|"
    r"relevé|inventaire|poteaux|levantamiento|inventario|postes|canastas|aufnahme|bestandsaufnahme|masten|rilievo|pali|"
    r"levantamento|inventário|des|de los|de|del|della|dei|delle|di|do|da|dos|du|die|der|[12][09]\d\d|\d{1,2}(?:st|nd|rd|th)?)"
)

TOTALS = (
    r"(grand |overall )?(total|totals|sum|sum total|summe|gesamt|gesamtsumme|insgesamt|somme|totaux|suma|totales|soma|totais|"
    r"totale|totali|somma)( (of |de |di )?(posts|poles|postes|poteaux|masten|pali))?\s*[:=]?\s*\d*|"
    r"(grand |overall )?totals?\s*[:=-]?\s*\d+ (basketball )?(posts|poles|goals|hoops|uprights|standards|ea|each|pcs)|"
    r"\d+ ((basketball )?(posts|poles|goals|hoops|uprights|standards) )?(total|in total|in all|altogether|all together)"
)

SUBTOTALS = (
    r"(sub-? ?totals?|average|mean|count|minimum|maximum|zwischensumme|sous-total|subtotale|mittelwert|moyenne|promedio|media|"
    r"média)\s*[:=]?\s*\d*|(sub-? ?totals?|total|zwischensumme|sous-total|subtotale|summe|totale|suma)\b\W+.+"
)

PLACES_WITHIN = (
    r"(.*\b)?(court|courts|blacktop|asphalt|hoop|hoops|yard|playground|side|end|corner|gym|muga|car park|parking lot|"
    r"patio|cancha|pista|fondo|cour|terrain|préau|hof|schulhof|pausenhof|platz|pátio|quadra|recreio|cortile|campo)\b( ?(no\.? ?|#)?\w{1,5})?(\s*[(–—-].{2,40})?"
)
"""A part of a ground, not a ground of its own."""

REMARKS = (
    r"[^\w(#].*|.*[=@?!;].*|.*\d\s*(in|ft|mm|cm|m|deg)\b.*|.*\d\s*[\"'].*|.*\b\d{1,4}[-./]\d{1,2}[-./]\d{1,4}\b.*|"
    r"(note|notes|n\.?b|remark|remarks|comment|legend|key|measured|surveyed|checked|inspected|prepared|signed|signature|approved|completed|surveyor|filled|done|by|page|"
    r"sheet|continued|cont'?d?|see|all|please|draft|updated|date|source|end|new|old|not|no|none|to|waiting|same|ok|tbd|"
    r"photo|photos|map|urgent|priority|list|table|survey|posts|poles|spring|summer|autumn|fall|winter|"
    r"january|february|march|april|may|june|july|august|september|october|november|december|[12][09]\d\d)\b.*"
)
"""Texts that plainly are remarks, legends, or parts of a form. Source: common practice."""

ONLY_IN_TITLES = (
    "community",
    "subdivision",
    "development",
    "neighborhood",
    "neighbourhood",
    "homeowners",
    "urbanización",
    "résidence",
    "condomínio",
)
"""Labels of a title before the name of a ground, which head no column of names. Source: common practice."""

COUNTED_THINGS = (
    r"posts?|poles?|uprights?|goals?|hoops?|nos?|pcs?|units?|ea|each|off|in all|in total|stk|stück|pfosten|masten|ständer|körbe|postes?|uds?|unid(?:ades)?|"
    r"canastas?|poteaux?|mâts?|unités?|pz|pezzi|pali|canestri|un|unidades|tabelas?"
)
"""What stands behind the number of a total, as a pattern: `4 nos.`."""

GREETINGS = (
    r"(?:hi|hello|hey|dear|good (?:morning|afternoon)|to whom|thank(?:s| you)|many thanks|cheers|regards|kind regards|best|sincerely|yours|attn|"
    r"hola|buenos d[íi]as|buenas tardes|estimad[oa]s?|saludos|gracias|atentamente|un saludo|bonjour|bonsoir|madame|monsieur|merci|cordialement|"
    r"guten (?:tag|morgen)|hallo|liebe[r]?|sehr geehrte[r]?|grüezi|servus|moin|danke|vielen dank|(?:mit )?(?:freundlichen?|besten?|viele[n]?|liebe[n]?) gr[üu](?:ß|ss)en?|"
    r"ol[áa]|bom dia|boa tarde|prezad[oa]s?|car[oa]s|obrigad[oa]|atenciosamente|cumprimentos|buongiorno|buonasera|gentil[ei]|egregi[oa]?|"
    r"ciao|grazie|cordiali saluti|distinti saluti|saluti)\b.*"
)
"""Texts that begin or end a letter."""

CLOSINGS = (
    r"(?:(?:many |kind |best |warm )?(?:thanks|regards|wishes)|thank you|cheers|yours|sincerely|best|saludos(?: cordiales)?|un saludo|atentamente|"
    r"cordialement|bien (?:à vous|cordialement)|merci|mit (?:freundlichen|besten) gr[üu](?:ß|ss)en|(?:viele|beste|liebe) gr[üu](?:ß|ss)e|mfg|danke|"
    r"atenciosamente|cumprimentos|obrigad[oa]|cordiali saluti|distinti saluti|saluti|grazie)(?: (?:again|truly|sincerely|faithfully|everyone|all))?[\s,.!:-]*"
)
"""Texts that end a letter, as a pattern: below them stands who wrote it."""

REMARKS_ELSEWHERE = (
    r"(?:notas?|observaci[oó]n(?:es)?|observaç(?:ão|ões)|leyenda|medido|revisado|inspeccionado|preparado|firmad[oa]|firma|aprobado|p[áa]gina|hoja|"
    r"continúa|continuación|borrador|actualizado|fecha|fuente|pendientes?|fotos?|mapa|urgente|prioridad|tabla|encuesta|responsable|tel[ée]fono|correo|"
    r"remarques?|légende|mesuré|relevé|vérifié|préparé|signé|signature|approuvé|feuille|suite|brouillon|mis à jour|liste|tableau|contact|courriel|"
    r"bemerkung(?:en)?|anmerkung(?:en)?|hinweise?|legende|gemessen|aufgenommen|geprüft|erstellt|unterschrift|genehmigt|seite|blatt|fortsetzung|siehe|"
    r"entwurf|stand|datum|quelle|ende|fotos?|dringend|tabelle|telefon|ansprechpartner|hausmeister|bearbeiter|"
    r"legenda|inspecionado|assinatura|assinado|aprovado|folha|continua|rascunho|atualizado|fotografias?|responsável|telefone|"
    r"osservazioni|annotazioni|misurato|rilevato|controllato|preparato|firmato|approvato|foglio|segue|bozza|aggiornato|foto|urgente|tabella|referente|"
    r"postes|poteaux|pfosten|masten|pali|data|date|fin|fine|fim|telefono|e-?mail)"
    r"\b\s*(?:[:.(–-].*|\d.*|(?:por|par|von|am|da|de|le|el|il|em)\b.*)?"
)
"""Labels and remarks in other languages than English, alone or before what they label. Source: common practice."""

GROUND_WORDS = (
    r"\b(school|elementary|primary|middle|high|academy|college|prep|kindergarten|ps|p\.s|park|parks|field|fields|ground|grounds|"
    r"rec|recreation|center|centre|community|club|hall|church|chapel|fellowship|arena|gardens?|reserve|oval|green|common|commons|plaza|square|meadows?|"
    r"campus|complex|escuela|colegio|instituto|ceip|ies|liceo|parque|polideportivo|plaza|[eé]cole|coll[eè]ge|lyc[eé]e|parc|stade|gymnase|"
    r"\w*schulhaus|\w*schulzentrum|\w*schulanlage|\w*anlage|jugendzentrum|jugendhaus|freibad|festplatz|centro sportivo|impianto|giardini|"
    r"palazzetto|parrocchia|area verde|\w*schule|gymnasium|kita|sportplatz|spielplatz|bolzplatz|schulhof|sportpark|escola|emef|col[eé]gio|gin[aá]sio|praça|scuola|primaria|istituto|plesso|"
    r"parco|oratorio|campetto)\b"
)
"""Words that name a kind of ground. Source: common practice."""

NO_SITE_TABS = (
    r"((sheet|tabelle|blatt|feuil|feuille|hoja|planilha|folha|foglio|table|tab|tabla|tableau|tabela|tabella|page|list|copy of .*|"
    r"survey|surveys|post|posts|pole|poles|data|form|draft|final|new|old|round|part|january|february|march|april|may|june|july|"
    r"august|september|october|november|december|jan|feb|mar|apr|jun|jul|aug|sept?|oct|nov|dec|spring|summer|autumn|fall|winter)"
    r"[\s_.-]*[\d\s()_.-]*|[\d\s()_./-]+)"
)
"""Names of sheets that a program gives, or that say when or what, not where. Source: common practice, and the programs'
own names in English, German, French, Spanish, Portuguese and Italian."""

# fmt: off
WITHIN_A_GROUND = frozenset(BARE_GROUNDS.split("|")) | frozenset(
    [
        "court",
        "courts",
        "blacktop",
        "asphalt",
        "yard",
        "playground",
        "side",
        "end",
        "corner",
        "gym",
        "muga",
        "car",
        "park",
        "parking",
        "lot",
        "main",
        "area",
        "play",
        "hoop",
        "hoops",
        "new",
        "old",
        "big",
        "small",
        "full",
        "half",
        "outdoor",
        "outside",
        "indoor",
        "patio", "de", "do", "da", "del", "di", "du", "des", "la", "le", "el", "l", "d", "cima", "baixo", "arriba", "abajo", "haut", "haute", "bas", "basse",
        "sopra", "sotto", "oben", "unten", "grande", "pequeno", "pequena", "petit", "petite", "pequeño", "pequeña", "chico", "chica", "piccolo", "piccola",
        "coberto", "coberta", "cubierto", "cubierta", "techada", "techado", "couvert", "couverte", "coperto", "coperta", "entrada", "entrée", "ingresso",
        "trás", "frente", "fundo", "fundos", "atrás", "detrás", "delante", "adelante", "derrière", "devant", "arrière", "avant", "dietro", "davanti", "do",
        "fond", "lateral", "multicancha", "gimnasio", "estacionamiento", "estacionamento", "jardin", "jardim", "giardino", "retro", "central", "centrale",
        "interior", "exterior", "extérieure", "intérieure", "esterno", "interno",
        "cancha",
        "pista",
        "fondo",
        "principal",
        "cour",
        "terrain",
        "préau",
        "hof",
        "schulhof",
        "pausenhof",
        "platz",
        "haupt",
        "pátio",
        "quadra",
        "recreio",
        "cortile",
        "campo",
        "infant",
        "infants",
        "junior",
        "juniors",
        "ks",
        "by",
        "near",
        "the",
        "of",
        "and",
        "pavilion",
        "entrance",
        "building",
        "block",
        "hall",
    ]
)
# fmt: on
"""Words of which the names of parts of a ground are made: `Main court`, `Infants playground`."""

_NAMES_OF_COURTS = (
    "red|blue|green|yellow|white|black|orange|purple|grey|gray|gold|silver|brown|rot|blau|grün|gelb|rojo|azul|verde|amarillo|"
    "rouge|bleu|vert|jaune|rosso|blu|giallo|vermelho|amarelo|"
    "first|second|third|fourth|fifth|sixth|youth|adult|kids|varsity|practice|practise|parking|tot|little|big|boys|girls|"
    "competition|recess|elementary|bus|loop|lot|street|road|drive|baseline|endline|sideline|alley|driveway"
)
NAMES_OF_COURTS = frozenset(_NAMES_OF_COURTS.split("|"))
"""Words by which the courts of one ground are told apart. Source: common practice."""

SAYS_WHERE_ON_A_GROUND = (
    r"(?:by the|near|behind|beside|next to|in front of|close to|across from|off|outside|inside|between|facing|adjacent|toward|towards|"
    r"opposite|corner of|back of|front of|rear of|edge of|end of|side of|"
    r"cerca de|detrás de|junto a|al lado|frente a|derrière|devant|près de|à côté|hinter|neben|vor|bei|atrás de|perto de|ao lado|"
    r"dietro|davanti|vicino)"
)
"""Words, as a pattern, that say where on a ground something stands. Source: common practice."""

BEGIN_NAMES_TOO = frozenset(
    ("old", "new", "spring", "summer", "winter", "autumn", "fall", "march", "april", "may", "june", "august")
)
"""Words that begin remarks, and names of grounds as well: `Old Mill Lot`, `Spring Hollow`."""
