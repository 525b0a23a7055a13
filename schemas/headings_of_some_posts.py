"""Words of headings that say of which posts a column is: round ones, square ones, both of a row. Source: common practice."""

from __future__ import annotations

_POSTS = r"(?:posts?|poles?|ones?|uprights?|tubes?|tubing|pipes?|columns?|standards?)"
OF_ROUND = rf"(?:if |for |when )?(?:(?:it is |it's |its |they are )?(?:round|rnd|rd|circular))\.?(?: {_POSTS})?\s*[:,;–—-]\s*"
OF_SQUARE = rf"(?:if |for |when )?(?:(?:it is |it's |its |they are )?(?:square|sq))\.?(?: {_POSTS})?\s*[:,;–—-]\s*"
"""Of which shape the posts are that a heading is for, before what is measured, as patterns: `Round: inches around`."""
BOTH = (
    r"[\s,;:(\[–-]*\b(?:(?:for|at|on|of|is|the|same|are) )*(?:both|each|either|ambos|ambas|(?:los|las|les|os|as|le|i) (?:dos|deux|dois|duas|due)|beider?|"
    r"entrambi|entrambe|ambo)(?: (?:the|los|las|les|os|as|i|le|gli))? (?:ends?|posts?|poles?|goals?|hoops?|baskets?|uprights?|"
    r"extremos|postes|aros|canastas|bouts|poteaux|m[âa]ts|paniers|enden|masten|pfosten|körbe|pali|canestri|estremit[àa]|pontas|cestas)"
    r"(?: (?:the )?same)?\b[)\]]?\s*:?"
)
"""Words of a heading, as a pattern, by which its column is both posts' of a row: `OD both ends`."""

PADS = (
    r"(?P<up>\b(?:above|over|off|out of|up from|from|abv\.?|atop)\s+)(?:(?:the|top of|top of the|our|concrete|asphalt|poured|ball|basketball|playing)\s+)*"
    r"(?:pads?|aprons?|sidewalks?|walk|walkway|mulch|wood ?chips|chips|sand|pea gravel|stone|parking lot|lot|driveway|drive|hard ?court|hard ?top|"
    r"play surface|playing surface|tiles?|mat|matting|rubber|poured[- ]in[- ]place|pip|surround|blktop|blk ?top|patio|alley|street)\b"
)
"""Grounds that in a heading are one only behind a word for above: `Ht above pad`; alone they may be a cushion."""
OF_A_GROUND_ITSELF = (
    r"(?:(?:the|court|concrete|asphalt|finish|finished|playing)\s+)*(?:slab|concrete|surface|pavement|asphalt|floor|deck|paving|blacktop|tarmac)s?\s+"
    r"(?:height|ht|hgt|elevation|level)\W*|"
    r"(?:height|ht|hgt|elevation|level)\s+of\s+(?:(?:the|court|concrete|finished)\s+)*(?:slab|concrete|surface|pavement|asphalt|floor|deck|court|paving)s?\W*"
)
"""Headings over how high a ground itself lies, as a pattern: `Slab height`."""
WHOSE_GROUND = (
    r"(?:twp|township|city|county|state|town|village|boro|borough|municipal|muni|district(?:['’]s)?|host|hosting|member|participating|partner|"
    r"sponsor|sponsoring|assigned|satellite|affiliate|affiliated|parochial|catholic|diocesan|tribal|charter|private|magnet|neighborhood|"
    r"regional|client|customer|insured|covered|inspected|surveyed|subject|service|serviced|named|local|home|league|grade|feeder|mission|parish|"
    r"sister|federal|military|managed|leased|owned)\.?\s+(?!(?:of|in|at|for|and|or|near|by)\b)"
)
"""Whose ground it is, or by what it is on the list, before a word for one: `Twp. park`, `Host church`."""
SOME_GROUNDS = (
    r"hall|lot|court|park|quad|building|bldg|field|gym|yard|pool|dorm|street|campus|school|site|church|center|centre|plaza|playground|house|"
    r"residence|facility|location|place|complex|lawn|green|square|branch|club|ground|grounds|camp|area|village|block|property"
)
"""Places of which a heading can name two, `Hall / lot`: every cell below it must name one."""
