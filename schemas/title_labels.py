"""Labels of titles and of rows of their own, as patterns: what a ground is called, and what is said beside it. Source: common practice."""

from __future__ import annotations

_OF_OWNERS = (
    r"(?:(?:home ?owner|property owner|condo(?:minium)?(?: owner)?|town ?home(?: owner)?|resident|tenant|lot owner|unit owner)s?['’]?s?['’]?|"
    r"community|neighbou?rhood|village|civic)"
)
ASSOCIATIONS = rf"(?:{_OF_OWNERS} )?(?:association|assoc\.?|assn\.?)(?: name)?|h\.?o\.?a\.?(?: name)?|p\.?o\.?a\.?|c\.?o\.?a\.?"
"""Whose homes a ground belongs to: a label of a site, unless a league or a club of players stands behind it."""

OF_PLAYERS = r"\b(?:basketball|hoops?|youth|leagues?|athletics?|sports?|recreation|boosters?|soccer|players|coaches|officials|teachers|alumni)\b"

_WHICH_KIND = (
    r"apartment|apt|condo(?:minium)?|housing|town ?(?:house|home)|mobile home|manufactured home|trailer|rv|residential|senior|student|"
    r"sports?|athletic|recreation|rec|youth|teen|community|family|boys?(?: (?:and|&) girls?)?|church|parish|bible|scout|summer|day|"
    r"military|army|air force|naval|public|state|county|city|town|village|neighbou?rhood|pocket|mini|linear|middle|high|elementary|"
    r"primary|charter|magnet|private|parochial|managed|planned|gated|tribal|mission|child care|daycare|after[- ]school|job|work|project|"
    r"play|basketball|outdoor|hoop|insured|covered|inspected|surveyed|service|serviced|subject|client|customer|member|host|visited|loss|named"
)
KINDS_OF_GROUND = (
    r"(?:(?:"
    + _WHICH_KIND
    + r") )*(?:complex|community|development|subdivision|property|park|playground|play ?lot|tot ?lot|school|academy|"
    r"campus|center|centre|ctr|club|hall|camp|campground|camp site|field|grounds?|facility|estate|resort|congregation|parish|chapel|mission|"
    r"temple|synagogue|ranch|barracks|residence|dorm(?:itory)?|residence hall|retreat|village|site|location|venue|gym|installation|reservation|"
    r"tract|premises|housing area|rec area|play area|recreation area)(?: name)?"
)
"""Kinds of ground by which a title labels the name of one."""

NUMBER_OF_A_LABEL = r"\s*(?:#|no\.?|nr\.?|number|n[°º])?\s*\d{1,3}"
"""A number behind the label of a ground, before its name: `Site 3: Cedar Bend`."""
STOPS = r"stop|visit|school|park|site|location|property|facility|campus|building|church|playground|ground|complex|community"
"""Labels of grounds that are numbered in the order of a round."""

BESIDE_A_SITE = (
    r"(?:(?:asst\.?|assistant|vice|head|chief|lead|crew|site|park|school|property|area|district|facility|facilities|athletic|activities|board|"
    r"on[- ]site|day|night|regional|maintenance|recreation|program|field|office|emergency|main|after[- ]hours)\s+)*"
    r"(?:principal|custodian|janitor|foreman|forewoman|superintendent|supt\.?|inspector|crew|crew lead|lead|supervisor|manager|mgr\.?|contact|"
    r"contact person|phone|tel\.?|cell|fax|e-?mail|address|mailing address|street address|weather|temp\.?|temperature|time|coach|director|"
    r"pastor|deacon|sexton|caretaker|grounds ?keeper|groundsman|secretary|coordinator|volunteers?|surveyor|helper|ranger|owner|president|"
    r"treasurer|liaison|representative|rep|attn\.?|attention|technician|tech|engineer|architect|teacher|dean|headmaster|rector|"
    r"(?:measured|recorded|entered|taken|walked|visited|seen|noted|done|written|reviewed|inspected|checked|surveyed|read) by|by|"
    r"access|gate code|gate|lock|keys?|parking|hours|tools?(?: used)?|instrument|surface|court surface|court size|lights?|lighting|fence|"
    r"fencing|striping|drainage|status|year built|built|installed|warranty|enrollment|grades|acres|acreage)"
    r"(?: (?:in charge|on duty|on site|present|responsible|assigned|name|info|of record))?"
)
"""What is said beside a ground in a row of its own: who is there, how to get in, what lies round the posts."""
LABELS_OF_PLACES = r"location|unit|area|spot|where|day use area|use area|park unit"
"""Labels of a ground where a name of one stands behind them: `Unit: Ten Mile Landing`."""
ADDRESS = r"(?:(?:mailing|street|site|school) )?address\s*:.*"
"""An address behind posts may be that of another ground."""
