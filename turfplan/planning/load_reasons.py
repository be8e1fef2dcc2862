"""What a load of mix is for, and why it is as large as it is."""

from dataclasses import dataclass

from turfplan.message import Message, Quantity
from turfplan.phrases import order as phrases
from turfplan.work.drafts import Load

ROUNDED_M3 = 1e-6


@dataclass(frozen=True, slots=True)
class LoadWanted:
    """What a load is for, loose m3: its passes, the touch-up, and more or less by the stock.

    `load` is told where there are several. One that is `as_it_comes` was ordered otherwise, or is
    here, by what was logged of it: that is how much it is.
    """

    load: Load | None
    loose_m3: float
    touch_up_m3: float
    more_m3: float
    as_it_comes: bool = False

    @property
    def order_m3(self) -> float:
        """What is to be ordered, before it is rounded to how it is sold."""
        wanted = self.loose_m3 + self.touch_up_m3
        if self.as_it_comes:
            return max(0.0, wanted + self.more_m3)
        # Converted there and back, what was sold as it is must not be rounded up once more.
        return max(0.0, wanted + self.more_m3 - ROUNDED_M3) if self.more_m3 else wanted

    def reason(self) -> Message:
        """What the passes take, and what is kept for the touch-up."""
        passes, touch_up = loose(self.loose_m3), loose(self.touch_up_m3)
        if self.load is None:
            if not self.touch_up_m3:
                return phrases.mix_reason(passes=passes)
            return phrases.mix_reason_touch_up(passes=passes, touch_up=touch_up)
        served = _served(self.load)
        if not self.touch_up_m3:
            return phrases.mix_reason_load(served=served, passes=passes)
        return phrases.mix_reason_load_touch_up(served=served, passes=passes, touch_up=touch_up)

    def stock(self) -> Message | None:
        """What was logged of earlier orders and passes."""
        volume = loose(abs(self.more_m3))
        if not self.more_m3:
            return None
        return (
            phrases.mix_more(volume=volume) if self.more_m3 > 0 else phrases.mix_less(volume=volume)
        )


def _served(load: Load) -> Message:
    """What a load is spread on: its passes, or some strips of one."""
    if load.strips is None:
        first, last = load.passes[0], load.passes[-1]
        return (
            phrases.mix_pass(number=first)
            if first == last
            else phrases.mix_passes(first=first, last=last)
        )
    first, last = load.strips
    if first == last:
        return phrases.mix_strip(number=load.passes[0], strip=first)
    return phrases.mix_strips(number=load.passes[0], first=first, last=last)


def loose(volume_m3: float) -> Quantity:
    """Loose material as it is told of passes, loads and parts of an order: finer than it is
    sold."""
    return Quantity(volume_m3, "loose")
