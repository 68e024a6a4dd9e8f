// The sheet as data: every sentence that an owner reads, in order, before it takes the form of HTML or Markdown. So
// both say the same, and what is said is decided once.
// Must not know: HTML, Markdown, files.
#pragma once

#include "meaning/procedure.h"
#include "output/applies.h"
#include "output/phrase.h"
#include "output/sheet_info.h"
#include "output/tongue.h"
#include "proofs/report.h"

#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace curbstop::output {

/// A safety message. It stands before the action that it is about (MIL-STD-2106A appendix B; EN 82079-1) and is never
/// numbered; signal words after ANSI Z535.
struct Caution {
    meaning::Signal signal = meaning::Signal::caution;
    Wording text;
    std::uint32_t as_in = 0; ///< the step in which it stands in full, where it need not stand so again; 0: here

    bool operator==(const Caution& other) const { return signal == other.signal && text == other.text; }
};

enum class LineKind : std::uint8_t {
    act,   ///< something to do: has a box to tick
    check, ///< something to look at and find so: has a box to tick; `items` where it is several things
    see,   ///< what one should see
    watch, ///< what one should see elsewhere meanwhile
    note,
    estimate, ///< how much and how long, about
    proved,   ///< what is proved to hold here
    photo,    ///< an image: `photo` says which
    record,   ///< a field to fill in
    bring,
    wear,
    helper,
    leave_so,    ///< what has to stay as it is while a source is on
    hold,        ///< done as long as a control is held
    conditional, ///< only with or without an option
    in_case,     ///< a remedy
    repeat,
    only_cautions, ///< a step that is a caution and no action
};

struct Line {
    LineKind kind = LineKind::act;
    std::vector<Caution> cautions = {}; ///< printed before the line and kept with it
    Phrase text = {};
    Wording place = {};                    ///< where it is done, when the step's heading does not say it
    Wording condition = {};                ///< "only with Loft tap"; empty where it is always done
    Applies applies = {};                  ///< the same for a machine; also of lines that go with one that says it
    std::string unit = {};                 ///< of a record: what is filled in; empty for a count
    std::vector<meaning::Unit> units = {}; ///< of a record: those to choose from
    meaning::RecordKind record = {};       ///< of a record; of days and clocks the unit says how they are written
    Phrase within = {};                    ///< of a record: what must be found, "-15 °C or colder"; mostly empty
    std::optional<meaning::Quantity> at_least = {}, at_most = {}; ///< the same for a machine
    meaning::PhotoId photo = {};                                  ///< the text is what it shows
    std::uint64_t wait_seconds = 0;                               ///< of a wait
    std::uint64_t rounds = 0;                                     ///< of repeat: at most so many
    std::vector<Phrase> items = {};
    std::vector<Line> body = {};               ///< of hold, conditional, in_case and repeat
    std::optional<meaning::Setting> puts = {}; ///< of an action and of hold: what it puts, and how
};

/// What the title of a step cannot carry, for those who have done it before.
struct Brief {
    Phrase words;
    std::vector<Phrase> blanks; ///< to be filled in
};

struct SheetStep {
    std::uint32_t number = 0;
    Wording title;
    Wording go_to;              ///< the place, when the step before was elsewhere
    std::vector<Wording> zones; ///< all places, in order, each once
    bool helper = false;        ///< the step itself takes two
    std::uint32_t people = 1;   ///< that it takes, with those who stay by what was left on
    std::vector<Line> lines;
    Brief brief = {};
    bool judged = false; ///< the proof looked at this step: what follows means something
    bool safe_to_stop = false;
    std::vector<Wording> running; ///< sources that may be on at its end
    Phrase break_off = {};        ///< whether one may break off after it, where that changes
};

enum class BlockKind : std::uint8_t { step, conditional, in_case, repeat, meanwhile };

