"""Everything that can go wrong in a way a person should hear about.

    StockroomError                     (never raised itself)
    ├── Refused                  1     a rule of the stockroom forbids it; nothing was changed
    │   ├── Short                1     not enough on the shelf; carries what is short
    │   ├── PlanChanged          1     the shelf changed since the plan was confirmed; carries the new plan
    │   └── AlreadyExists        1     a name, key or file is taken
    ├── BadInput                 2     what was typed or handed over cannot be used
    │   ├── Unreadable           2     a quantity, date, strength or code could not be read
    │   └── NotFound             2     no such material, lot, job, recipe …
    └── DatabaseUnusable         3     the file is missing, foreign, newer, damaged or busy

Each class owns its exit code and a `kind`, the word that `--json` prints. The message says what happened and what
the person can do next; `details` holds the same facts for programs, such as the `answer` that was wrong.
"""

from __future__ import annotations

from enum import IntEnum
from typing import Any, ClassVar


class ExitCode(IntEnum):
    """What the process tells its caller."""

    DONE = 0
    REFUSED = 1
    BAD_INPUT = 2
    DATABASE_UNUSABLE = 3
    INTERRUPTED = 130


class StockroomError(Exception):
    """Something a person should be told; never a bug."""

    exit_code: ClassVar[ExitCode] = ExitCode.REFUSED
    kind: ClassVar[str] = "error"

    def __init__(self, message: str, **details: Any) -> None:
        super().__init__(message)
        self.message = message
        self.details = details


class Refused(StockroomError):
    """A rule forbids it. Nothing was changed."""

    kind = "refused"


class Short(Refused):
    """There is not enough on the shelf. `details["short"]` lists material, needed, available, unit."""

    kind = "short"


class PlanChanged(Refused):
    """The shelf changed after the plan was confirmed. Nothing was booked; `plan` is the new plan."""

    kind = "plan-changed"

    def __init__(self, message: str, plan: object, **details: Any) -> None:
        super().__init__(message, **details)
        self.plan = plan


class AlreadyExists(Refused):
    """A name, key, code or file is already taken."""

    kind = "already-exists"


class BadInput(StockroomError):
    """What was typed or handed over cannot be used."""

    exit_code = ExitCode.BAD_INPUT
    kind = "bad-input"


class Unreadable(BadInput):
    """A typed quantity, date, strength or code could not be read. `details["readings"]` lists possible meanings."""

    kind = "unreadable"


class NotFound(BadInput):
    """Nothing in this stockroom has that name or code."""

    kind = "not-found"


class DatabaseUnusable(StockroomError):
    """The database file is missing, foreign, newer, damaged or held by another window."""

    exit_code = ExitCode.DATABASE_UNUSABLE
    kind = "database-unusable"
