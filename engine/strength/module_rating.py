"""The module maker's rating, as a test load or as a design load."""

from __future__ import annotations

from typing import Annotated, ClassVar

from pydantic import Field, model_validator
from pydantic_core import PydanticCustomError

from engine.common.calculation import Confidence, Reference
from engine.schema import InputTable, Quantity
from engine.strength.base import FailureMode

TEST_FACTOR = 1.5
IEC_61215 = Reference("IEC 61215-2", "2021", "MQT 16", Confidence.SEVERAL)

Pressure = Quantity("pressure", "1 psf", "1000 psf")


class ModuleRating(InputTable):
    """`{ test = "2400 Pa" }` or `{ design = "1600 Pa" }`; data sheets often print the test load."""

    one_line: ClassVar[bool] = True
    test: Annotated[float, Pressure] | None = Field(None, description="test load of the module")
    design: Annotated[float, Pressure] | None = Field(None, description="design load of the module")

    @model_validator(mode="after")
    def one_of_two(self) -> ModuleRating:
        """Refuse a rating with neither or both of the two."""
        if (self.test is None) == (self.design is None):
            raise PydanticCustomError(
                "loadpath", "give exactly one of 'test' and 'design', such as { test = \"2400 Pa\" }"
            )
        return self

    def mode(self) -> FailureMode:
        """The rating as a failure mode [Pa]: test load = 1.5 x design load."""
        nominal = self.test if self.test is not None else (self.design or 0.0) * TEST_FACTOR
        return FailureMode("module rating", nominal, TEST_FACTOR, IEC_61215, unit="psf", partial_factor=TEST_FACTOR)