/// A step, or steps that belong together.
struct Block {
    BlockKind kind = BlockKind::step;
    Phrase heading = {};      ///< "Only with Loft tap", "In case …", "Repeat, at most 4 times, until …"
    Phrase brief = {};        ///< the same on the pocket form
    std::uint64_t rounds = 0; ///< of repeat: at most so many
    Applies applies = {};
    std::vector<Line> opening = {}; ///< of meanwhile: what is set going
    std::vector<Line> closing = {}; ///< of meanwhile and repeat: what is seen at the end
    std::vector<Block> blocks = {};
    SheetStep step = {};
};

struct SheetStage {
    Wording label;
    std::vector<Line> opening; ///< what is proved to hold before its first step
    std::vector<Block> blocks;
    std::vector<Line> closing; ///< what is proved to hold after its last step
};

/// How one thing stands.
struct StandingRow {
    Wording what = {};
    Wording how = {};
    Wording condition = {};
    Applies applies = {};
    Wording behind = {}; ///< which covers hide it; empty where none does
};
/// Those of one place.
struct StandingGroup {
    Wording place; ///< empty for what has no fixed place
    std::vector<StandingRow> rows;
};

/// Something to have at hand.
struct BringItem {
    Phrase text;
    Wording condition = {};
    Applies applies = {};
};

/// Something that this vehicle may have or not.
struct OptionItem {
    std::string name; ///< the author's
    Wording label;
};

/// A small table: every row has as many cells as there are columns.
struct InfoTable {
    std::vector<Wording> columns = {};
    std::vector<std::vector<Wording>> rows = {};
};

/// A photograph of a part.
struct PartPhoto {
    Wording part;
    meaning::PhotoId photo;
    Wording words;                    ///< what it shows
    std::vector<std::uint32_t> steps; ///< that put the part into a position, in order
};

/// Something to know beforehand.
struct InfoCard {
    Wording heading = {};
    std::vector<Phrase> lines = {};
    InfoTable table = {};
    std::vector<Phrase> after = {}; ///< below the table
};

struct Preparation {
    std::vector<BringItem> wear;
    std::vector<BringItem> bring;
    std::vector<BringItem> covers;    ///< to be opened, in order, with their place
    std::vector<Wording> walk;        ///< places in the order in which they are visited; of a long walk each place once
    std::uint32_t place_changes = 0;  ///< how often one goes from one place to another
    std::string walk_length;          ///< empty where some way has no length
    std::vector<InfoCard> cards = {}; ///< power and gas, time, weather
    std::vector<std::uint32_t> helper_steps; ///< that take two or more
    std::vector<std::uint32_t> third_steps;  ///< that take three
    std::vector<OptionItem> options;         ///< in the order of the system: conditions go by it
    std::vector<meaning::Signal> signals;    ///< that occur, gravest first
};

/// A label to cut out and tie to what is left as it must stay.
struct Tag {
    Wording what;
    Wording place;               ///< empty for what has no fixed place
    Wording condition = {};      ///< "only with Loft tap"; empty where it is always there
    Applies applies = {};        ///< the same for a machine
    std::vector<Wording> stands; ///< "off", "drain plug: removed"
    std::vector<Phrase> rules;   ///< what must not be done, and why
    std::string since;           ///< "Since step 12."
};
struct TagSheet {
    std::string heading, lead;
    std::vector<std::string> fields; ///< to be filled in on each tag
    std::vector<Tag> tags;
};

/// What was written down on the way, to be kept.
struct RecordSheet {
    std::string heading, lead;
    std::vector<Wording> columns; ///< of the rows below, the last one left free
    struct Row {
        std::uint32_t step = 0;
        Wording what;
        std::string unit = {};
        Wording condition = {};
        Applies applies = {};
    };
    std::vector<Row> rows;
};

/// A step of the pocket form, or a bracket around several.
struct PocketEntry {
    Phrase heading = {}; ///< of a bracket: what its steps share
    std::vector<PocketEntry> entries = {};
    std::uint32_t number = 0; ///< of a step; 0 of a bracket
    Wording title = {};
    Phrase condition = {};              ///< that it alone stands under
    Phrase words = {};                  ///< what the title cannot carry
    std::vector<Phrase> blanks = {};    ///< to be filled in
    std::uint32_t people = 0;           ///< that it takes, where it is said here
    std::uint32_t people_until = 0;     ///< the last step that takes as many, where it is not this one
    std::vector<std::size_t> heed = {}; ///< indices of its cautions
};
struct PocketStage {
    Wording label;
    std::vector<PocketEntry> entries;
};

