#include "output/sheet_pocket.h"

#include "output/clean_text.h"

#include <algorithm>
#include <iterator>
#include <map>
#include <optional>
#include <utility>

namespace curbstop::output {

namespace {

/// As many letters are not said twice.
constexpr std::size_t worth_a_reference = 40;
/// So many steps are worth a bracket that says once what they share.
constexpr std::size_t worth_a_bracket = 3;

Phrase capital(Phrase words) {
    if (!words.empty() && !words.front().label) {
        static_cast<std::string&>(words.front().text) = capital(words.front().text); // as many bytes as before
    }
    return words;
}

bool is_bracket(const PocketEntry& entry) {
    return entry.number == 0;
}

/// How many a step takes, and up to which step as many.
struct People {
    std::uint32_t people = 0, until = 0;
};
using PeopleList = std::map<std::uint32_t, People>;

void collect_people(const std::vector<Block>& blocks, std::vector<const SheetStep*>& steps) {
    for (const Block& block : blocks) {
        if (block.kind == BlockKind::step) {
            steps.push_back(&block.step);
        }
        collect_people(block.blocks, steps);
    }
}

/// Of several steps in a row that take as many, it is said at the first.
PeopleList people_of(const std::vector<SheetStage>& stages) {
    std::vector<const SheetStep*> steps;
    for (const SheetStage& stage : stages) {
        collect_people(stage.blocks, steps);
    }
    PeopleList list;
    for (auto begin = steps.begin(); begin != steps.end();) {
        const std::uint32_t people = (*begin)->people;
        const auto end =
            std::find_if(begin, steps.end(), [&](const SheetStep* each) { return each->people != people; });
        if (people > 1 && end - begin >= static_cast<std::ptrdiff_t>(worth_a_bracket)) {
            list[(*begin)->number] = {people, (*(end - 1))->number};
        } else if (people > 1) {
            std::for_each(begin, end, [&](const SheetStep* each) { list[each->number] = {people, 0}; });
        }
        begin = end;
    }
    return list;
}

/// Lists the steps of a sheet, and draws together those that share a condition or their figures.
class EntryList {
  public:
    EntryList(const Tongue& tongue, const std::vector<std::pair<Caution, std::vector<std::uint32_t>>>& cautions,
              const PeopleList& people)
        : tongue_(tongue)
        , cautions_(&cautions)
        , people_(&people) {}

    [[nodiscard]] std::vector<PocketEntry> entries(const std::vector<Block>& blocks) {
        std::vector<Item> all;
        for (const Block& block : blocks) {
            if (block.kind != BlockKind::conditional) {
                all.push_back({block.kind == BlockKind::step ? step(block.step) : bracket(block), false});
                continue;
            }
            for (const Block& each : block.blocks) { // one by one: some may share their figures with others
                Block alone = block;
                alone.blocks = {each};
                all.push_back({bracket(alone), true});
            }
        }
        return sharing_condition(sharing_figures(std::move(all)));
    }

    /// What was said at length before is named by its step.
    void refer_back(std::vector<PocketEntry>& entries) {
        for (PocketEntry& entry : entries) {
            refer_back(entry.entries);
            const std::string said = plain(entry.words);
            if (is_bracket(entry) || said.size() < worth_a_reference) {
                continue;
            }
            const auto [known, is_new] = said_.emplace(said, entry.number);
            if (!is_new) {
                entry.words = tongue_.say<Saying::brief_as_step>(in<"number">(tongue_.number(known->second)));
            }
        }
    }

  private:
    /// Conditions of options hold for all alike; two cases that read the same may be two.
    struct Item {
        PocketEntry entry;
        bool is_option = false;
    };

