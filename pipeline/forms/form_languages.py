"""Prose of the survey form in each language: titles, captions, what to look at on site, the caution."""

from __future__ import annotations

from dataclasses import dataclass

from schemas.words import CAUTION, ON_SITE_CHECKS


@dataclass(frozen=True)
class Prose:
    """The form's own words in one language; `checks` are the on-site checks in the order of schemas.words."""

    sheets: tuple[str, str, str]
    title: str
    rows: str
    needed: str
    if_known: str
    blank: str
    example: tuple[str, str]
    heads: tuple[str, str, str, str, str]
    measure: tuple[str, str]
    look: str
    captions: tuple[str, str, str, str, str, str]
    checks: tuple[tuple[str, str], ...]
    caution: str


PROSE: dict[str, Prose] = {
    "en": Prose(
        ("Survey", "Example", "What to measure"),
        "Survey of standing posts",
        "One row for each post, or for a number of posts that are alike in everything. Amber columns are needed.",
        "needed", "if known", "(blank)",
        ("A worked example: the row of one post, told column by column", "Nothing on this sheet is read. Type on the sheet Survey."),
        ("What it is called", "Whether needed", "For example", "What it means", "Choose one of"),
        ("What to measure, and where", "Seen from the side. Drawn to scale: a post of 8 ft 6 in, 3 1/2 in across."),
        "Look at this on site as well",
        ("playing surface", "ground at the post", "new board and ring (pale)", "end line", "top of the post", "1 metre"),
        ON_SITE_CHECKS, CAUTION,
    ),
    "es": Prose(
        ("Survey", "Ejemplo", "Qué medir"),
        "Levantamiento de postes existentes",
        "Una fila por poste, o por varios postes iguales en todo. Las columnas en ámbar son necesarias.",
        "necesario", "si se conoce", "(en blanco)",
        ("Un ejemplo: la fila de un poste, contada columna por columna", "Nada de esta hoja se lee. Escriba en la hoja Survey."),
        ("Cómo se llama", "Si es necesario", "Por ejemplo", "Qué significa", "Elija uno de"),
        ("Qué medir, y dónde", "Visto de lado, a escala: un poste de 2,59 m, de 89 mm de diámetro."),
        "Mire también esto en el lugar",
        ("superficie de juego", "suelo junto al poste", "tablero y aro nuevos (claros)", "línea de fondo", "punta del poste", "1 metro"),
        (
            ("Poste a ras de suelo", "Golpee y mire a ras de suelo y bajo los collarines: ahí fallan los postes viejos."),
            ("Cimiento", "Empuje el poste y mire el cimiento."),
            ("Medida del poste", "Tome dos lecturas de calibre en ángulo recto donde van las abrazaderas."),
            ("Niveles", "Tome el nivel bajo el aro, no junto al poste: 1 % de caída en 1,2 m son 12 mm."),
            ("Punta del poste", "Antes de una extensión: ¿la punta está abierta o rellena?"),
            ("Postes cuadrados", "¿La cara del poste mira a la cancha?"),
            ("Arriba", "Busque cables aéreos, árboles y luces."),
            ("Luz o cable", "Una luz o un cable en el poste: pare y pregunte."),
            ("Superficie", "¿Se va a renovar el piso? La altura del aro cambia con él."),
            ("Pintura vieja", "Compruebe si hay plomo antes de quitarla."),
            ("Zona libre", "Deje 2 m libres más allá de las líneas (FIBA)."),
            ("Acceso", "¿Hay sitio para una plataforma? El vidrio pide dos personas y una plataforma."),
            ("Tapa", "Tape el poste."),
            ("Después", "Reapriete a las pocas semanas y mire luego cada año."),
        ),
        "Esto es una revisión aproximada y no un cálculo. Ninguna norma publicada cubre un tablero nuevo en un poste viejo. Antes de "
        "pedir o montar nada, haga revisar las cargas, el poste y su cimiento según el código local por un ingeniero habilitado.",
    ),
    "fr": Prose(
        ("Survey", "Exemple", "Quoi mesurer"),
        "Relevé de poteaux existants",
        "Une ligne par poteau, ou pour plusieurs poteaux pareils en tout. Les colonnes ambre sont nécessaires.",
        "nécessaire", "si connu", "(vide)",
        ("Un exemple : la ligne d'un poteau, colonne par colonne", "Rien n'est lu sur cette feuille. Écrivez sur la feuille Survey."),
        ("Son nom", "Nécessaire ou non", "Par exemple", "Ce que cela veut dire", "Choisir parmi"),
        ("Quoi mesurer, et où", "Vu de côté, à l'échelle : un poteau de 2,59 m, de 89 mm de diamètre."),
        "À regarder aussi sur place",
        ("surface de jeu", "sol au pied du poteau", "panneau et anneau neufs (pâles)", "ligne de fond", "sommet du poteau", "1 mètre"),
        (
            ("Poteau au ras du sol", "Frappez et regardez au ras du sol et sous les colliers : c'est là que cèdent les vieux poteaux."),
            ("Massif", "Poussez le poteau et regardez le massif."),
            ("Dimension du poteau", "Deux mesures au pied à coulisse à angle droit, là où vont les colliers."),
            ("Niveaux", "Prenez le niveau sous l'anneau, pas au poteau : 1 % de pente sur 1,2 m font 12 mm."),
            ("Sommet", "Avant une rallonge : le sommet est-il ouvert ou rempli ?"),
            ("Poteaux carrés", "La face du poteau regarde-t-elle le terrain ?"),
            ("En hauteur", "Cherchez lignes aériennes, arbres et éclairages."),
            ("Lampe ou câble", "Une lampe ou un câble sur le poteau : arrêtez et demandez."),
            ("Sol du terrain", "Le sol sera-t-il refait ? La hauteur de l'anneau en dépend."),
            ("Vieille peinture", "Cherchez du plomb avant de décaper."),
            ("Dégagement", "Gardez 2 m libres au-delà des lignes (FIBA)."),
            ("Accès", "Y a-t-il la place pour une nacelle ? Le verre demande deux personnes et une nacelle."),
            ("Bouchon", "Bouchez le poteau."),
            ("Ensuite", "Resserrez après quelques semaines, puis regardez chaque année."),
        ),
        "Ceci est un tri grossier et non un calcul. Aucune norme publiée ne couvre un panneau neuf sur un vieux poteau. Avant de "
        "commander ou de monter quoi que ce soit, faites vérifier les charges, le poteau et son massif selon les règles locales par un "
        "ingénieur agréé.",
    ),
    "de": Prose(
        ("Survey", "Beispiel", "Was messen"),
        "Aufnahme stehender Masten",
        "Eine Zeile je Mast, oder für mehrere Masten, die in allem gleich sind. Gelbe Spalten sind nötig.",
        "nötig", "wenn bekannt", "(leer)",
        ("Ein Beispiel: die Zeile eines Mastes, Spalte für Spalte", "Auf diesem Blatt wird nichts gelesen. Schreiben Sie auf das Blatt Survey."),
        ("Wie es heißt", "Ob nötig", "Zum Beispiel", "Was es heißt", "Eines davon"),
        ("Was zu messen ist, und wo", "Von der Seite, im Maßstab: ein Mast von 2,59 m, 89 mm im Durchmesser."),
        "Auch das vor Ort ansehen",
        ("Spielfläche", "Boden am Mast", "neues Brett und Ring (blass)", "Endlinie", "Spitze des Mastes", "1 Meter"),
        (
            ("Mast am Boden", "Klopfen und nachsehen, am Boden und unter Schellen: dort brechen alte Masten."),
            ("Fundament", "Am Mast drücken und auf das Fundament achten."),
            ("Mastmaß", "Zweimal mit dem Messschieber, im rechten Winkel, wo die Schellen sitzen."),
            ("Höhenlage", "Unter dem Ring nivellieren, nicht am Mast: 1 % Gefälle auf 1,2 m sind 12 mm."),
            ("Mastspitze", "Vor einer Verlängerung: ist die Spitze offen oder gefüllt?"),
            ("Quadratische Masten", "Zeigt die Seite des Mastes zum Platz?"),
            ("Oben", "Nach Freileitungen, Bäumen und Leuchten sehen."),
            ("Leuchte oder Kabel", "Eine Leuchte oder ein Kabel am Mast: anhalten und fragen."),
            ("Belag", "Wird der Belag erneuert? Die Ringhöhe ändert sich damit."),
            ("Alte Farbe", "Vor dem Abnehmen auf Blei prüfen."),
            ("Auslauf", "2 m hinter den Linien frei halten (FIBA)."),
            ("Zugang", "Ist Platz für eine Hebebühne? Glas braucht zwei Leute und eine Hebebühne."),
            ("Kappe", "Den Mast verschließen."),
            ("Danach", "Nach einigen Wochen nachziehen, dann jedes Jahr nachsehen."),
        ),
        "Dies ist eine grobe Durchsicht und keine Bemessung. Keine veröffentlichte Norm deckt ein neues Brett an einem alten Mast. Bevor "
        "etwas bestellt oder montiert wird, lassen Sie Lasten, Mast und Fundament nach den örtlichen Vorschriften von einem zugelassenen "
        "Ingenieur prüfen.",
    ),
    "pt": Prose(
        ("Survey", "Exemplo", "O que medir"),
        "Levantamento de postes existentes",
        "Uma linha por poste, ou para vários postes iguais em tudo. As colunas em âmbar são necessárias.",
        "necessário", "se conhecido", "(em branco)",
        ("Um exemplo: a linha de um poste, coluna por coluna", "Nada desta folha é lido. Escreva na folha Survey."),
        ("Como se chama", "Se é necessário", "Por exemplo", "O que significa", "Escolha um de"),
        ("O que medir, e onde", "Visto de lado, em escala: um poste de 2,59 m, de 89 mm de diâmetro."),
        "Olhe também isto no local",
        ("piso de jogo", "solo junto ao poste", "tabela e aro novos (claros)", "linha de fundo", "topo do poste", "1 metro"),
        (
            ("Poste rente ao solo", "Bata e olhe rente ao solo e sob as braçadeiras: é aí que falham os postes velhos."),
            ("Sapata", "Empurre o poste e olhe a sapata."),
            ("Medida do poste", "Duas leituras de paquímetro em ângulo reto, onde vão as abraçadeiras."),
            ("Níveis", "Tire o nível sob o aro, não no poste: 1 % de queda em 1,2 m são 12 mm."),
            ("Topo do poste", "Antes de uma extensão: o topo está aberto ou cheio?"),
            ("Postes quadrados", "A face do poste olha para a quadra?"),
            ("No alto", "Procure linhas aéreas, árvores e luzes."),
            ("Luz ou cabo", "Uma luz ou um cabo no poste: pare e pergunte."),
            ("Piso", "O piso será refeito? A altura do aro muda com ele."),
            ("Tinta velha", "Verifique se há chumbo antes de remover."),
            ("Área livre", "Deixe 2 m livres além das linhas (FIBA)."),
            ("Acesso", "Há espaço para uma plataforma? O vidro pede duas pessoas e uma plataforma."),
            ("Tampa", "Tampe o poste."),
            ("Depois", "Reaperte depois de algumas semanas e olhe depois todo ano."),
        ),
        "Isto é uma triagem aproximada e não um cálculo. Nenhuma norma publicada cobre uma tabela nova num poste velho. Antes de pedir ou "
        "montar qualquer coisa, mande verificar as cargas, o poste e a sapata segundo as normas locais por um engenheiro habilitado.",
    ),
    "it": Prose(
        ("Survey", "Esempio", "Che cosa misurare"),
        "Rilievo di pali esistenti",
        "Una riga per palo, o per più pali uguali in tutto. Le colonne ambra sono necessarie.",
        "necessario", "se noto", "(vuoto)",
        ("Un esempio: la riga di un palo, colonna per colonna", "Nulla di questo foglio viene letto. Scrivere sul foglio Survey."),
        ("Come si chiama", "Se necessario", "Per esempio", "Che cosa significa", "Scegliere tra"),
        ("Che cosa misurare, e dove", "Visto di lato, in scala: un palo di 2,59 m, di 89 mm di diametro."),
        "Guardare anche questo sul posto",
        ("piano di gioco", "suolo accanto al palo", "tabellone e anello nuovi (chiari)", "linea di fondo", "cima del palo", "1 metro"),
        (
            ("Palo a filo del suolo", "Battere e guardare a filo del suolo e sotto i collari: lì cedono i vecchi pali."),
            ("Plinto", "Spingere il palo e guardare il plinto."),
            ("Misura del palo", "Due letture di calibro ad angolo retto, dove vanno le fascette."),
            ("Livelli", "Prendere il livello sotto l'anello, non al palo: l'1 % di pendenza su 1,2 m sono 12 mm."),
            ("Cima del palo", "Prima di una prolunga: la cima è aperta o piena?"),
            ("Pali quadrati", "La faccia del palo guarda il campo?"),
            ("In alto", "Cercare linee aeree, alberi e luci."),
            ("Luce o cavo", "Una luce o un cavo sul palo: fermarsi e chiedere."),
            ("Superficie", "Il campo sarà rifatto? L'altezza dell'anello cambia con esso."),
            ("Vecchia vernice", "Cercare il piombo prima di toglierla."),
            ("Spazio libero", "Tenere 2 m liberi oltre le linee (FIBA)."),
            ("Accesso", "C'è posto per una piattaforma? Il vetro vuole due persone e una piattaforma."),
            ("Tappo", "Chiudere il palo."),
            ("Dopo", "Riserrare dopo qualche settimana, poi guardare ogni anno."),
        ),
        "Questo è un vaglio approssimato e non un calcolo. Nessuna norma pubblicata copre un tabellone nuovo su un vecchio palo. Prima di "
        "ordinare o montare qualsiasi cosa, far verificare i carichi, il palo e il plinto secondo le norme locali da un ingegnere abilitato.",
    ),
}  # fmt: skip
"""By code of the language."""
