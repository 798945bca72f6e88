"""Every question there is. Adding one means adding its class here; commands, help and JSON follow."""

from __future__ import annotations

from core.question import Question
from core.questions.batch import BatchQuestion
from core.questions.blend import BlendQuestion
from core.questions.buying import BuyingQuestion
from core.questions.convert import CompareMeasuresQuestion, ConvertQuestion
from core.questions.cost import CostQuestion
from core.questions.density import DensityQuestion
from core.questions.drops import DropsQuestion
from core.questions.example import ExampleQuestion
from core.questions.formulas import CompareFormulas, FormulaQuestion
from core.questions.label import LabelQuestion
from core.questions.lesson import LessonQuestion
from core.questions.load import LoadQuestion
from core.questions.lot import LotQuestion
from core.questions.parcel import ParcelQuestion
from core.questions.practice import PracticeQuestion
from core.questions.rescue import RescueQuestion
from core.questions.room import RoomQuestion
from core.questions.scale import ScaleQuestion
from core.questions.shelf import ShelfQuestion
from core.questions.stock import StockQuestion
from core.questions.tare import TareQuestion
from core.questions.vessel import VesselQuestion
from core.questions.volume import VolumeQuestion

QUESTIONS: tuple[type[Question], ...] = (
    LoadQuestion,
    VolumeQuestion,
    DensityQuestion,
    RoomQuestion,
    DropsQuestion,
    ConvertQuestion,
    CompareMeasuresQuestion,
    ScaleQuestion,
    TareQuestion,
    VesselQuestion,
    BatchQuestion,
    StockQuestion,
    RescueQuestion,
    BlendQuestion,
    BuyingQuestion,
    LabelQuestion,
    ParcelQuestion,
    LotQuestion,
    CostQuestion,
    FormulaQuestion,
    CompareFormulas,
    ShelfQuestion,
    LessonQuestion,
    ExampleQuestion,
    PracticeQuestion,
)

BY_COMMAND: dict[str, type[Question]] = {kind.command: kind for kind in QUESTIONS}
