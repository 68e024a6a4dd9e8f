#include "meaning/step_names.h"

#include <algorithm>
#include <optional>
#include <set>
#include <string>

#include <fmt/format.h>

#include "text/nearest.h"

namespace curbstop::meaning {
namespace {

constexpr std::string_view opening = "{step ";

/// A `{step NAME}` in a text: where, how long, and the name.
struct Written {
    std::size_t begin = 0, length = 0;
    std::string_view name;
};

std::optional<Written> next_in(std::string_view text, std::size_t from) {
    for (std::size_t begin = text.find(opening, from); begin != std::string_view::npos;
         begin = text.find(opening, begin + 1)) {
        const std::size_t name = begin + opening.size();
        const std::size_t end = text.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789_", name);
        if (end != std::string_view::npos && end > name && text[end] == '}') {
            return Written{begin, end + 1 - begin, text.substr(name, end - name)};
        }
    }
    return std::nullopt;
}

/// Goes to every text of a procedure that an author may have written a step into.
template <typename Change>
class Texts {
  public:
    Texts(System& system, const Change& change)
        : system_(system)
        , change_(change) {}

    void go(Procedure& procedure) {
        for (Stage& stage : procedure.stages) {
            text(stage.label);
            items(stage.items);
        }
    }

  private:
    void text(Text& each) {
        change_(each);
        for (Text::Translation& translation : each.others) {
            change_(translation.text);
        }
    }
    void seen(std::optional<Observation>& until) {
        if (until) {
            text(until->words);
        }
    }
    void items(StageItems& all) {
        for (StageItem& item : all) {
            std::visit([&](auto& what) { in(what); }, item.what);
        }
    }
    void statements(Statements& all) {
        for (Statement& statement : all) {
            std::visit([&](auto& what) { in(what); }, statement.what);
        }
    }

    void in(Step& step) {
        text(step.title);
        statements(step.statements);
    }
    void in(ConditionalSteps& some) { items(some.items); }
    void in(InCaseSteps& some) {
        text(some.words);
        items(some.items);
    }
    void in(RepeatSteps& some) {
        seen(some.until);
        items(some.items);
    }
    void in(MeanwhileSteps& some) {
        seen(some.flow.until);
        items(some.items);
    }

    void in(HoldStatement& what) { statements(what.body); }
    void in(FlowStatement& what) { seen(what.flow.until); }
    void in(PressuriseStatement& what) { seen(what.until); }
    void in(RepeatStatement& what) {
        seen(what.until);
        statements(what.body);
    }
    void in(WatchStatement& what) { text(what.words); }
    void in(HelperStatement& what) { text(what.words); }
    void in(WearStatement& what) {
        for (Text& item : what.items) {
            text(item);
        }
    }
    void in(BringStatement& what) { text(what.item); }
    void in(RecordStatement& what) { text(what.words); }
    void in(NoteStatement& what) { text(what.text); }
    void in(PhotoStatement& what) { text(system_.photos[what.photo.value].words); }
    void in(SignalStatement& what) { text(what.text); }
    void in(ConditionalStatement& what) { statements(what.body); }
    void in(InCaseStatement& what) {
        text(what.words);
        statements(what.body);
    }
    // Nothing that an author has written for readers.
    void in(SetStatement& /*what*/) {}
    void in(CoupleStatement& /*what*/) {}
    void in(UncoupleStatement& /*what*/) {}
    void in(CapStatement& /*what*/) {}
    void in(DipStatement& /*what*/) {}
    void in(LiftOutStatement& /*what*/) {}
    void in(PlaceStatement& /*what*/) {}
    void in(TakeAwayStatement& /*what*/) {}
    void in(VerifyStatement& /*what*/) {}
    void in(KeepStatement& /*what*/) {}
    void in(PourStatement& /*what*/) {}
    void in(WaitStatement& /*what*/) {}
    void in(ContractStatement& /*what*/) {}

    System& system_;
    const Change& change_;
};

} // namespace

void StepNames::declare(syntax::Node name, std::size_t number) {
    Declared& declared = declared_[std::string(name.text())];
    declared.numbers.push_back(number);
    declared.spans.push_back(name.span());
}

void StepNames::note_uses(const Text& text, syntax::Node string, const Scope& scope) {
    const auto note = [&](std::string_view told) {
        for (auto written = next_in(told, 0); written; written = next_in(told, written->begin + 1)) {
            // What came into the text by an argument of a fragment does not stand in the string itself.
            text::Span span = string.span();
            if (const auto place = string.text().find(told.substr(written->begin, written->length));
                place != std::string_view::npos) {
                span.begin += static_cast<std::uint32_t>(place);
                span.end = span.begin + static_cast<std::uint32_t>(written->length);
            }
            uses_.push_back({std::string(written->name), span, scope.trail});
        }
    };
    note(text);
    for (const Text::Translation& translation : text.others) {
        note(translation.text);
    }
}

void StepNames::write_numbers(Procedure& procedure, Context& context) const {
    if (uses_.empty()) {
        return;
    }
    std::set<text::Span> told; // a loop writes the same text out again
    for (const Use& use : uses_) {
        const auto found = declared_.find(use.name);
        if ((found != declared_.end() && found->second.numbers.size() == 1) || !told.insert(use.span).second) {
            continue;
        }
        Scope scope;
        scope.trail = use.trail;
        if (found == declared_.end()) {
            std::vector<std::string_view> names;
            for (const auto& [name, where] : declared_) {
                names.emplace_back(name);
            }
            const auto meant = text::nearest(use.name, names);
            context.complain(
                "which-step", use.span,
                fmt::format("no step of procedure `{}` has the name `{}`", procedure.name, use.name), &scope, {},
                meant ? std::vector{fmt::format("did you mean `{}`?", *meant)} : std::vector<std::string>{});
        } else {
            context.complain("which-step", use.span,
                             fmt::format("`{}` is the name of {} steps, written out: nobody could say which is meant",
                                         use.name, found->second.numbers.size()),
                             &scope, {}, {"give the name to one step that is written out once"},
                             {{found->second.spans.front(), "the first of them"}});
        }
    }
    const auto change = [&](std::string& text) {
        for (auto written = next_in(text, 0); written; written = next_in(text, written->begin)) {
            const auto found = declared_.find(written->name);
            const std::string number = found == declared_.end() ? "?" : std::to_string(found->second.numbers.front());
            text.replace(written->begin, written->length, number);
        }
    };
    Texts(context.system, change).go(procedure);
}

} // namespace curbstop::meaning
