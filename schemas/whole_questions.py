"""Words of headings that are whole questions, as forms ask them: what each column's question must and may say, in English."""

from __future__ import annotations

from dataclasses import dataclass


def _words(text: str) -> frozenset[str]:
    return frozenset(text.split("|"))


ASKING = _words(
    "confirm|whether|indicate|provide|specify|advise|supply|submit|which|what|whats|how|is|are|was|does|do|did|has|have|can|could|will|would|please|the|a|an|this|that|these|those|it|its|them|"
    "they|there|here|you|your|we|our|us|me|tell|telling|say|give|enter|select|choose|pick|state|write|type|fill|of|for|to|from|in|"
    "at|on|by|with|about|as|and|or|if|when|known|following|describe|describes|describing|answering|reporting|report|being|be|one|"
    "any|now|currently|today|exactly|roughly|record|recorded|measure|measured|measuring|look|looking|only|best|your|applicable"
)
"""Words that change nothing in a question about a post."""

A_POST = _words("post|posts|pole|poles|upright|uprights|stanchion|stanchions|support|column")
A_GOAL = _words("hoop|goal|standard|basket|basketball|netball")
A_PLACE = _words(
    "school|schools|park|parks|site|ground|grounds|playground|club|facility|venue|campus|academy|college|reserve|domain|oval|recreation|"
    "rec|field|centre|center|location|place|nursery|kindergarten|primary|pitch|building|establishment|premises|estate|hall|church"
)
_AT_PLACE = A_PLACE | _words("court|courts|muga|yard")
_ALIKE = r"\b(?:identical|alike|like|same|similar|matching|such|these)\b|\bthis (?:one|kind|type|sort|size|post|pole|answer|row|line|entry|form|response|description|specification)\b"
_GROUND = _words(
    "ground|grade|floor|surface|tarmac|asphalt|concrete|paving|pavement|grass|turf|slab|level|finished|earth|soil|seal|bitumen|macadam"
)


_HANGS = _words(
    "fittings|fixtures|hardware|attachments|bracket|brackets|board|boards|backboard|backboards|ring|rings|rim|rims|hoop|hoops|frame|arm|arms|"
    "anything|something|parts"
)


@dataclass(frozen=True)
class Question:
    """A column with the words of which its question has one of each set, others that it may have, and a pattern it must show."""

    column: str
    must: tuple[frozenset[str], ...]
    may: frozenset[str]
    shows: str = ""
    never: str = ""
    answer: str = ""  # a heading of yes and no that asks the same
    basis: str = ""  # what the size is that it asks for


