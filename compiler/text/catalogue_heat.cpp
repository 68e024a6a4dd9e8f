#include "text/catalogue.h"

#include <array>

// What the checker refuses of what is heated. The exact definitions are in compiler/reference/proofs.md; here they are
// told to the person who writes the procedure.
namespace curbstop::text {
namespace {

constexpr std::array entries{
    CatalogueEntry{"dry-fire", Severity::error, "A heater is on and may have nothing in it",
                   "After this something heats a chamber of which nothing shows that it holds liquid: it was switched "
                   "on, powered or lit too early, or what it heats has been emptied while it was on. Without liquid "
                   "an element burns out in seconds, and a burner splits what it heats (common practice, no "
                   "source).\n\n"
                   "Fill it first and say so (`flow … to … until full`), look (`verify … holds …`), or switch off "
                   "before you drain. Wiring and gas are for licensed people: here they are only switched.",
                   R"(use water
system hut "Hut" {
  zone room "Room"
  part heater : storage_heater "Water heater" at room
  part tap_left : tap "Tap" at room
  part stop_valve : mains_stop "Stop valve" at room { delivers 2 bar }
  run stop_valve - heater.cold : copper_15 2 m
  run heater.hot - tap_left : copper_15 2 m
}
procedure warm "Warm the water" on hut {
  requires stop_valve is open and tap_left is shut and heater is off
  requires heater.plug is fitted and heater.relief is seated
  stage "All" {
    step "Switch the heater on" { set heater to electric }
  }
}
)",
                   R"(use water
system hut "Hut" {
  zone room "Room"
  part heater : storage_heater "Water heater" at room
  part tap_left : tap "Tap" at room
  part stop_valve : mains_stop "Stop valve" at room { delivers 2 bar }
  run stop_valve - heater.cold : copper_15 2 m
  run heater.hot - tap_left : copper_15 2 m
}
procedure warm "Warm the water" on hut {
  requires stop_valve is open and tap_left is shut and heater is off
  requires heater.plug is fitted and heater.relief is seated
  stage "All" {
    step "See that the heater is full" { verify heater holds hot_water }
    step "Switch the heater on" { set heater to electric }
  }
}
)"},
    CatalogueEntry{"scald", Severity::error, "Something hot is opened or drained before it has cooled",
                   "A chamber that is heated, or was and has not cooled since, is opened by hand, or can run out by "
                   "its weight. Water at 60 degC burns skin in seconds. At the start everything that can be heated "
                   "counts as hot. It counts as cool once nothing has heated it for the time that its kind gives "
                   "(`cools in`), counted by `wait` alone; or once somebody has looked (`verify … is cool`), and "
                   "that is the only way where a kind gives no time.\n\n"
                   "Switch it off, `wait`, then open it. What a `flow` draws at a tap is not refused: hot water runs "
                   "there every day, and the tap carries its own caution. The heater's own manual comes first.",
                   R"(use water
system hut "Hut" {
  zone room "Room"
  part heater : storage_heater "Water heater" at room
}
procedure empty "Empty the heater" on hut {
  requires heater is electric and heater.relief is lifted and heater.plug is fitted
  requires heater holds hot_water
  stage "All" {
    step "Switch the heater off" { set heater to off }
    step "Empty it" {
      set heater.plug to removed
      drain heater through heater.plug until stops "Only drops fall"
    }
  }
}
)",
                   R"(use water
system hut "Hut" {
  zone room "Room"
  part heater : storage_heater "Water heater" at room
}
procedure empty "Empty the heater" on hut {
  requires heater is electric and heater.relief is lifted and heater.plug is fitted
  requires heater holds hot_water
  stage "All" {
    step "Switch the heater off" { set heater to off }
    step "Let it cool" { wait 4 h }
    step "Empty it" {
      set heater.plug to removed
      drain heater through heater.plug until stops "Only drops fall"
    }
  }
}
)"},
};

} // namespace

std::span<const CatalogueEntry> heat_catalogue() {
    return entries;
}

} // namespace curbstop::text
