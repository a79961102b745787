"""What the shop keeps, as typed tables. No rule lives here but those the database itself must hold.

Rows that change carry a version, so that a write based on a stale reading is a conflict and not a lost
update. Rows of `EventRow`, `PaymentRow`, `AgreementVersionRow`, `CeilingQuestionRow`, `PickupRow`,
`HandedBackRow`, `CaptureRow`, `CopyStepRow`, `DrawerCountRow`, `InvoiceRow`, `IncidentRow`,
`PinTryRow`, `SettingsVersionRow`, `SignOffRow`,
`ToldRow`, `HandoverWishRow` and `CommandRow` are never changed or deleted: triggers of the migrations see to
it.
"""

from __future__ import annotations

from core.store.accounting_tables import DrawerCountRow, InvoiceRow
from core.store.calling_tables import HandoverWishRow, ToldRow
from core.store.columns import StoredTable
from core.store.command_tables import CommandAnswerRow, CommandRow
from core.store.copy_tables import CopyRow, CopyStepRow
from core.store.job_tables import (
    AgreementVersionRow,
    CeilingQuestionRow,
    CustomerRow,
    FinishRow,
    HandedBackRow,
    JobRow,
    PaymentRow,
    PickupRow,
    PromiseRow,
)
from core.store.shop_tables import (
    BoxOrderRow,
    ChangeNumberRow,
    CounterRow,
    DayEventRow,
    DeckEventRow,
    DraftRow,
    ErasureRow,
    EventRow,
    PinTryRow,
    SettingsVersionRow,
    ShopMoveRow,
)
from core.store.tape_tables import (
    CaptureRow,
    DonorRow,
    IncidentRow,
    RecordingRow,
    RepairRow,
    SignOffRow,
    SpliceRow,
    TapeRow,
)

__all__ = [
    "AgreementVersionRow",
    "BoxOrderRow",
    "CaptureRow",
    "CeilingQuestionRow",
    "ChangeNumberRow",
    "CommandAnswerRow",
    "CommandRow",
    "CopyRow",
    "CopyStepRow",
    "CounterRow",
    "CustomerRow",
    "DayEventRow",
    "DeckEventRow",
    "DonorRow",
    "DraftRow",
    "DrawerCountRow",
    "ErasureRow",
    "EventRow",
    "FinishRow",
    "HandedBackRow",
    "HandoverWishRow",
    "IncidentRow",
    "InvoiceRow",
    "JobRow",
    "PaymentRow",
    "PickupRow",
    "PinTryRow",
    "PromiseRow",
    "RecordingRow",
    "RepairRow",
    "SettingsVersionRow",
    "ShopMoveRow",
    "SignOffRow",
    "SpliceRow",
    "StoredTable",
    "TapeRow",
    "ToldRow",
]