QUESTIONS: tuple[Question, ...] = (
    Question(
        "site_name",
        (A_PLACE, _words("which|what|name|names|called|select|choose|pick|where|reporting|answering|looking|your")),
        _words("check|checked|checking|visiting|inspect|survey|go|going|went|walk|walked|cover|covered|relate|relates|concern|entry|row|form|response|"
               "submission|entering|submitting|assigned|took|taking|measurements|playground|our|stop|today|volunteering|volunteer|"
               "name|names|called|where|after|responsible|charge|based|located|situated|standing|stands|stand|visited|inspected|surveyed|"
               "filling|completing|writing|visit|work|caretaker|council|community|leisure|sports|play|playing|primary|covers|cover|full|official")
        | A_POST | A_GOAL | _AT_PLACE,
        never=r"\bhow\b|\bmany\b|\bwho\b|^(?:is|are|does|do|did|has|have|can|could|would|will)\b|\b(?:your|our) (?:full )?name\b|"
              r"\bdo(?:es)? (?:you|your \w+) (?:go|attend)\b|"
              r"\b(?:kind|type|sort) of\b|\bwhat (?:is|are|was) (?:the )?(?:post|pole)|\bwhere (?:on|in|at|within|about)\b",
    ),
    Question(
        "post_code",
        (A_POST | A_GOAL, _words("which|call|called|name|number|label|refer|known|identify|identifies|tag|id|code|reference")),
        _words("position|letter|colour|call|called|name|number|label|refer|identify|identifies|tag|id|code|reference|painted|marked|written|shown|court|end|"
               "number|letter|referring|measuring|plan|map|list|short|own|used|use")
        | A_POST | A_GOAL,
        never=r"\bmany\b|\bposts\b(?<!of the posts)|\bpoles\b(?<!of the poles)|\bnumber of (?:identical |such |these )?\w+s\b|"
              r"^(?:is|are|does|do|did|has|have)\b|\bcourts\b|\bwhat type\b|\btype of\b|\bkind of\b",
    ),
    Question(
        "post_shape",
        (_words("shape|round|circular|section|profile"), A_POST | _words("it|shape|section|profile|tube|pipe")),
        _words("shape|round|square|circular|rectangular|oval|octagonal|other|section|cross|profile|tube|pipe|hollow|box|above|down|top|"
               "flat|sides|seen|cut|through|think|across|else")
        | A_POST,
        shows=r"\bshape\b|\bprofile\b|\b(?:round|circular)\b.*\bsquare\b|\bsquare\b.*\b(?:round|circular)\b|\bcross[- ]section\b",
        never=r"\bround the\b|\bcorner",
    ),
    Question(
        "post_height",
        (_words("tall|high|height"), A_POST | _GROUND),
        _words("tall|high|height|above|off|out|over|up|very|top|tip|stand|stands|standing|visible|exposed|total|overall|much|many|full|"
               "bottom|end|part|natural|vertical")
        | A_POST | _GROUND,
        never=r"\blike\b|\bshould\b|\bwould\b|\bbelow\b",
    ),
    Question(
        "post_height",
        (_words("far|distance|much|length|long|measurement"), _GROUND, _words("top|above|off|out"), A_POST),
        _words("far|distance|much|length|long|measurement|above|off|out|up|very|top|tip|stand|stands|sticks|stick|rises|visible|exposed|"
               "total|overall|way|itself|projects|project|many")
        | A_POST | _GROUND,
        never=r"\bwould\b|\bbelow\b",
    ),
    Question(
        "post_size",
        (_words("wide|width|diameter|dia|across|breadth|size|side"), A_POST | _words("it|round|square|tube|pipe")),
        _words("wide|width|diameter|dia|across|breadth|outside|outer|external|overall|measurement|size|side|sides|face|flat|flats|round|"
               "square|straight|tape|section|tube|pipe|top|far|big|thick|near|circular|distance|itself|edge|callipers|calipers|much|many")
        | A_POST,
        never=r"\bposts\b|\baround\b|\bround the\b|\binside\b|\bwould\b|\bsize of pipe\b|\bpipe size\b|\bnominal\b",
    ),
    Question(
        "post_size",
        (_words("around|round|circumference|girth|perimeter"), A_POST | _words("it")),
        _words("around|round|circumference|girth|perimeter|far|distance|much|many|measurement|length|tape|string|cord|all|way|outside|"
               "wrap|wrapped|wrapping|once|whole|goes|go|right|big|itself|put|using")
        | A_POST,
        shows=r"\b(?:around|circumference|girth|perimeter|round (?:the|it|this|your|each))\b",
        never=r"\bsquare\b|\bposts\b|\bpoles\b|\bany(?:thing)?\b|\b(?:surface|ground|area|base|bottom|foot)\b|^is\b",
        basis="circumference",
    ),
    Question(
        "quantity",
        (_words("many|number|quantity|count|qty|no|nos|nr|posts"), A_POST | A_GOAL | _words("there|same|identical|alike|these|those|like|type|kind|sort|size|cover|covers")),
        _words("no|nos|nr|many|number|quantity|count|identical|alike|like|same|similar|matching|such|just|kind|type|sort|size|answer|entry|row|"
               "line|response|form|description|match|matches|fit|fits|meet|cover|covers|apply|applies|refer|refers|including|include|total|altogether|qty|itself|"
               "are|shape|height|dimensions|stand|standing|counting|counted|count|included|inclusive|incl|too|also|own|have|exact|all")
        | A_POST | A_GOAL | _AT_PLACE,
        shows=rf"^(?=.*\b(?:many|number|quantity|count|qty|nos?|nr|posts|poles|uprights)\b).*(?:{_ALIKE})",
        never=r"\b(?:more|other|others|another|further|additional|else|besides|new|need|needed|want)\b|\bwould\b",
    ),
    Question(
        "old_fittings",
        (_words("what|anything|something|fittings|fixtures|hardware|attachments|brackets|bracket|board|boards|backboard|backboards|ring|rings|"
                "rim|rims|hoop|hoops|equipment|bits"), _words("on|attached|left|fixed|fastened|fitted|mounted|remaining|hanging|there")),
        _words("anything|something|fittings|fixtures|hardware|attachments|brackets|bracket|board|boards|backboard|backboards|ring|rings|"
               "rim|rims|hoop|hoops|equipment|bits|attached|left|fixed|fastened|fitted|mounted|remaining|hanging|still|old|existing|else|"
               "already|frame|parts|other|top|still")
        | A_POST,
        shows=r"\b(?:anything|something|fittings|fixtures|hardware|attachments)\b|\bold\b|\bstill\b|\bexisting\b|\bon (?:the|this|it)\b",
        never=r"\bwould\b|\bshould\b|\bfixed (?:in|to|into) the ground\b|\bhow\b|\bwhich\b|\bsize\b|\bheight\b|\bwith\b",
        answer="old boards on",
    ),
    Question(
        "old_fittings",
        (_HANGS | _words("left|still"), _words("held|hold|holds|fixed|attached|fastened|bolted|welded|secured|clamped|connected|joined|mounted|bolts|welds|screwed")),
        _HANGS | _words("held|hold|holds|fixed|attached|fastened|bolted|welded|secured|clamped|connected|joined|mounted|bolts|welds|screwed|"
                        "old|existing|still|left|remaining|there|on|present|hanging|up|straps|clamps|screws|other|way|onto|together|else|place|these|parts")
        | A_POST,
        shows=r"\bhow\b.*\b(?:old|existing|still|left|remaining|anything|something)\b|\b(?:old|still|left)\b.*\bhow\b|"
              r"\bwelded\b.*\bor\b|\bor\b.*\bwelded\b",
        never=r"\b(?:ground|concrete|base|foot|footing|foundation|floor|would|should|could|new|many|high|long|well|wall)\b",
    ),
    Question(
        "post_line",
        (_words("bend|bends|bent|curve|curves|curved|arch|arches|lean|gooseneck"), _words("over|top|gooseneck|forward|towards"),
         A_POST | _words("it")),
        _words("bend|bends|bent|curve|curves|curved|arch|arches|over|top|gooseneck|goose|neck|swan|straight|forward|forwards|towards|"
               "up|way|all|upper|end|hoop|ring|court|or")
        | A_POST,
        never=r"\bhow far\b|\bmany\b",
        answer="gooseneck",
    ),
    Question(
        "condition",
        (_words("condition|state"), A_POST | _words("it")),
        _words("condition|state|overall|general|opinion|rate|rating|like|view|think|repair|overall|visual|physical") | A_POST,
        never=r"\blike to\b|\bschool\b",
    ),
    Question(
        "post_base",
        (_words("fixed|set|held|anchored|mounted|installed|secured|planted|base|foot|bottom|stand|stands|standing|cast|concreted"),
         _words("ground|concrete|base|plate|sleeve|socket|floor|foundation|footing|foot|bottom")),
        _words("fixed|set|held|anchored|mounted|installed|secured|planted|base|foot|bottom|stand|stands|standing|into|ground|concrete|"
               "plate|sleeve|socket|floor|foundation|footing|bolted|cast|baseplate|down|flange|concreted|concrete")
        | A_POST,
        never=r"\bdeep\b|\bfar\b|\bsize\b|\bthick\b|\bwide\b",
    ),
    Question(
        "material",
        (_words("made|material"), A_POST | _words("it")),
        _words("made|material|out") | A_POST,
    ),
    Question(
        "notes",
        (_words("anything|comments|comment|remarks|remark|notes|note|information|info|else|observations|findings|worth|useful|details"),
         _words("else|other|any|further|additional|know|knowing|add|noting|noticed|saying|mention|important|useful|extra|anything|more|general")),
        _words("anything|comments|comment|remarks|remark|notes|note|information|info|else|observations|findings|worth|useful|details|"
               "other|any|further|additional|know|knowing|add|noting|noticed|saying|mention|mentioning|important|extra|more|general|"
               "should|like|need|need|aware|point|out|may|might|help|relevant|seen|want|think|wish|general|free|text|all|which|not|covered|above|asked")
        | A_POST,
        never=r"\b(?:attached|left on|on it|fixed)\b|^how\b",
    ),
)  # fmt: skip
"""The questions that a form asks about a post, with what their words may be. Source: common practice."""

LEAVES_NOTHING = _words("anything|something|fittings|fixtures|hardware|attachments")
"""With one of these words a `no` says that the post is bare."""

EXAMPLES = (
    r"\s*[(\[,–-]\s*(?:e\.? ?g\b|for example|such as|i\.? ?e\b|eg\b|ex\b)[^)\]]*[)\]]?|"
    r"\s*[(\[](?:see|as (?:shown|painted|marked|numbered|on|per|you face|it stands)|from the (?:\w+ )?(?:plan|map|list|register|drawing)|left or right|"
    r"optional|please|use|write|give|state|tick|choose|select|looking)\b[^)\]]*[)\]]|\s*[(\[][^)\]]*(?:\betc\b|\.\.\.|…)[^)\]]*[)\]]|"
    r"\s*[(\[](?:(?:north|south|east|west|left|right|front|back|near|far|home|away|top|bottom|[nsewlr]|[a-d]|[1-4])\b(?:[\s,/]|\bor\b|\band\b|\bend\b)*){2,}[)\]]"
)
"""An example or an advice behind a question, as a pattern."""
