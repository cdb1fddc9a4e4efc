"""Every problem code there is, in its group and by its name."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from binder.problem_codes.meaning import MEANING
from binder.problem_codes.plan import PLAN
from binder.problem_codes.reading import READING
from binder.problem_codes.record import ProblemCode
from binder.problem_codes.warned import WARNINGS

GROUPS: Mapping[str, tuple[ProblemCode, ...]] = MappingProxyType(
    {
        "Errors: what is written cannot be read": READING,
        "Errors: a name leads nowhere, or to two things": MEANING,
        "Errors: the week as planned would not do": PLAN,
        "Warnings: the week can be made, but look at this": WARNINGS,
    }
)
BY_NAME: Mapping[str, ProblemCode] = MappingProxyType({one.name: one for group in GROUPS.values() for one in group})
