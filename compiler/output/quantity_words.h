// Quantities as an owner reads them, in both systems of units, and the unit codes of JSON.
// Must not know: what is measured.
#pragma once

#include "meaning/procedure.h"
#include "meaning/quantity.h"
#include "meaning/quantity_text.h"
#include "output/tongue.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace curbstop::output {

/// What a reading must be: "-15 °C (5 °F) or colder", "2 bar to 4 bar"; empty where nothing is asked of it.
[[nodiscard]] Phrase bounds_words(meaning::Dimension dimension, const std::optional<meaning::Quantity>& least,
                                  const std::optional<meaning::Quantity>& most, const Tongue& tongue);

/// Which way the second figure is rounded so that who goes by it stays on the safe side.
enum class Towards : std::uint8_t { nearest, more, less };

/// "20 L (5.25 US gal)", "4 h", "-13 °C (8.6 °F)": metric, and US customary units where they say it differently.
/// Volumes that come out at no short US figure are rounded to what can be read on a measure: half ounces up to eight,
/// ounces up to half a gallon, then quarter gallons, from five half and from twenty whole ones.
[[nodiscard]] std::string quantity_words(const meaning::Quantity& quantity,
                                         const Tongue& tongue = Tongue(Language::english),
                                         Towards side = Towards::nearest);

/// At least the one and at most the other, each on its safe side; by the ounce where the marks would meet, and to
/// three digits where those would as well.
struct Range {
    std::string least, most;
};
[[nodiscard]] Range range_words(const meaning::Quantity& least, const meaning::Quantity& most, const Tongue& tongue);

/// The same in one system of units.
[[nodiscard]] std::string quantity_in(const meaning::Quantity& quantity, meaning::UnitSystem system,
                                      const Tongue& tongue);

/// The units in which something may be filled in, the author's first and else those people use; none for a count.
[[nodiscard]] std::vector<meaning::Unit> record_units(meaning::Dimension dimension,
                                                      std::optional<meaning::Unit> written = {});
/// What stands behind the blank: "L or US gal"; how a day or the time of day is written; empty for a count.
[[nodiscard]] std::string record_unit(const meaning::RecordStatement& record,
                                      const Tongue& tongue = Tongue(Language::english));

/// The sum of quantities of one dimension; nothing for none, or where it does not fit.
[[nodiscard]] std::optional<meaning::Quantity> sum(const std::vector<meaning::Quantity>& quantities);

/// So many times the quantity; nothing where it does not fit.
[[nodiscard]] std::optional<meaning::Quantity> times(const meaning::Quantity& quantity, std::uint64_t count);

} // namespace curbstop::output
