#include "text/catalogue.h"

#include <array>

// Quantities: numbers, units and limits.
namespace curbstop::text {
namespace {

constexpr std::array entries{
    CatalogueEntry{"wrong-dimension", Severity::error, "A quantity of the wrong dimension",
                   "A pressure was given where a length is wanted, or the like. Units are never converted between "
                   "dimensions; within one they may be mixed freely, for conversion is exact.",
                   R"(pipe tube "Tube" { bore 13 mm  rated 10 bar }
system shed "Shed" {
  zone yard "Yard"
  end near "Near end" at yard fits garden
  end far "Far end" at yard fits garden
  run near - far : tube 2 bar
}
lineup shut_up "Shut up" on shed { near open  far open }
)",
                   R"(pipe tube "Tube" { bore 13 mm  rated 10 bar }
system shed "Shed" {
  zone yard "Yard"
  end near "Near end" at yard fits garden
  end far "Far end" at yard fits garden
  run near - far : tube 2 m
}
lineup shut_up "Shut up" on shed { near open  far open }
)"},
    CatalogueEntry{"bad-strength", Severity::error, "A strength that cannot be",
                   "A fluid is from 0 % to 100 % strong; in its table the strengths rise and the points at which it "
                   "freezes fall, from the 0 degC of water on; it bursts no sooner than it freezes. A vessel cannot be "
                   "filled with something stronger than the table goes: nothing is guessed beyond published data.",
                   R"(fluid brine "Brine" { category 3  at 10 % freezes -3 degC  at 20 % freezes -2 degC }
system shed "Shed" { zone yard "Yard"  end near "Near end" at yard fits garden }
lineup shut_up "Shut up" on shed { near open }
)",
                   R"(fluid brine "Brine" { category 3  at 10 % freezes -3 degC  at 20 % freezes -6 degC }
system shed "Shed" { zone yard "Yard"  end near "Near end" at yard fits garden }
lineup shut_up "Shut up" on shed { near open }
)"},
    CatalogueEntry{
        "bad-disinfection", Severity::error, "A disinfection that cannot be",
        "A liquid that disinfects says how strong it must be, above 0 % and at most 100 %, and how long it "
        "must stand so. Of several such lines each is stronger and shorter than the one before. A gas does "
        "not wet a pipe everywhere.",
        R"(fluid bleach "Bleach" { category 3  disinfects at 50 mg/L for 0 h }
system shed "Shed" { zone yard "Yard"  end near "Near end" at yard fits garden }
lineup shut_up "Shut up" on shed { near open }
)",
        R"(fluid bleach "Bleach" { category 3  disinfects at 50 mg/L for 4 h  disinfects at 200 mg/L for 3 h }
system shed "Shed" { zone yard "Yard"  end near "Near end" at yard fits garden }
lineup shut_up "Shut up" on shed { near open }
)"},
    CatalogueEntry{
        "missing-strength", Severity::error, "Antifreeze of unknown strength",
        "A vessel is filled with a fluid whose freezing point depends on its strength. Say how strong it is, "
        "by volume, as its label or a refractometer says.",
        R"(fluid brine "Brine" { category 3  at 10 % freezes -3 degC  at 20 % freezes -6 degC }
system shed "Shed" {
  zone yard "Yard"
  end near "Near end" at yard fits garden
  vessel jug "Jug" 5 L accepts brine filled with brine
}
lineup shut_up "Shut up" on shed { near open }
)",
        R"(fluid brine "Brine" { category 3  at 10 % freezes -3 degC  at 20 % freezes -6 degC }
system shed "Shed" {
  zone yard "Yard"
  end near "Near end" at yard fits garden
  vessel jug "Jug" 5 L accepts brine filled with brine at 20 %
}
lineup shut_up "Shut up" on shed { near open }
)"},
    CatalogueEntry{"unknown-unit", Severity::error, "A unit that is not known",
                   "Units are written as in `45 psi`, `30 %`, `-13 degC`. The language reference lists them all. `gal` "
                   "and `floz` are those of the US.",
                   R"(pipe tube "Tube" { bore 13 millimetres  rated 10 bar }
system shed "Shed" {
  zone yard "Yard"
  end near "Near end" at yard fits garden
  end far "Far end" at yard fits garden
  run near - far : tube 2 m
}
lineup shut_up "Shut up" on shed { near open  far open }
)",
                   R"(pipe tube "Tube" { bore 13 mm  rated 10 bar }
system shed "Shed" {
  zone yard "Yard"
  end near "Near end" at yard fits garden
  end far "Far end" at yard fits garden
  run near - far : tube 2 m
}
lineup shut_up "Shut up" on shed { near open  far open }
)"},
    CatalogueEntry{"missing-unit", Severity::error, "A number without its unit",
                   "Only a count has no unit. A bare 30 could be psi or bar, and the difference bursts a pipe.",
                   R"(pipe tube "Tube" { bore 13 mm  rated 10 }
system shed "Shed" {
  zone yard "Yard"
  end near "Near end" at yard fits garden
  end far "Far end" at yard fits garden
  run near - far : tube 2 m
}
lineup shut_up "Shut up" on shed { near open  far open }
)",
                   R"(pipe tube "Tube" { bore 13 mm  rated 10 bar }
