#include "output/live_states.h"

#include "output/drawing_svg.h"
#include "output/label_lines.h"
#include "output/sheet_picture.h"
#include "output/step_state.h"
#include "output/words.h"

#include "text/json_writer.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>
#include <unordered_map>

namespace curbstop::output {

using namespace meaning;

namespace {

constexpr std::size_t position_columns = 18; // as much as the cards have room for

constexpr int emptied_percent = 10; // full at most: what drained, and what does not come out

bool is_emptied(const Content& filling) {
    return filling.fluids.empty() || filling.traces || filling.most_percent <= emptied_percent;
}

// Where liquid has run out and nothing but liquid ever pressed, nothing is left that could be under pressure: the proof
// keeps a charge until somebody has seen it go, and a drawing that warns of it everywhere warns of nothing.
void forget_pressure_of_emptied(const System& system, const proofs::StepReport& report, StepState& state) {
    std::vector<char> holds(system.nodes.size()), emptied(system.nodes.size());
    const auto look = [&](NodeId node, const Content& filling) {
        (is_emptied(filling) ? emptied : holds)[node.value] = 1;
    };
    for (std::size_t i = 0; i < system.runs.size(); ++i) {
        look(system.runs[i].from, state.runs[i]);
        look(system.runs[i].to, state.runs[i]);
    }
    for (std::size_t i = 0; i < system.parts.size(); ++i) {
        for (const Content& filling : state.of_part(system, PartId(i))) {
            for (const NodeId node : system.parts[i].nodes) {
                look(node, filling);
            }
        }
    }
    for (const NodeId node : report.charged) {
        if (emptied[node.value] != 0 && holds[node.value] == 0) {
            state.pressure[node.value] = false;
        }
    }
}

struct Shown {
    std::size_t text = 0;
    bool pressed = false;
    bool operator==(const Shown&) const = default;
};

class Writer {
  public:
    explicit Writer(const Words& words)
        : words_(words) {
        text(""); // what is not told
    }

    LiveStates write(const proofs::ProcedureReport& report, const std::vector<ValueSet>& before) {
        json_.begin_object().key("steps").begin_array();
        step(before, nullptr);
        for (const proofs::StepReport& each : report.steps) {
            StepState state = step_state(words_.system(), each);
            gas_has_run_ = gas_has_run_ || std::ranges::any_of(each.running, [this](SourceId source) {
                               const FluidId fluid = words_.system()[source].fluid;
                               return fluid && words_.system()[fluid].gas;
                           });
            if (!gas_has_run_) {
                forget_pressure_of_emptied(words_.system(), each, state);
            }
            step(each.standing, &state);
        }
        json_.end_array().key("texts").begin_array();
        for (const std::string& each : texts_) {
            json_.value(each);
        }
        json_.end_array();
        valves(report, before);
        json_.key("captions").begin_array();
        json_.value(words_.tongue().text(Saying::drawing_at_the_start));
        json_.value(words_.tongue().text(Saying::drawing_after_step));
        json_.end_array().end_object();
        // Line ends stand between values only: without them and what indents the next line it is a third as long.
        std::string states;
        bool indent = false;
        for (const char each : json_.take()) {
            indent = each == '\n' || (indent && each == ' ');
            if (!indent) {
                each == '<' ? states += "\\u003c" : states += each;
            }
        }
        return {std::move(states), std::move(key_)};
    }

  private:
    [[nodiscard]] const System& system() const { return words_.system(); }

    void valves(const proofs::ProcedureReport& report, const std::vector<ValueSet>& before) {
        std::vector<Card> cards = drawing_graph(words_, nullptr).cards;
        std::erase_if(cards, [](const Card& card) { return !card.valve; });
        std::vector<std::array<std::string, 5>> signs;
        json_.key("valves").begin_array();
        std::vector<std::size_t> last(cards.size(), SIZE_MAX);
        const auto step_of = [&](const std::vector<ValueSet>& standing) {
            json_.begin_array();
            for (std::size_t i = 0; i < cards.size(); ++i) {
                cards[i].stands = stands_in(system(), cards[i], standing);
                const auto sign = card_sign(cards[i]);
                auto known = std::ranges::find(signs, sign);
                known = known == signs.end() ? signs.insert(known, sign) : known;
                const auto index = static_cast<std::size_t>(known - signs.begin());
                if (last[i] != index) {
                    last[i] = index;
                    json_.value(place_id(cards[i])).value(static_cast<std::uint64_t>(index));
                }
            }
            json_.end_array();
        };
        step_of(before);
        for (const proofs::StepReport& each : report.steps) {
            step_of(each.standing);
        }
        json_.end_array().key("signs").begin_array();
        for (const auto& sign : signs) {
            json_.begin_array();
            for (const std::string& each : sign) {
                json_.value(each);
            }
            json_.end_array();
        }
        json_.end_array();
    }

