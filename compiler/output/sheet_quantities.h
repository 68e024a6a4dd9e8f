// Quantities in the reader's words, in both systems of units, rounded up and never down.
// Must not know: HTML, Markdown, how anything was worked out.
#pragma once

#include "output/sheet.h"
#include "output/words.h"
#include "quantities/quantities.h"

#include <optional>
#include <string>
#include <vector>

namespace curbstop::output {

/// "1.4 L (0.5 gal)": at least so much (m3).
[[nodiscard]] std::string volume_words(double volume, const Tongue& tongue = Tongue(Language::english));
/// "-17.8 °C (0 °F)": a temperature that was reckoned, to a tenth of a degree Celsius and a whole one Fahrenheit.
[[nodiscard]] std::string temperature_words(double celsius, const Tongue& tongue = Tongue(Language::english));

/// What can hold liquid: "pipe from Stop valve to Drain cock", a part's label.
[[nodiscard]] Wording pocket_words(const Words& words, const quantities::PocketVolume& pocket);

struct SecondsRange {
    std::uint64_t from = 0, to = 0;
};
/// Of times in minutes that come to less than two: no more than the most, no less than the least; of a few seconds each
/// counts, as so much does not run over, of more every fifth.
SecondsRange whole_seconds(double least, double greatest);

/// "3 min 5 s", to five seconds.
[[nodiscard]] std::string minutes_and_seconds(const Tongue& tongue, double minutes);

/// "about 15 seconds", "about 4 minutes", "3 to 7 minutes": whole seconds below 20, steps of 5 s below two minutes,
/// else whole minutes, up.
[[nodiscard]] Phrase time_words(const Tongue& tongue, double least, std::optional<double> most);

/// How much a flow takes and how long; nothing where nothing is known beyond what the author wrote.
[[nodiscard]] std::optional<Line> estimate_line(const Words& words, const quantities::FlowAmount& amount);

/// "To bring the tank … to 50 mg/L: 83 mL of bleach of 6 % or …": what makes this disinfectant; nothing of other
/// fluids.
[[nodiscard]] std::optional<Phrase> dose_line(const Words& words, const quantities::Quantities& quantities,
                                              meaning::FluidId fluid);

/// "for 70 L at 100 mg/L: 140 mL of 5 %, 117 mL of 6 %": the same in short.
[[nodiscard]] std::optional<Phrase> brief_dose(const Words& words, const quantities::Quantities& quantities,
                                               meaning::FluidId fluid);

/// A fluid on the list of what is brought: as much as is listed, else as was worked out.
[[nodiscard]] Phrase supply_words(const Words& words, const quantities::Supply& supply);

/// What the sheet tells of each fluid that is brought, of bleach and of what is carried away.
[[nodiscard]] std::vector<InfoCard> quantity_cards(const Words& words, const quantities::Quantities& quantities);

/// Where fluids that were brought stay behind in what is closed, and how much at most: what is worth a row, the rest
/// together. How much every pipe and body holds stands in the JSON.
[[nodiscard]] InfoTable staying_table(const Words& words, const quantities::Quantities& quantities);

} // namespace curbstop::output
