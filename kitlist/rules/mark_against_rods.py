"""mark-against-rods: holder and work lead marked for the polarity that the packed rods do not run on."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import Source, Tag
from kitlist.base.terms import LeadUse, Mark, Polarity
from kitlist.outlook.hardware import allowed_polarities, one_polarity, polarity_not_said
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.rules.packing import listed

_OTHER = {Mark.PLUS: Mark.MINUS, Mark.MINUS: Mark.PLUS}


def check(case: Case) -> Iterator[Gap]:
    """One gap that sets how the rods run against how the two arc leads are marked."""
    allowed = allowed_polarities(case.outlook.rods)
    if not allowed or (len(allowed) > 1 and polarity_not_said(case.outlook.rods)):
        return  # rods-missing, rod-polarity-not-known or rods-of-two-polarities says what to do
    polarity = one_polarity(case.outlook.rods)
    holder = Mark.PLUS if polarity is Polarity.DCEP else Mark.MINUS
    needed = {LeadUse.HOLDER: holder, LeadUse.WORK: _OTHER[holder]}
    wrong = [
        lead for lead in case.kit.leads if lead.count > 0 and lead.mark is _OTHER.get(needed.get(lead.use, Mark.NONE))
    ]
    if wrong:
        marked = listed([f"{lead.name} is marked {lead.mark}" for lead in wrong])
        yield Gap(
            subject=wrong[0].name,
            what=f"The rods need {polarity.words}, but {marked}",
            remedy="Mark the holder lead and the work lead as the rods run; DCEP is HOLDER TO +, never the work.",
            command=f"kitlist lead edit {quoted(wrong[0].name)} mark=MARK",
            measured=len(wrong),
            required=0,
            unit="leads marked wrong",
        )


RULE = Rule(
    name="mark-against-rods",
    title="Leads marked for the other polarity",
    severity=Severity.FIX,
    doing=Doing.MEND,
    why=(
        "Some wire the work to + and call that DCEP. It is the holder that is the electrode: on the wrong pole a "
        "low-hydrogen rod spatters, sticks and does not melt in."
    ),
    remedy="The electrode is in the holder: DCEP is HOLDER TO +, WORK CLAMP TO −; DCEN the other way round.",
    sources=(Source(Tag.MEMORY, "AWS A3.0, electrode positive"),),
    check=check,
    good=lambda: example.with_lead("holder lead", mark=Mark.PLUS),
    bad=lambda: example.with_lead("holder lead", mark=Mark.MINUS),
)