    std::size_t text(const std::string& words) {
        const auto [found, is_new] = text_index_.try_emplace(words, texts_.size());
        if (is_new) {
            texts_.push_back(words);
        }
        return found->second;
    }

    std::string letter(Content filling) {
        // One letter for much and little, and one for what has been emptied.
        const bool emptied = !filling.fluids.empty() && !filling.traces && is_emptied(filling);
        filling.most_percent = 100;
        Wording words = filling_words(words_, filling);
        if (emptied) {
            words = plain(words_.tongue().say<Saying::drawing_emptied>(in<"what">(words)));
        }
        const auto known = std::ranges::find(key_, words, &SheetKey::words);
        if (known != key_.end()) {
            return known->sign;
        }
        const std::size_t i = key_.size();
        key_.push_back({i < 26 ? std::string(1, static_cast<char>('a' + i)) : std::to_string(i - 25), words});
        return key_.back().sign;
    }

    void show(const std::string& id, std::string words, const std::vector<Content>& holds, bool pressed) {
        if (pressed) {
            words += words.empty() ? "P" : " P";
        }
        std::vector<std::string> letters;
        for (const Content& filling : holds) {
            const std::string each = letter(filling);
            if (std::ranges::find(letters, each) == letters.end()) {
                letters.push_back(each);
                words += (words.empty() ? "" : " ") + each;
            }
        }
        const Shown shown{text(words), pressed};
        const auto [last, is_new] = last_.try_emplace(id, Shown{});
        if (last->second != shown) {
            last->second = shown;
            json_.value(id).value(static_cast<std::uint64_t>(shown.text)).value(std::uint64_t{pressed});
        }
    }

    // Without a state only how things stand is known.
    void step(const std::vector<ValueSet>& standing, const StepState* state) {
        json_.begin_array();
        const auto stands = [&](VariableId variable) {
            return variable ? stands_words(words_, variable, standing) : std::string();
        };
        for (std::size_t i = 0; i < system().parts.size(); ++i) {
            const Part& part = system().parts[i];
            if (!part.nodes.empty()) {
                show(fmt::format("p{}", i), stands(part.variable),
                     state == nullptr ? std::vector<Content>{} : state->of_part(system(), PartId(i)),
                     state != nullptr && state->presses_on(system(), PartId(i)));
            }
        }
        for (std::size_t i = 0; i < system().nodes.size(); ++i) {
            const Node& node = system().nodes[i];
            if (!node.part && node.kind == NodeKind::end) {
                show(fmt::format("n{}", i), stands(node.end), {}, state != nullptr && state->pressure[i]);
            }
        }
        for (std::size_t i = 0; state != nullptr && i < system().runs.size(); ++i) {
            const Run& run = system().runs[i];
            show(fmt::format("r{}", i), {}, {state->runs[i]},
                 state->pressure[run.from.value] && state->pressure[run.to.value]);
        }
        json_.end_array();
    }

    Words words_;
    bool gas_has_run_ = false;
    text::JsonWriter json_;
    std::vector<std::string> texts_;
    std::unordered_map<std::string, std::size_t> text_index_;
    std::map<std::string, Shown> last_;
    std::vector<SheetKey> key_;
};

} // namespace

std::string stands_words(const Words& words, VariableId variable, const std::vector<ValueSet>& standing) {
    return variable.value < standing.size()
               ? label_lines(words.values(variable, standing[variable.value]), position_columns, 1).front()
               : std::string();
}

LiveStates live_states(const Words& words, const proofs::ProcedureReport& report, const std::vector<ValueSet>& before) {
    return Writer(words).write(report, before);
}

} // namespace curbstop::output