struct Pocket {
    std::string short_title;                                              ///< beside the procedure's
    std::string title;                                                    ///< the same, with whom it is for
    std::string legend;                                                   ///< of the letters beside steps
    Wording proved;                                                       ///< all of it in a line
    std::string full_sheet;                                               ///< which sheet it goes with, and why
    std::vector<std::string> left_out;                                    ///< what the full sheet says besides
    Phrase version;                                                       ///< which version it is, and of what
    std::vector<std::pair<Caution, std::vector<std::uint32_t>>> cautions; ///< each once, with the steps it is about
    std::vector<PocketStage> stages;
};

struct Sheet {
    Language language = Language::english;
    std::string running_head; ///< system and procedure, cut where they are longer than a line; pages repeat it
    std::string running_foot; ///< what a sign on printed pages means
    Wording system, procedure;
    std::string system_name, procedure_name; ///< the author's
    Wording about;                           ///< doc comment, one line
    std::uint32_t steps = 0;
    std::uint64_t instants = 0;
    std::uint64_t configurations_log2 = 0;
    std::vector<Phrase> not_proved; ///< what the procedure asks for and is not proved
    Preparation preparation;
    Wording as_left_by;                ///< the procedure whose end this one starts from
    std::string as_left_by_name;       ///< the author's
    std::vector<StandingGroup> left;   ///< how that one leaves everything, where that is known
    std::vector<Phrase> requirements;  ///< beside how things stand
    std::vector<StandingGroup> before; ///< only what has to stand so
    std::vector<InfoCard> quantities;  ///< of each fluid that is brought, of bleach, of what is carried away
    InfoTable staying;                 ///< where fluids that were brought stand at the end
    std::vector<SheetStage> stages;
    std::vector<StandingGroup> after;
    bool stands_as_listed = false; ///< how things stand at the end was asked for, and is proved
    std::vector<Phrase> results;   ///< what else is proved to hold at the end
    TagSheet tags;
    RecordSheet records;
    InfoCard next; ///< the procedure that follows; no lines where none does
    Pocket pocket;
    std::vector<PartPhoto> photos;                           ///< of parts, in the order of declaration
    const std::vector<meaning::Photo>* all_photos = nullptr; ///< of the model, which outlives the sheet
    SheetInfo info;
};

/// Composes the sheet. `report` is the one of `procedure`, with its steps filled in; both belong to `model`.
[[nodiscard]] Sheet compose_sheet(const meaning::Model& model, const meaning::Procedure& procedure,
                                  const proofs::ProcedureReport& report, SheetInfo info);

/// What the proof looked at, as a sentence that a list of clauses follows.
[[nodiscard]] std::string checked_words(const Sheet& sheet);

/// "Everything stands as Close the hut left it. …"; only where it starts so.
[[nodiscard]] Phrase as_left_words(const Sheet& sheet);

/// "How Close the hut left everything".
[[nodiscard]] Phrase left_heading(const Sheet& sheet);

/// "A second person is needed in steps 2 and 4."
[[nodiscard]] std::string helper_words(const Sheet& sheet);

/// "Places: Kitchen and Loft."
[[nodiscard]] Phrase places_words(const Sheet& sheet, const SheetStep& step);

/// What a safety message says after its signal word: all of it, or where it stands in full.
[[nodiscard]] Phrase caution_words(const Caution& caution, const Tongue& tongue);

/// "Procedure `close_up`, content version …"
[[nodiscard]] Phrase version_words(const Sheet& sheet);

/// "4 changes of place, 18 m of walking in all."; empty where one stays in one place.
[[nodiscard]] std::string walk_words(const Preparation& preparation, const Tongue& tongue = Tongue(Language::english));

/// What stands before a line that is no action, so that its meaning does not hang on its look; empty for an action.
[[nodiscard]] std::string tag_of(LineKind kind, const Tongue& tongue);

} // namespace curbstop::output
