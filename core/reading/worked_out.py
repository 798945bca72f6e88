"""What a story leaves to be worked out before its question is plain: each sum done once, and kept to be shown."""

from __future__ import annotations

from core.reading.bare_weights import take_bare_weights
from core.reading.blend_told import take_blend
from core.reading.corrected import take_back, take_forgotten, take_instead
from core.reading.inside import take_inside
from core.reading.joined import take_joined
from core.reading.marks import Scan
from core.reading.netted import netted
from core.reading.relative import take_relations
from core.reading.remainder import take_addition, take_portion, take_poured, take_remainder
from core.reading.rest_wax import take_rest, take_rest_of_waxes
from core.reading.roles import assign
from core.reading.samples import take_counting, take_samples, take_such
from core.reading.tally import take_tally
from core.reading.unscented import take_unscented
from core.reading.weights import take_fractions


def worked_out(scan: Scan) -> Scan:
    """The scan with the sums of its story done, what each amount is of told, and the sums in `workings`."""
    if len(scan.found) > 1 or scan.kind("mass"):
        take_back(scan)
        take_bare_weights(scan)
    assign(scan)
    take_rest(scan)
    if len(scan.found) > 1:
        take_forgotten(scan)
        take_instead(scan)
        scan = netted(scan)
        take_rest_of_waxes(scan)
        take_inside(scan)
        take_blend(scan)
        take_unscented(scan)
        take_poured(scan)
        take_addition(scan)
        take_samples(scan)
        take_such(scan)
        take_counting(scan)
        take_remainder(scan)
        take_tally(scan)
        take_joined(scan)
    take_portion(scan)
    take_fractions(scan.found, scan.marks)
    take_relations(scan)
    return scan
