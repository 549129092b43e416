"""Papers written by hand: the invented demo crew's, and awkward ones. Figures here are for layout, not from a model."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from kitlist.base.terms import Polarity
from kitlist.faces.paper.card_document import (
    Bars,
    Blanks,
    Card,
    Face,
    Grid,
    IfThenLine,
    Lines,
    PolarityBanner,
    Step,
)
from kitlist.faces.paper.charts import Chart, ChartBar
from kitlist.faces.paper.document import (
    BankPanel,
    BatteryLine,
    Box,
    Caution,
    Fact,
    GapLine,
    Hookup,
    LeadLine,
    Marks,
    RodLine,
    RodTable,
    Section,
    Sheet,
    SheetItem,
    Signal,
    VerdictBox,
)
from kitlist.faces.paper.form import Form, FormTable
from kitlist.faces.paper.labels import Label, Labels

MARKS = Marks(printed_on=date(2026, 5, 4), revision=4, valid_to=date(2026, 5, 11))

HOOKUP = Hookup(
    strings=(
        (
            Box("Heron main", "1", "70 Ah flooded"),
            Box("Plover main", "2", "80 Ah calcium"),
            Box("Stilt second", "3", "95 Ah AGM"),
        ),
    ),
    polarity=Polarity.DCEP,
)

RODS = RodTable(
    rows=(
        RodLine(steel="2–3 mm", rod="2.5 mm E6013", amps="50–90 A", verdict="too hot"),
        RodLine(steel="3–8 mm", rod="3.2 mm E6013", amps="80–130 A", verdict="hot"),
        RodLine(steel="5–8 mm", rod="3.2 mm E7018", amps="110–160 A", verdict="in range"),
    ),
)

CHART = Chart(
    title="Current of the bank against the rods' ranges",
    summary="Three batteries give 158 to 252 A, over the range of 3.2 mm rods; two give 0 to 120 A.",
    banks=(
        ChartBar(label="Two batteries", low_a=0, best_a=60, high_a=120),
        ChartBar(label="Three, as chosen", low_a=158, best_a=201, high_a=252, chosen=True),
        ChartBar(label="Four batteries", low_a=240, best_a=300, high_a=372),
    ),
    rods=(
        ChartBar(label="2.5 mm E6013", low_a=50, high_a=90),
        ChartBar(label="3.2 mm E6013", low_a=80, high_a=130),
        ChartBar(label="3.2 mm E7018", low_a=110, high_a=160),
    ),
)

CARD = Card(
    kit="Lake survey crew (invented)",
    bank="three in series",
    faces=(
        Face(
            number="1",
            title="Link",
            when="An hour after charging",
            blocks=(
                HOOKUP,
                Step("Open the isolator", see="open"),
                Lines("Meter", ("each link.",)),
                Caution(signal=Signal.DANGER, hazard="Gas explodes.", result="Acid.", avoid="Goggles on."),
                Step("Join HOLDER last"),
                PolarityBanner(Polarity.DCEP),
            ),
            next="Next: 2 Tables",
            wrong="Wrong: 3",
        ),
        Face(
            number="2",
            title="Tables",
            when="When looked up",
            blocks=(
                Grid(title="Rods", headings=("Rod", "This bank"), rows=(("3.2 mm E6013", "HOT"),), notes=("7 mm",)),
                Bars(replace(CHART, banks=CHART.banks[1:2])),
                Blanks(("Watcher", "Last rod at")),
            ),
            next="Next: 3 Wrong",
            wrong="Wrong: 3",
        ),
        Face(
            number="3",
            title="When it goes wrong",
            when="If",
            blocks=(IfThenLine("Rod sticks", "Twist it off."),),
            next="Back to 1",
            back_cover=True,
        ),
    ),
    marks=MARKS,
)

LONG_STEP_CARD = replace(
    CARD,
    faces=(replace(CARD.faces[0], blocks=(Step("Ask whether hot work is allowed at the place where you are"),)),),
)
"""A step of two lines."""

MUST_CARRY = (
    SheetItem(what="Welding helmet, fixed shade 11", see="lens whole, no crack", need="1", have="1"),
    SheetItem(
        what="Link leads, 35 mm²", see="lugs tight, sleeves whole", need="3", have="2", short_by=1, gap_word="short"
    ),
    SheetItem(what="Extinguisher, ABE powder 2.3 kg", see="gauge in green", need="1", have="1", gap_word="out of date"),
    SheetItem(what="Rods 3.2 mm E7018, sealed", see="seal whole", need="10", have="12", changed=True),
)

GAPS = (
    GapLine(severity="stop", what="Link leads: 2 packed, 3 needed (two links and one spare).", do="Pack a third link."),
    GapLine(severity="stop", what="Extinguisher: service date passed on 2026-03-31.", do="Exchange it.", changed=True),
    GapLine(severity="note", what="No clamp meter for 200 A.", do="Pack one."),
)
DEMO_SHEET = Sheet(
    kit="Lake survey crew (invented)",
    trip="Dry lake, nine days",
    verdict=VerdictBox(
        word="not ready",
        meaning="Do not weld with this kit as it is. Whether to travel is the crew's decision.",
        counts=(Fact("stop", "2"), Fact("fix", "3"), Fact("note", "1")),
        reasons=(
            "Stilt main: 12.02 V rested, 45 % under its floor of 75 % below 0 °C",
            "Link leads: 2 packed, 3 needed with one spare",
            "Extinguisher: service date passed on 2026-03-31",
            "Rods E7018: opened 31 h ago, 4 h allowed",
        ),
    ),
    facts=(
        Fact("Dates", "2026-05-06 to 05-14"),
        Fact("Vehicles", "Heron, Plover, Stilt"),
        Fact("Cold, hot", "-6 °C to 31 °C"),
        Fact("From help", "2 days"),
    ),
    bank=BankPanel(
        title="The bank: three in series",
        hookup=HOOKUP,
        battery_headings=("", "Battery", "Rested volts", "At departure", "Read on"),
        batteries=(
            BatteryLine(("1", "Heron main, flooded 70 Ah", "12.61 V", "88–100 %", "2026-05-03")),
            BatteryLine(("2", "Plover main, calcium 80 Ah", "12.70 V", "80–93 %", "2026-05-03")),
            BatteryLine(("3", "Stilt second, AGM 95 Ah", "12.78 V", "94–100 %", "2026-05-03")),
        ),
        facts=(
            Fact("At rest", "38.1 V"),
            Fact("Current, 10 to 90 %", "158–252 A"),
            Fact("Most likely", "201 A"),
            Fact("Stuck rod", "1100 A"),
            Fact("Rods to reserve", "8 of 3.2 mm"),
        ),
        rods=RODS,
        chart=CHART,
        remarks=(
            "Mixed chemistries in one string: the weakest battery governs; charge each alone afterwards.",
            "38 V at rest is over 35 V: not when wet, sweating, or kneeling on steel.",
            "Predicted by computation; no battery was measured while welding. A practice bead narrows the band.",
        ),
    ),
    mend=GAPS,
    gaps=(
        GapLine(
            severity="stop",
            what="Link leads: 2 packed, 3 needed (two links and one spare).",
            do="Pack a third 35 mm² link with lugs for M8 studs.",
        ),
        GapLine(
            severity="stop",
            what="Extinguisher: service date passed on 2026-03-31.",
            do="Exchange it before leaving.",
            changed=True,
        ),
        GapLine(
            severity="fix",
            what="Stilt main: 12.02 V rested 14 h, 45 % charged, floor 75 % below 0 °C.",
            do="Charge it alone by Tuesday, rest it 6 h, read again. Under 12.45 V: leave it at home.",
        ),
        GapLine(
            severity="fix",
            what="Rods 2.5 mm E7018: opened 31 h ago, 4 h allowed out of the can.",
            do="Do not use on load-bearing steel. Pack a sealed can.",
        ),
        GapLine(
            severity="note", what="No clamp meter for 200 A.", do="Pack one to measure the current of a practice bead."
        ),
    ),
    accepted=(
        GapLine(
            severity="fix",
            what="Holder rated 150 A, predicted 158–252 A.",
            do="One rod, then rest as long; feel the handle.",
            accepted="Accepted by Ansa until 2026-05-14: spare holder not to be had in time.",
        ),
    ),
    bags=(
        Section(
            title="Red bag: eyes, face, hands",
            note="Heron, behind the seat",
            items=(
                SheetItem(what="Gauntlets, stick welding", see="dry, no holes", need="2", have="2"),
                SheetItem(what="Safety glasses", see="clear", need="3", have="3"),
                SheetItem(what="Leather apron", see="dry", need="1", have="1"),
                SheetItem(
                    what="Spare helmet lens", see="in its sleeve", need="2", have="1", short_by=1, gap_word="short"
                ),
            ),
        ),
        Section(
            title="Grey crate: current and rods",
            note="Plover, left drawer",
            items=(
                SheetItem(what="Holder lead, 5 m 35 mm²", see="insulation whole", need="1", have="1"),
                SheetItem(what="Work lead with clamp, 5 m", see="jaws bright", need="1", have="1"),
                SheetItem(what="Isolator", see="turns, opens", need="1", have="1"),
                SheetItem(what="Voltmeter", see="reads a known battery", need="1", have="1"),
                SheetItem(what="Rods 3.2 mm E6013", see="covering sharp when tapped", need="20", have="34"),
                SheetItem(what="Chipping hammer, wire brush", see="2 of 2", need="2", have="2"),
            ),
        ),
    ),
    recheck=Section(
        title="Recheck at the door",
        items=tuple(replace(item, need="", have="", short_by=0, gap_word="", changed=False) for item in MUST_CARRY),
    ),
    cautions=(
        "Arc light burns eyes and skin, bystanders' too. Batteries give off explosive gas and hold acid; a short "
        "burns and bursts them. Slag and sparks start fires. Fume harms: stay upwind. "
        "A vehicle without stands crushes.",
        "Look at what lies behind the weld: fuel, brake lines, wiring, airbags. A welded steering or suspension part "
        "only gets you home, at walking pace. Brake parts are never welded.",
    ),
    sources=("29 CFR 1910.133 (read in the source)", "bank and rod figures: common practice"),
    card_hash=CARD.content_hash(),
    changes_since="revision 3 of 2026-04-20",
    marks=MARKS,
)

SMALL_SHEET = replace(
    DEMO_SHEET,
    trip="Weekend, one track",
    verdict=VerdictBox(word="ready", meaning="Nothing known is missing. Check again at the door."),
    bank=BankPanel(
        title="The bank: three in series",
        hookup=HOOKUP,
        facts=DEMO_SHEET.bank.facts if DEMO_SHEET.bank else (),
        rods=replace(RODS, rows=RODS.rows[1:2]),
    ),
    mend=(),
    gaps=(),
    accepted=(),
    bags=(replace(DEMO_SHEET.bags[0], items=DEMO_SHEET.bags[0].items[:3]),),
    recheck=Section(title="Recheck at the door", items=DEMO_SHEET.recheck.items[:2]),
    changes_since="",
)

EMPTY_SHEET = Sheet(
    kit="",
    trip="",
    verdict=VerdictBox(word="not ready", counts=(Fact("stop", "1"),), reasons=("Nothing is recorded.",)),
    bank=BankPanel(title="The bank", none_because="No bank is chosen, and no battery is recorded."),
    marks=Marks(printed_on=date(2026, 5, 4)),
)

CROWDED_SHEET = replace(
    DEMO_SHEET,
    bags=(
        Section(
            title="Everything bag",
            items=tuple(
                SheetItem(
                    what=f"Thing number {number}", see="whole", need="1", have="1", place="lid" if number < 4 else ""
                )
                for number in range(1, 41)
            ),
        ),
    ),
)

HOSTILE = (
    "<script>alert(1)</script><img src='file:///etc/passwd'>",
    "</style><link rel=stylesheet href=file:///etc/passwd>{{ 7*7 }} url(file:///etc/hosts)",
    "\u202egnp.exe abc\u202c \u200bzero\x00\x1b[31m",
    "🔥🧰 fire kit 👩🏽‍🔧",
    "車載用 バッテリー 溶接棒 电焊条 배터리",
    "Ångström Łódź Ḥāfiẓ e\u0301 naïve",
    "W" * 200,
    "long " * 40,
    "a\u0300\u0301\u0302\u0303" * 30,
    "-5 mm and 12 V ≥ 3 Ω ± 2 °C",
)

HOSTILE_SHEET = replace(
    DEMO_SHEET,
    kit=HOSTILE[0],
    trip=HOSTILE[2] + HOSTILE[0],
    verdict=replace(DEMO_SHEET.verdict, reasons=HOSTILE, meaning=HOSTILE[1]),
    facts=tuple(Fact(text, text) for text in HOSTILE[:4]),
    bank=BankPanel(
        title=HOSTILE[6],
        battery_headings=("", "Battery", "Rested volts", "At departure", "Read on"),
        hookup=replace(HOOKUP, strings=(tuple(Box(text, str(n), text) for n, text in enumerate(HOSTILE[3:7], 1)),)),
        batteries=tuple(BatteryLine((str(n), text, text[:12], "", "")) for n, text in enumerate(HOSTILE, 1)),
        rods=RodTable(rows=tuple(RodLine(steel=t, rod=t, amps=t, verdict=t) for t in HOSTILE[:3])),
        chart=replace(CHART, rods=tuple(ChartBar(label=text, low_a=50, high_a=90) for text in HOSTILE)),
        cautions=(Caution(signal=Signal.WARNING, hazard=HOSTILE[0], result=HOSTILE[4], avoid=HOSTILE[7]),),
        remarks=HOSTILE,
    ),
    gaps=tuple(GapLine(severity="fix", what=text, do=text, accepted=text) for text in HOSTILE[4:8]),
    bags=tuple(
        Section(title=text, note=text, items=(SheetItem(what=text, need="1", have="0"),)) for text in HOSTILE[:3]
    ),
    cautions=HOSTILE,
    changes_since=HOSTILE[6],
)

PARALLEL_HOOKUP = Hookup(
    strings=(
        (Box("Heron main", "1"), Box("Plover main", "2")),
        (Box("Stilt main", "3"), Box("Stilt second", "4")),
    ),
    polarity=Polarity.DCEN,
    opening_in=LeadLine.WORK,
)

BAG_LABELS = tuple(
    Label(title=bag.title, note=bag.note, items=bag.items) for bag in (*DEMO_SHEET.bags, *CROWDED_SHEET.bags)
)
ROD_LABEL = Label(
    title="3.2 mm E7018",
    polarity=Polarity.DCEP,
    facts=(Fact("Opened on", "2026-05-03"), Fact("Out of the can", "4 h at most"), Fact("Baked", "never")),
    blanks=("Opened again", "Baked on"),
)
LABELS = Labels(kit="Lake survey crew (invented)", labels=(*BAG_LABELS, ROD_LABEL), marks=MARKS)
HOSTILE_LABELS = Labels(
    kit=HOSTILE[0],
    labels=tuple(
        Label(title=text, note=text, items=(SheetItem(what=text, need="2", have="1", short_by=1, gap_word="short"),))
        for text in HOSTILE
    ),
    marks=MARKS,
)
FORM = Form(
    kit="Lake survey crew (invented)",
    trip="Dry lake, nine days",
    tables=(
        FormTable(
            title="Volts, all loads off",
            blanks=("Date and time", "Rested how long, h", "Battery temperature, °C"),
            headings=("Battery", "Volts, V", "On load at, A", "Remarks"),
            rows=tuple((box.name,) for box in HOOKUP.boxes),
            blank_rows=2,
        ),
        FormTable(
            title="Practice beads",
            note="Clear of the batteries, helmet down; one reads the meters, one welds.",
            headings=("Bank", "Rod", "Rest, V", "Bank welding, V", "Amps, A", "Holder, V"),
            blank_rows=6,
        ),
    ),
    marks=MARKS,
)
