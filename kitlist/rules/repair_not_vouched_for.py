"""repair-not-vouched-for: a part that no table knows, or that is only welded when somebody who knows it allows it."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.noted import answer
from kitlist.base.sources import PRACTICE, Source, Tag
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.welding.repairs.parts import RepairClass


def check(case: Case) -> Iterator[Gap]:
    """A gap for each such repair of which nobody who knows has said that it may be welded."""
    for outlook in case.outlook.repairs:
        repair, part = outlook.repair, outlook.part
        if answer(repair.allowed_by) or (part is not None and (not part.ask or _never(part.repair_class))):
            continue
        why = f"no part is known as {repair.part!r}" if part is None else f"{part.name}: {part.rule}"
        yield Gap(
            subject=repair.name,
            what=f"{repair.name} may be a part that must not be welded: {why}",
            remedy="Take it off the list until somebody who knows the part has said that it may be welded; then write "
            "down who. Measuring it does not make it weldable.",
            command=f"kitlist repair edit {quoted(repair.name)} allowed-by=NAME",
            known=part is not None,
        )


def _never(found: RepairClass) -> bool:
    return found is RepairClass.NEVER


RULE = Rule(
    name="repair-not-vouched-for",
    title="A part that nobody who knows it has allowed",
    severity=Severity.FIX,
    doing=Doing.ASK,
    why="Restraint, towing, lifting, steering and braking parts look like brackets, and kill when the weld lets go.",
    remedy="A spare part, or the word of somebody who knows it.",
    sources=(Source(Tag.READ, "US Army subcourse OD1651 p. 13, 16"), PRACTICE),
    check=check,
    good=lambda: example.with_repair(part="gizmo", allowed_by="Ada, welding engineer"),
    bad=lambda: example.with_repair(part="gizmo"),
)
