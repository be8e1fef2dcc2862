"""What the three numbers on a fertilizer bag say: shares of nitrogen, phosphate (P2O5) and potash (K2O) by mass."""

from dataclasses import dataclass

from turfplan.errors import Problem, TurfplanError

# Atomic masses (IUPAC, rounded): P 30.974, O 15.999, K 39.098.
P2O5_PER_P = (2 * 30.974 + 5 * 15.999) / (2 * 30.974)
K2O_PER_K = (2 * 39.098 + 15.999) / (2 * 39.098)


@dataclass(frozen=True, slots=True)
class Analysis:
    """A guaranteed analysis in percent by mass."""

    nitrogen_percent: float
    phosphate_percent: float
    potash_percent: float

    def product_g_m2(self, nitrogen_g_m2: float) -> float:
        """Product for a rate of nitrogen: rate / share. Raises TurfplanError for a product without nitrogen."""
        if self.nitrogen_percent <= 0:
            raise TurfplanError(Problem("feeding.analysis", "holds no nitrogen", str(self), "a first number above 0"))
        return nitrogen_g_m2 * 100 / self.nitrogen_percent

    def phosphate_g_m2(self, nitrogen_g_m2: float) -> float:
        """P2O5 that comes along with a rate of nitrogen."""
        return self.product_g_m2(nitrogen_g_m2) * self.phosphate_percent / 100

    def potash_g_m2(self, nitrogen_g_m2: float) -> float:
        """K2O that comes along with a rate of nitrogen."""
        return self.product_g_m2(nitrogen_g_m2) * self.potash_percent / 100

    def __str__(self) -> str:
        return "-".join(f"{part:g}" for part in (self.nitrogen_percent, self.phosphate_percent, self.potash_percent))


def parse_analysis(text: str, where: str = "feeding.analysis") -> Analysis:
    """The numbers of a bag such as "16-4-8". Raises TurfplanError when it is none, or adds up to more than 100."""
    try:
        numbers = [float(part) for part in text.split("-")]
    except ValueError:
        numbers = []
    if len(numbers) != 3:
        raise TurfplanError(Problem(where, "not an analysis", repr(text), "three numbers such as 16-4-8"))
    if any(number < 0 for number in numbers) or sum(numbers) > 100:
        raise TurfplanError(
            Problem(
                where,
                "the three shares add up to more than the bag",
                text,
                "a sum of 100 or less",
                "read the bag again",
            )
        )
    return Analysis(*numbers)
