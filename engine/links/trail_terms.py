"""Building blocks of calculation trails: sums of products, load combinations, utilisations."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from engine.common.calculation import STATICS, CalculationStep, Reference, Term
from engine.common.combination import Combination
from engine.units import FOOT, POUND_FORCE

MAX_PRODUCTS_SHOWN = 8
"""Products of a sum that are written out; smaller ones are added up as "others", or a page would not hold them."""


NEGLIGIBLE = 1e-13
"""Part of the largest product below which one is rounding: elsewhere the sum would differ in digits that count."""


@dataclass(frozen=True)
class Product:
    """A coefficient times a quantity, each with the letter that equations use for it."""

    coefficient_letter: str
    coefficient: Term
    quantity_letter: str
    quantity: Term

    @property
    def value(self) -> float:
        """The product, in the units of its terms."""
        return self.coefficient.value * self.quantity.value


def pounds(newtons: float) -> Term:
    """A force as equations show it [lb]."""
    return Term(float(newtons) / POUND_FORCE, "lb")


def foot_pounds(newton_metres: float) -> Term:
    """A moment as equations show it [lb ft]."""
    return Term(float(newton_metres) / (FOOT * POUND_FORCE), "lb ft")


def products_of(
    coefficient_letter: str, coefficients: Iterable[float], unit: str, quantity_letter: str, forces: Iterable[float]
) -> list[Product]:
    """Coefficients, in `unit`, times forces [N], pair by pair."""
    return [
        Product(coefficient_letter, Term(float(coefficient), unit), quantity_letter, pounds(force))
        for coefficient, force in zip(coefficients, forces, strict=True)
    ]


def sum_step(
    symbol: str,
    meaning: str,
    result: Term,
    products: Iterable[Product],
    addends: Mapping[str, Term] = MappingProxyType({}),
) -> CalculationStep:
    """A sum of products, the largest first, and of further terms added as they are; what is nothing is left out."""
    ordered = sorted(products, key=lambda product: -abs(product.value))
    if ordered:
        ordered = [product for product in ordered if abs(product.value) > NEGLIGIBLE * abs(ordered[0].value)]
    shown, others = ordered[:MAX_PRODUCTS_SHOWN], ordered[MAX_PRODUCTS_SHOWN:]
    terms: dict[str, Term] = {}
    for number, product in enumerate(shown, 1):
        terms[f"{product.coefficient_letter}{number}"] = product.coefficient
        terms[f"{product.quantity_letter}{number}"] = product.quantity
    parts = _written_products(terms)
    if others:
        terms["others"] = Term(sum(product.value for product in others), result.unit)
        parts.append("others")
    return CalculationStep(
        symbol, meaning, result, " + ".join([*parts, *addends]) or "0", {**terms, **addends}, STATICS
    )


def combination_step(
    symbol: str, meaning: str, result: Term, combination: Combination, cases: Mapping[str, float]
) -> CalculationStep:
    """Load cases times their factors in a combination; `cases` are in the result's unit."""
    terms: dict[str, Term] = {}
    for number, (case, factor) in enumerate(combination.factors.items(), 1):
        terms[f"f{number}"] = Term(factor)
        terms[case_symbol(symbol, case)] = Term(cases[case], result.unit)
    equation = " + ".join(_written_products(terms))
    return CalculationStep(
        symbol, f"{combination.words.of(meaning)} in {combination.name}", result, equation, terms, STATICS
    )


def _written_products(terms: Mapping[str, Term]) -> list[str]:
    """Terms that follow one another as coefficient and quantity, written as products."""
    names = list(terms)
    return [f"{first} * {second}" for first, second in zip(names[::2], names[1::2], strict=True)]


def case_symbol(symbol: str, case: str) -> str:
    """The symbol of a quantity in one load case."""
    return f"{symbol}_{identifier(case)}"


def identifier(words: str) -> str:
    """Words as a name that an equation may use."""
    return "".join(letter if letter.isalnum() else "_" for letter in words)


def value_step(symbol: str, meaning: str, value: float, unit: str, reference: Reference = STATICS) -> CalculationStep:
    """A value without an equation."""
    return CalculationStep(symbol, meaning, Term(float(value), unit), "", {}, reference)


def utilisation_step(
    link: str, utilisation: float, equation: str, terms: Mapping[str, Term], meaning: str = "utilisation"
) -> CalculationStep:
    """Demand over allowable, with the value that the check found."""
    return CalculationStep(f"u_{link}", meaning, Term(float(utilisation)), equation, terms, STATICS)
