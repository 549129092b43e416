"""What a practice bead taught, in the form that the band takes it."""

from __future__ import annotations

from dataclasses import dataclass, replace

from kitlist.base.span import Span


@dataclass(frozen=True, slots=True, kw_only=True)
class Learned:
    """The meter readings of a bead, each with its meter's accuracy; None where it was not read or no longer holds.

    `drop_v` is rest volts less bank volts; `lead_drop_v` bank volts less holder volts; `arc_v` the volts at the
    holder, or at the bank where `at_holder` is False and the leads' drop has still to come off. `scale_ratio` brings
    the bead's source resistance to another temperature or charge.
    """

    current_a: Span
    in_series: int
    in_parallel: int = 1
    drop_v: Span | None = None
    lead_drop_v: Span | None = None
    arc_v: Span | None = None
    at_holder: bool = True
    scale_ratio: float = 1.0

    def with_other_leads(self) -> Learned:
        """What still holds with other leads: the batteries, and the arc if its volts were read at the holder."""
        return replace(self, lead_drop_v=None, arc_v=self.arc_v if self.at_holder else None)