    [[nodiscard]] PocketEntry step(const SheetStep& step) const {
        PocketEntry entry;
        entry.number = step.number;
        entry.title = step.title;
        entry.words = step.brief.words;
        entry.blanks = step.brief.blanks;
        if (const auto found = people_->find(step.number); found != people_->end()) {
            entry.people = found->second.people;
            entry.people_until = found->second.until;
        }
        for (std::size_t i = 0; i < cautions_->size(); ++i) {
            if (std::ranges::find((*cautions_)[i].second, step.number) != (*cautions_)[i].second.end()) {
                entry.heed.push_back(i);
            }
        }
        return entry;
    }

    [[nodiscard]] PocketEntry bracket(const Block& block) {
        PocketEntry entry{capital(block.brief), entries(block.blocks)};
        const bool only_one =
            entry.entries.size() == 1 && !is_bracket(entry.entries.front()) && entry.entries.front().condition.empty();
        if (only_one && (block.kind == BlockKind::conditional || block.kind == BlockKind::in_case)) {
            PocketEntry one = std::move(entry.entries.front());
            one.condition = std::move(entry.heading);
            return one;
        }
        return entry;
    }

    [[nodiscard]] static const Phrase& condition_of(const PocketEntry& entry) {
        return is_bracket(entry) ? entry.heading : entry.condition;
    }

    /// Both stand under the same condition.
    static void take_in(PocketEntry& first, PocketEntry more) {
        if (!is_bracket(first)) {
            PocketEntry around{std::exchange(first.condition, {})};
            around.entries.push_back(std::move(first));
            first = std::move(around);
        }
        if (is_bracket(more)) {
            std::ranges::move(more.entries, std::back_inserter(first.entries));
        } else {
            more.condition.clear();
            first.entries.push_back(std::move(more));
        }
    }

    /// What each of these steps says; nothing where they differ.
    [[nodiscard]] static std::optional<Phrase> figures_of(const PocketEntry& entry) {
        if (!is_bracket(entry)) {
            return entry.words;
        }
        std::optional<Phrase> shared;
        for (const PocketEntry& each : entry.entries) {
            const std::optional<Phrase> figures = figures_of(each);
            if (!figures || (shared && *shared != *figures)) {
                return std::nullopt;
            }
            shared = figures;
        }
        return shared;
    }
    [[nodiscard]] static std::size_t steps_in(const PocketEntry& entry) {
        std::size_t steps = is_bracket(entry) ? 0 : 1;
        for (const PocketEntry& each : entry.entries) {
            steps += steps_in(each);
        }
        return steps;
    }
    static void clear_figures(PocketEntry& entry) {
        entry.words.clear();
        std::ranges::for_each(entry.entries, clear_figures);
    }

    [[nodiscard]] std::vector<Item> sharing_figures(std::vector<Item> all) const {
        std::vector<Item> result;
        for (auto begin = all.begin(); begin != all.end();) {
            const std::optional<Phrase> shared = figures_of(begin->entry);
            auto end = begin;
            std::size_t steps = 0;
            while (shared && !shared->empty() && end != all.end() && figures_of(end->entry) == shared) {
                steps += steps_in(end++->entry);
            }
            if (steps < worth_a_bracket) {
                result.push_back(std::move(*begin++));
                continue;
            }
            std::vector<Item> within(std::make_move_iterator(begin), std::make_move_iterator(end));
            for (Item& each : within) {
                clear_figures(each.entry);
            }
            result.push_back({{capital(tongue_.say<Saying::brief_each>(in<"what">(*shared))),
                               sharing_condition(std::move(within))}});
            begin = end;
        }
        return result;
    }

    [[nodiscard]] static std::vector<PocketEntry> sharing_condition(std::vector<Item> all) {
        std::vector<PocketEntry> result;
        bool after_option = false;
        for (Item& item : all) {
            if (after_option && item.is_option && condition_of(result.back()) == condition_of(item.entry)) {
                take_in(result.back(), std::move(item.entry));
            } else {
                result.push_back(std::move(item.entry));
            }
            after_option = item.is_option;
        }
        return result;
    }

