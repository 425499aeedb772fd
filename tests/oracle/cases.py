"""All hand-made cases, in one list."""

from tests.oracle.cases_asked import FORMS, GIVEN, TIMERS
from tests.oracle.cases_vehicle import HARNESS, POWER, SETTLING
from tests.oracle.written import Case

CASES: list[Case] = [*TIMERS, *POWER, *HARNESS, *SETTLING, *FORMS, *GIVEN]

__all__ = ["CASES", "Case"]
