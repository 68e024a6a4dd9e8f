#include "output/clean_text.h"
#include "output/trace.h"
#include "output/words.h"

#include "meaning/quantity_text.h"
#include "text/utf8.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

namespace curbstop::output {

using namespace meaning;

namespace {

std::string place(const text::SourceSet& sources, text::Span span) {
    if (!span.source.valid()) {
        return {};
    }
    const text::Position at = sources.position(span);
    return fmt::format("{}:{}:{}", text::printable(sources[span.source].path), at.line, at.column);
}

std::string since(const TraceStep& step) {
    return step.number == 0 ? "since the start" : fmt::format("since step {} “{}”", step.number, one_line(step.title));
}

class Writer {
  public:
    Writer(const Trace& trace, const text::SourceSet& sources)
        : trace_(&trace)
        , sources_(&sources)
        , words_(trace.model->system) {}

    std::string write() {
        put("{}, after {}{}\n", label_of(*trace_->procedure),
            trace_->after.number == 0 ? "" : fmt::format("step {}: ", trace_->after.number),
            one_line(trace_->after.title));
        if (!trace_->proved) {
            put("The procedure is refused; what follows holds only as far as the proof came.\n");
        }
        standing();
        if (trace_->report != nullptr) {
            pressure(*trace_->report);
            contents(*trace_->report);
            pockets(*trace_->report);
            put("\n{}\n", trace_->report->safe_to_stop ? "safe to stop here: no source on, nothing runs out"
                                                       : "not safe to stop here");
        }
        return std::move(out_);
    }

  private:
    template <class... Args>
    void put(fmt::format_string<Args...> format, Args&&... args) {
        fmt::format_to(std::back_inserter(out_), format, std::forward<Args>(args)...);
    }

    // A column that no label of 500 letters blows up.
    [[nodiscard]] static std::size_t column(std::size_t widest) { return std::min<std::size_t>(widest, 36); }
    void padded(const std::string& text, std::size_t width) {
        out_ += text;
        const std::size_t used = text::display_width(text);
        out_.append(used < width ? width - used : 0, ' ');
    }

    void standing() {
        put("\nhow things stand (* changed by this step)\n");
        std::size_t names = 0;
        std::size_t ways = 0;
        for (const TraceStanding& each : trace_->standing) {
            names = std::max(names, text::display_width(words_.variable(each.variable)));
            ways = std::max(ways, text::display_width(words_.values(each.variable, each.values)));
        }
        for (const TraceStanding& each : trace_->standing) {
            out_ += each.changed ? "* " : "  ";
            padded(words_.variable(each.variable), column(names));
            out_ += "  ";
            padded(words_.values(each.variable, each.values), column(ways));
            put("  {}", since(each.since));
            const std::string where = each.since.number == 0 ? "" : place(*sources_, each.since.span);
            put("{}{}\n", where.empty() ? "" : ", ", where);
        }
        if (trace_->standing.empty()) {
            put("  nothing that can stand in several ways\n");
        }
    }

    void pressure(const proofs::StepReport& report) {
        put("\nsources that may be on\n");
        for (const SourceId source : report.running) {
            put("  {}\n", words_.source(source));
        }
        if (report.running.empty()) {
            put("  none\n");
        }
        for (const proofs::HeldBack& held : report.held_back) {
            std::vector<Phrase> barriers;
            for (const proofs::Barrier& barrier : held.barriers) {
                barriers.push_back(phrase(words_.variable(barrier.variable) + " (" +
                                          words_.values(barrier.variable, barrier.values) + ")"));
            }
            if (!barriers.empty()) {
                put("  held back from {}, by {}\n", words_.source(held.source),
                    plain(words_.tongue().all_of(barriers)));
            }
        }
        for (const proofs::Discharge& discharge : report.discharges) {
            put("  ran out during the step: {}, at {}\n", words_.source(discharge.source),
                words_.outlet(discharge.outlet));
        }
        put("\nmay be under pressure from a source that is on\n");
        for (const NodeId node : trace_->pressurised) {
            put("  {}\n", words_.node(node));
        }
        if (trace_->pressurised.empty()) {
            put("  nothing\n");
        }
    }

    void contents(const proofs::StepReport& report) {
        put("\nmay hold liquid\n");
        for (const std::size_t i : trace_->contents) {
            const ChamberId chamber = report.may_hold[i];
            std::vector<Phrase> fluids;
            if (i < report.fluids.size()) {
                for (const FluidId fluid : report.fluids[i]) {
                    fluids.push_back(phrase(words_.fluid(fluid)));
                }
            }
            const bool surely =
                std::find(report.surely_holds.begin(), report.surely_holds.end(), chamber) != report.surely_holds.end();
            put("  {}: {}{}\n", words_.chamber(chamber),
                fluids.empty() ? "liquid of an unknown sort" : std::string(plain(words_.tongue().one_of(fluids))),
                surely ? ", surely" : "");
        }
        if (trace_->contents.empty()) {
            put("  nothing\n");
        }
    }

    // "; at least 60 mg/L of Sanitising solution for 4 h; disinfected"
    [[nodiscard]] std::string disinfection(const proofs::PocketReport& pocket) const {
        std::string text;
        if (pocket.disinfectant.valid()) {
            text +=
                fmt::format("; at least {:.3g} mg/L of {}", pocket.reading * 1e6, words_.fluid(pocket.disinfectant));
            if (pocket.stood > 0) {
                const Quantity stood{Dimension::time, Rational(static_cast<std::int64_t>(pocket.stood))};
                text += " for " + format_quantity(stood, UnitSystem::metric);
            }
        }
        return text + (pocket.sanitised ? "; disinfected" : "");
    }

    void pockets(const proofs::StepReport& report) {
        put("\npipes, bodies and tanks, by what may be in them\n");
        for (const std::size_t i : trace_->pockets) {
            const proofs::PocketReport& pocket = report.pockets[i];
            std::vector<Phrase> fluids;
            for (const proofs::PocketReport::Part& part : pocket.fluids) {
                const std::string name = words_.fluid(part.fluid);
                fluids.push_back(phrase(part.most > 0.995  ? name
                                        : part.most > 0.01 ? fmt::format("up to {:.0f} % {}", 100 * part.most, name)
                                                           : "traces of " + name));
            }
            put("  {}: at most {:.0f} % full, {}{}; {}{}{}\n", pocket.label, 100 * (1 - pocket.gas),
                std::string(plain(words_.tongue().one_of(fluids))),
                pocket.dirt ? ", not flushed since it stood open" : "", pocket.cause,
                pocket.step == 0 ? "" : fmt::format(" in step {}", pocket.step), disinfection(pocket));
        }
        if (trace_->pockets.empty()) {
            put("  none\n");
        }
    }

    const Trace* trace_;
    const text::SourceSet* sources_;
    Words words_;
    std::string out_;
};

} // namespace

std::string trace_text(const Trace& trace, const text::SourceSet& sources) {
    return Writer(trace, sources).write();
}

} // namespace curbstop::output
