"""Taking a gap on: which gaps of a rule fire now, whether they may be accepted, and the record of it."""

from __future__ import annotations

from datetime import date

from kitlist.base import names
from kitlist.base.errors import BadData, NotFound
from kitlist.kit import Acceptance
from kitlist.readiness import Readiness
from kitlist.rules import RULES

LONGEST_NAME = 120


def acceptances(
    readiness: Readiness, rule: str, *, by: str, reason: str, until: date, subject: str = ""
) -> tuple[Acceptance, ...]:
    """An acceptance for each gap of a rule that fires now, also for those accepted before; of one `subject` alone where
    that is named, by any unambiguous start.

    Raises BadData for a rule that may never be accepted, a gap that was not checked, an end that is past, or a name or
    reason left empty; NotFound where the rule finds no gap.
    """
    if not next(r for r in RULES if r.name == rule).acceptable:
        raise BadData(f"{rule} can never be accepted", hint=f"kitlist why {rule}")
    if until < readiness.on:
        raise BadData(f"until {until}: that day is past", hint="Give the last day on which it holds.")
    if not by.strip() or not reason.strip():
        raise BadData("an acceptance needs a name and a reason", hint='--by NAME --reason "WHY"')
    gaps = [gap for gap in (*readiness.gaps, *readiness.accepted) if gap.rule == rule]
    if not gaps:
        raise NotFound(f"{rule} finds no gap for {readiness.trip.name}", hint="kitlist ready shows what does.")
    if subject:
        meant = names.resolve(subject, dict.fromkeys(gap.subject for gap in gaps), what=f"gap of {rule}")
        gaps = [gap for gap in gaps if gap.subject == meant]
    if any(not gap.checked for gap in gaps):
        raise BadData(f"{rule} could not be checked, and what was not checked is not accepted")
    return tuple(
        Acceptance(
            name=f"{rule}: {gap.subject} ({readiness.trip.name})"[:LONGEST_NAME],
            rule=rule,
            subject=gap.subject[:LONGEST_NAME],
            severity=str(gap.weight),
            trip=readiness.trip.name,
            accepted_by=by.strip(),
            reason=reason.strip(),
            accepted_on=readiness.on,
            until=until,
            short_by=gap.short_by,
        )
        for gap in gaps
    )
