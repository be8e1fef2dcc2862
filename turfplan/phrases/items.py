"""Messages of `messages/en/items.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Message


def depth() -> Message:
    """Depth"""
    return Message("items.depth")


def seed_rate() -> Message:
    """Seed rate"""
    return Message("items.seed_rate")


def seed() -> Message:
    """Seed"""
    return Message("items.seed")


def sod() -> Message:
    """Sod"""
    return Message("items.sod")


def used() -> Message:
    """Used"""
    return Message("items.used")


def volume() -> Message:
    """Volume"""
    return Message("items.volume")


def weight_per_area() -> Message:
    """Weight per area"""
    return Message("items.weight_per_area")


def weight() -> Message:
    """Weight"""
    return Message("items.weight")


def barrow_loads() -> Message:
    """Barrow loads"""
    return Message("items.barrow_loads")


def seed_held_back() -> Message:
    """Seed held back"""
    return Message("items.seed_held_back")


def sown_area() -> Message:
    """Area sown now"""
    return Message("items.sown_area")


def mat() -> Message:
    """Mat of straw or jute"""
    return Message("items.mat")


def pegs() -> Message:
    """Pegs"""
    return Message("items.pegs")


def straw() -> Message:
    """Straw"""
    return Message("items.straw")


def water() -> Message:
    """Water"""
    return Message("items.water")


def water_each_time() -> Message:
    """Water each time"""
    return Message("items.water_each_time")


def product() -> Message:
    """Product"""
    return Message("items.product")


def nitrogen() -> Message:
    """Nitrogen"""
    return Message("items.nitrogen")


def plugs() -> Message:
    """Plugs"""
    return Message("items.plugs")


def sprigs() -> Message:
    """Sprigs"""
    return Message("items.sprigs")


def potash_to_add() -> Message:
    """Potash to add"""
    return Message("items.potash_to_add")


def potash_to_add_in_all() -> Message:
    """Potash to add in all"""
    return Message("items.potash_to_add_in_all")


def phosphate_to_add() -> Message:
    """Phosphate to add"""
    return Message("items.phosphate_to_add")


def phosphate_to_add_in_all() -> Message:
    """Phosphate to add in all"""
    return Message("items.phosphate_to_add_in_all")


def lime() -> Message:
    """Lime"""
    return Message("items.lime")


def nitrogen_total() -> Message:
    """Nitrogen total"""
    return Message("items.nitrogen_total")


def phosphorus() -> Message:
    """Phosphorus"""
    return Message("items.phosphorus")


def potassium() -> Message:
    """Potassium"""
    return Message("items.potassium")


def potash() -> Message:
    """Potash"""
    return Message("items.potash")


def phosphate() -> Message:
    """Phosphate"""
    return Message("items.phosphate")


def product_rate() -> Message:
    """Product rate"""
    return Message("items.product_rate")


def slow_nitrogen() -> Message:
    """Slow nitrogen"""
    return Message("items.slow_nitrogen")


def lime_rate() -> Message:
    """Lime rate"""
    return Message("items.lime_rate")


def fertilizer() -> Message:
    """Fertilizer"""
    return Message("items.fertilizer")


def mix() -> Message:
    """Mix"""
    return Message("items.mix")


def topsoil() -> Message:
    """Topsoil"""
    return Message("items.topsoil")


def sand() -> Message:
    """Sand"""
    return Message("items.sand")


def compost() -> Message:
    """Compost"""
    return Message("items.compost")


def kentucky_bluegrass() -> Message:
    """Kentucky bluegrass"""
    return Message("items.kentucky_bluegrass")


def perennial_ryegrass() -> Message:
    """Perennial ryegrass"""
    return Message("items.perennial_ryegrass")


def tall_fescue() -> Message:
    """Tall fescue"""
    return Message("items.tall_fescue")


def fine_fescue() -> Message:
    """Fine fescue"""
    return Message("items.fine_fescue")


def creeping_bentgrass() -> Message:
    """Creeping bentgrass"""
    return Message("items.creeping_bentgrass")


def bermuda_common() -> Message:
    """Common bermudagrass"""
    return Message("items.bermuda_common")


def zoysia() -> Message:
    """Zoysiagrass"""
    return Message("items.zoysia")


def centipede() -> Message:
    """Centipedegrass"""
    return Message("items.centipede")


def bahia() -> Message:
    """Bahiagrass"""
    return Message("items.bahia")


def buffalo() -> Message:
    """Buffalograss"""
    return Message("items.buffalo")


def browntop() -> Message:
    """Browntop (colonial bentgrass)"""
    return Message("items.browntop")


def kikuyu() -> Message:
    """Kikuyu grass"""
    return Message("items.kikuyu")


def carpetgrass() -> Message:
    """Carpetgrass"""
    return Message("items.carpetgrass")


def sulfur() -> Message:
    """Sulfur"""
    return Message("items.sulfur")


def sulfur_rate() -> Message:
    """Sulfur rate"""
    return Message("items.sulfur_rate")


def iron_sulfate() -> Message:
    """Iron sulfate"""
    return Message("items.iron_sulfate")


def iron_sulfate_rate() -> Message:
    """Iron sulfate rate"""
    return Message("items.iron_sulfate_rate")


def gypsum() -> Message:
    """Gypsum"""
    return Message("items.gypsum")


def gypsum_rate() -> Message:
    """Gypsum rate"""
    return Message("items.gypsum_rate")