system shed "Shed" {
  zone yard "Yard"
  end near "Near end" at yard fits garden
  end far "Far end" at yard fits garden
  run near - far : tube 2 m
}
lineup shut_up "Shut up" on shed { near open  far open }
)"},
    CatalogueEntry{"number-too-long", Severity::error, "A number with too many digits",
                   "Numbers are kept exactly, as fractions, and 18 digits are what can be kept in every unit. No gauge "
                   "shows as many. A number may also be too great to be converted to the unit that is reckoned in.",
                   R"(pipe tube "Tube" { bore 13.0000000000000000001 mm  rated 10 bar }
system shed "Shed" {
  zone yard "Yard"
  end near "Near end" at yard fits garden
  end far "Far end" at yard fits garden
  run near - far : tube 2 m
}
lineup shut_up "Shut up" on shed { near open  far open }
)",
                   R"(pipe tube "Tube" { bore 13 mm  rated 10 bar }
system shed "Shed" {
  zone yard "Yard"
  end near "Near end" at yard fits garden
  end far "Far end" at yard fits garden
  run near - far : tube 2 m
}
lineup shut_up "Shut up" on shed { near open  far open }
)"},
    CatalogueEntry{
        "impossible-quantity", Severity::error, "A quantity that cannot be",
        "A temperature below absolute zero, a concentration above 100 %, a length of nothing, a least amount "
        "above the greatest, a count that is no whole number: there is no such thing.",
        R"(pipe tube "Tube" { bore 13 mm  rated 10 bar }
system shed "Shed" {
  zone yard "Yard"
  end near "Near end" at yard fits garden
  end far "Far end" at yard fits garden
  run near - far : tube -2 m
}
lineup shut_up "Shut up" on shed { near open  far open }
)",
        R"(pipe tube "Tube" { bore 13 mm  rated 10 bar }
system shed "Shed" {
  zone yard "Yard"
  end near "Near end" at yard fits garden
  end far "Far end" at yard fits garden
  run near - far : tube 2 m
}
lineup shut_up "Shut up" on shed { near open  far open }
)"},
    CatalogueEntry{"empty-range", Severity::error, "A dial that cannot be turned",
                   "A dial goes from a smaller to a greater setting.",
                   R"(use fluids
kind air_line "Air line" {
  port outlet
  dial regulator "Regulator" 8 bar to 0 bar
  position off { }
  position on { supplies air at outlet up to regulator }
}
system shed "Shed" {
  zone yard "Yard"
  part shop_air : air_line "Workshop air" at yard
}
lineup shut_up "Shut up" on shed { shop_air off  shop_air.regulator 0 bar }
)",
                   R"(use fluids
kind air_line "Air line" {
  port outlet
  dial regulator "Regulator" 0 bar to 8 bar
  position off { }
  position on { supplies air at outlet up to regulator }
}
system shed "Shed" {
  zone yard "Yard"
  part shop_air : air_line "Workshop air" at yard
}
lineup shut_up "Shut up" on shed { shop_air off  shop_air.regulator 0 bar }
)"},
    CatalogueEntry{"outside-dial", Severity::error, "A setting beyond the end of a dial",
                   "The dial cannot be set so: it ends before. The operator would turn it to its stop and believe it "
                   "set.",
                   R"(use fluids
kind air_line "Air line" {
  port outlet
  dial regulator "Regulator" 0 bar to 8 bar
  position off { }
  position on { supplies air at outlet up to regulator }
}
system shed "Shed" {
  zone yard "Yard"
  part shop_air : air_line "Workshop air" at yard
}
lineup shut_up "Shut up" on shed { shop_air off  shop_air.regulator 10 bar }
)",
                   R"(use fluids
kind air_line "Air line" {
  port outlet
  dial regulator "Regulator" 0 bar to 8 bar
  position off { }
  position on { supplies air at outlet up to regulator }
}
system shed "Shed" {
  zone yard "Yard"
  part shop_air : air_line "Workshop air" at yard
}
lineup shut_up "Shut up" on shed { shop_air off  shop_air.regulator 6 bar }
)"},
    CatalogueEntry{"too-many-values", Severity::error, "Too many ways to stand",
                   "A part, dial or end could stand in more than 64 ways, the most that the checker keeps apart. The "
                   "limit is far above what real fittings have. Each setting of a dial that the text names is one."},
};

} // namespace

std::span<const CatalogueEntry> quantities_catalogue() {
    return entries;
}

} // namespace curbstop::text
