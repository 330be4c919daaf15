"""What every chain is written with: sums of products, load cases put together, shares of an allowable."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from engine.common.calculation import STATICS, CalculationStep, Reference, Term
from engine.common.combination import Combination
from engine.units import FOOT, POUND_FORCE

MAX_PRODUCTS_SHOWN = 8
"""So many products of a sum are shown; the smaller ones are summed up as "others"."""


@dataclass(frozen=True)
class Product:
    """A factor and what it multiplies, by their letters."""

    by: str
    factor: Term
    letter: str
    value: Term

    @property
    def size(self) -> float:
        """What it comes to."""
        return self.factor.value * self.value.value


def pounds(newtons: float) -> Term:
    """A force as equations show it."""
    return Term(float(newtons) / POUND_FORCE, "lb")


def foot_pounds(newton_metres: float) -> Term:
    """A moment as equations show it."""
    return Term(float(newton_metres) / (FOOT * POUND_FORCE), "lb ft")


def products_of(by: str, factors: Iterable[float], unit: str, letter: str, forces: Iterable[float]) -> list[Product]:
    """Factors, in their unit, times forces [N], pair by pair."""
    return [
        Product(by, Term(float(factor), unit), letter, pounds(force))
        for factor, force in zip(factors, forces, strict=True)
    ]


def sum_of(
    symbol: str,
    meaning: str,
    result: Term,
    products: Iterable[Product],
    more: Mapping[str, Term] = MappingProxyType({}),
) -> CalculationStep:
    """Products summed, the largest first, then what is added as it stands."""
    ordered = sorted(products, key=lambda product: -abs(product.size))
    shown, others = ordered[:MAX_PRODUCTS_SHOWN], ordered[MAX_PRODUCTS_SHOWN:]
    terms: dict[str, Term] = {}
    for number, product in enumerate(shown, 1):
        terms |= {f"{product.by}{number}": product.factor, f"{product.letter}{number}": product.value}
    parts = _products(terms)
    if others:
        terms["others"] = Term(sum(product.size for product in others), result.unit)
        parts.append("others")
    return CalculationStep(symbol, meaning, result, " + ".join([*parts, *more]) or "0", {**terms, **more}, STATICS)


def combined(
    symbol: str, meaning: str, result: Term, combination: Combination, cases: Mapping[str, float]
) -> CalculationStep:
    """Load cases put together; `cases` are in the result's unit."""
    terms: dict[str, Term] = {}
    for number, (case, factor) in enumerate(combination.factors.items(), 1):
        terms |= {f"f{number}": Term(factor), of_case(symbol, case): Term(cases[case], result.unit)}
    return CalculationStep(
        symbol, f"{meaning} in {combination.name}", result, " + ".join(_products(terms)), terms, STATICS
    )


def _products(terms: Mapping[str, Term]) -> list[str]:
    """Terms that stand in pairs, factor and value, as products."""
    names = list(terms)
    return [f"{first} * {second}" for first, second in zip(names[::2], names[1::2], strict=True)]


def of_case(symbol: str, case: str) -> str:
    """A symbol of one load case, as a name."""
    return f"{symbol}_{named(case)}"


def named(words: str) -> str:
    """Words as a name that an equation may use."""
    return "".join(letter if letter.isalnum() else "_" for letter in words)


def given(symbol: str, meaning: str, value: float, unit: str, reference: Reference = STATICS) -> CalculationStep:
    """A value taken as it stands."""
    return CalculationStep(symbol, meaning, Term(float(value), unit), "", {}, reference)


def used(
    link: str, utilisation: float, equation: str, terms: Mapping[str, Term], words: str = "share that is used"
) -> CalculationStep:
    """The share of an allowable that is used, as the check found it."""
    return CalculationStep(f"u_{link}", words, Term(float(utilisation)), equation, terms, STATICS)