    Tongue tongue_;
    const std::vector<std::pair<Caution, std::vector<std::uint32_t>>>* cautions_;
    const PeopleList* people_;
    std::map<std::string, std::uint32_t> said_; ///< and in which step first
};

class CautionList {
  public:
    void lines(const std::vector<Line>& lines, std::uint32_t step) {
        for (const Line& line : lines) {
            for (const Caution& caution : line.cautions) {
                add(caution, step);
            }
            this->lines(line.body, step);
        }
    }
    void blocks(const std::vector<Block>& blocks) {
        for (const Block& block : blocks) {
            lines(block.opening, first_step(block.blocks));
            lines(block.step.lines, block.step.number);
            this->blocks(block.blocks);
        }
    }
    [[nodiscard]] auto take() {
        std::ranges::stable_sort(found_, {}, [](const auto& each) { return each.first.signal; });
        return std::move(found_);
    }

  private:
    [[nodiscard]] static std::uint32_t first_step(const std::vector<Block>& blocks) {
        for (const Block& block : blocks) {
            const std::uint32_t step = block.kind == BlockKind::step ? block.step.number : first_step(block.blocks);
            if (step != 0) {
                return step;
            }
        }
        return 0;
    }
    void add(const Caution& caution, std::uint32_t step) {
        auto known = std::ranges::find(found_, caution, &std::pair<Caution, std::vector<std::uint32_t>>::first);
        if (known == found_.end()) {
            known = found_.insert(found_.end(), {caution, {}});
        }
        if (step != 0 && (known->second.empty() || known->second.back() != step)) {
            known->second.push_back(step);
        }
    }

    std::vector<std::pair<Caution, std::vector<std::uint32_t>>> found_;
};

} // namespace

Pocket compose_pocket(const Sheet& sheet) {
    const Tongue tongue(sheet.language);
    const auto version = in<"version">(sheet.info.content_version.substr(0, 12));
    Pocket pocket;
    pocket.short_title = tongue.text(Saying::pocket_form);
    pocket.legend = tongue.text(Saying::pocket_legend);
    pocket.title = tongue.text(Saying::pocket_title);
    std::vector<Phrase> results = sheet.results;
    if (sheet.stands_as_listed) {
        results.push_back(tongue.say<Saying::pocket_as_listed>());
    }
    pocket.proved = plain(results.empty() ? tongue.say<Saying::pocket_proved>()
                                          : tongue.say<Saying::pocket_proved_end>(in<"what">(tongue.all_of(results))));
    pocket.full_sheet = plain(tongue.say<Saying::pocket_goes_with>(version));
    pocket.full_sheet += " " + tongue.text(Saying::pocket_positions) + " " + tongue.text(Saying::replaces_nothing);
    pocket.version = tongue.say<Saying::pocket_version>(in<"name">(code(sheet.procedure_name)),
                                                        in<"version">(code(sheet.info.content_version.substr(0, 12))));
    for (const Saying each : {Saying::pocket_no_standing, Saying::pocket_no_amounts, Saying::pocket_no_places,
                              Saying::pocket_no_sights, Saying::pocket_no_notes, Saying::pocket_no_leaving,
                              Saying::pocket_no_barriers, Saying::pocket_no_contracts, Saying::pocket_no_aftercare}) {
        pocket.left_out.push_back(tongue.text(each));
    }
    CautionList cautions;
    for (const SheetStage& stage : sheet.stages) {
        cautions.blocks(stage.blocks);
    }
    pocket.cautions = cautions.take();
    const PeopleList people = people_of(sheet.stages);
    EntryList list(tongue, pocket.cautions, people);
    for (const SheetStage& stage : sheet.stages) {
        pocket.stages.push_back({stage.label, list.entries(stage.blocks)});
        list.refer_back(pocket.stages.back().entries);
    }
    return pocket;
}

} // namespace curbstop::output
