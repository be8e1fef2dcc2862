"""The three numbers of a fertilizer bag: nitrogen, phosphate (P2O5) and potash (K2O) by mass."""

from dataclasses import dataclass

from turfplan.errors import Problem, TurfplanError
from turfplan.phrases import brief as phrases


@dataclass(frozen=True, slots=True)
class Analysis:
    """A guaranteed analysis in percent by mass."""

    nitrogen_percent: float
    phosphate_percent: float
    potash_percent: float

    def product_g_m2(self, nitrogen_g_m2: float) -> float:
        """Product for a rate of nitrogen, g/m2. Raises TurfplanError where the bag holds none."""
        if self.nitrogen_percent <= 0:
            raise TurfplanError(
                Problem(
                    "feeding.analysis",
                    phrases.analysis_no_nitrogen(),
                    str(self),
                    phrases.analysis_first_above_0(),
                )
            )
        return nitrogen_g_m2 * 100 / self.nitrogen_percent

    def phosphate_g_m2(self, nitrogen_g_m2: float) -> float:
        """P2O5 that comes along with a rate of nitrogen."""
        return self.product_g_m2(nitrogen_g_m2) * self.phosphate_percent / 100

    def potash_g_m2(self, nitrogen_g_m2: float) -> float:
        """K2O that comes along with a rate of nitrogen."""
        return self.product_g_m2(nitrogen_g_m2) * self.potash_percent / 100

    def __str__(self) -> str:
        return "-".join(
            f"{part:g}"
            for part in (self.nitrogen_percent, self.phosphate_percent, self.potash_percent)
        )


def parse_analysis(text: str, where: str = "feeding.analysis") -> Analysis:
    """The numbers of a bag such as "16-4-8".

    Raises TurfplanError when it is none, or adds up to more than 100.
    """
    try:
        numbers = [float(part) for part in text.split("-")]
    except ValueError:
        numbers = []
    if len(numbers) != 3:
        raise TurfplanError(
            Problem(where, phrases.analysis_none(), repr(text), phrases.analysis_such_as())
        )
    if any(number < 0 for number in numbers) or sum(numbers) > 100:
        raise TurfplanError(
            Problem(
                where,
                phrases.analysis_too_much(),
                text,
                phrases.analysis_hundred(),
                phrases.analysis_read_again(),
            )
        )
    return Analysis(*numbers)
