// The pocket form, for those who know the full sheet: it writes what output/sheet_pocket.h draws together.
#include "output/html.h"
#include "output/html_escape.h"
#include "output/html_parts.h"
#include "output/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <iterator>

namespace curbstop::output {
namespace {

// A mark beside a step that a caution is about; the words stand in the block at the top.
constexpr std::string_view caution_mark =
    R"(<svg class="mark" viewBox="0 0 24 22" width="12" height="11" role="img" aria-label="{}">)"
    R"(<path d="M12 1 23 21H1Z" fill="none" stroke="currentColor" stroke-width="2.4" stroke-linejoin="round"/>)"
    R"(<path d="M12 8v6M12 16.5v2" stroke="currentColor" stroke-width="2.6"/></svg>)";

/// What a page takes, about, at the sizes of sheet_pocket.css.
struct Density {
    std::string_view name;
    std::size_t letters; ///< of a line in a column
    std::size_t lines;   ///< of all columns
    double line;         ///< the least lines that a step takes, for its box
};
// The most roomy one that all fits in is taken. What fits in none goes on over the page, and need not be small.
constexpr std::array densities{Density{"roomy", 55, 105, 1.2}, Density{"even", 45, 205, 1.2},
                               Density{"dense", 32, 390, 1.2}, Density{"full", 36, 450, 1.2}};
constexpr std::string_view of_several_pages = "even";

class PocketWriter {
  public:
    explicit PocketWriter(const Sheet& sheet)
        : sheet_(&sheet)
        , tongue_(sheet.language) {}

    [[nodiscard]] std::string body() {
        put("<div class=\"{}\">\n", density());
        head();
        out_ += "<main>\n";
        cautions();
        out_ += "<div class=\"columns\">\n";
        for (const PocketStage& stage : sheet_->pocket.stages) {
            put("<section>\n<h2>{}</h2>\n", html_label(stage.label));
            list(stage.entries);
            out_ += "</section>\n";
        }
        out_ += "</div>\n</main>\n";
        foot();
        out_ += "</div>\n";
        return std::move(out_);
    }

  private:
    template <class... Args>
    void put(fmt::format_string<Args...> format, Args&&... args) {
        fmt::format_to(std::back_inserter(out_), format, std::forward<Args>(args)...);
    }

    void head() {
        put("<header>\n<h1>{}</h1>\n<p class=\"system\">{}. {}.</p>\n<p>{} {}</p>\n</header>\n",
            html_label(sheet_->procedure), html_label(sheet_->system), html_escaped(sheet_->pocket.title),
            html_escaped(sheet_->pocket.full_sheet), html_words(sheet_->pocket.proved));
    }

    [[nodiscard]] std::string_view density() const {
        const auto fitting = std::ranges::find_if(
            densities, [&](const Density& each) { return lines(each) <= static_cast<double>(each.lines); });
        return fitting == densities.end() ? of_several_pages : fitting->name;
    }

    [[nodiscard]] double lines(const Density& density) const {
        const auto of = [&](std::size_t letters) {
            const std::size_t begun = (letters + density.letters - 1) / density.letters;
            return static_cast<double>(begun);
        };
        double all = 0;
        const auto count = [&](const auto& self, const std::vector<PocketEntry>& entries) -> void {
            for (const PocketEntry& entry : entries) {
                std::size_t letters = 8 + entry.title.size() + plain(entry.condition).size() +
                                      plain(entry.words).size() + 3 * entry.heed.size();
                for (const Phrase& blank : entry.blanks) {
                    letters += plain(blank).size();
                }
                all += entry.number == 0 ? of(plain(entry.heading).size()) : std::max(density.line, of(letters));
                self(self, entry.entries);
            }
        };
        for (const PocketStage& stage : sheet_->pocket.stages) {
            all += 1.5;
            count(count, stage.entries);
        }
        for (const auto& [caution, steps] : sheet_->pocket.cautions) {
            all += of(caution.text.size() + 12);
        }
        return all;
    }

    void cautions() {
        if (sheet_->pocket.cautions.empty()) {
            return;
        }
        put("<div class=\"cautions\">\n<p>{}</p>\n<ul>\n", html_escaped(sheet_->pocket.legend));
        for (std::size_t i = 0; i < sheet_->pocket.cautions.size(); ++i) {
            const Caution& caution = sheet_->pocket.cautions[i].first;
            put("<li><strong>{} {}</strong> <span dir=\"auto\">{}</span></li>\n", signal_word(caution.signal, tongue_),
                letter(i), html_words(caution.text));
        }
        out_ += "</ul>\n</div>\n";
    }

    /// A, B, … Z, AA: what stands for a caution beside its steps.
    [[nodiscard]] static std::string letter(std::size_t index) {
        std::string name;
        for (++index; index > 0; index = (index - 1) / 26) {
            name.insert(name.begin(), static_cast<char>('A' + (index - 1) % 26));
        }
        return name;
    }

    void list(const std::vector<PocketEntry>& entries) {
        out_ += "<ol>\n";
        for (const PocketEntry& entry : entries) {
            if (entry.number != 0) {
                step(entry);
            } else {
                put("<li class=\"part\"><p>{}</p>\n",
                    html_phrase(tongue_.say<Saying::lead_in>(in<"what">(entry.heading))));
                list(entry.entries);
                out_ += "</li>\n";
            }
        }
        out_ += "</ol>\n";
    }

    void step(const PocketEntry& entry) {
        put("<li value=\"{0}\"><label><input type=\"checkbox\"> <span><strong>{0}</strong> ", entry.number);
        if (!entry.condition.empty()) {
            put("<i>{}</i> ", html_phrase(tongue_.say<Saying::lead_in>(in<"what">(entry.condition))));
        }
        out_ += html_label(entry.title);
        if (!entry.words.empty()) {
            put(" <span class=\"more\">{}</span>", html_phrase(entry.words));
        }
        for (const Phrase& blank : entry.blanks) {
            put(" <span class=\"blank\">{}</span>", html_phrase(blank));
        }
        if (entry.people > 1) {
            const auto count = in<"count">(tongue_.number(entry.people));
            put(" <em>{}</em>",
                html_phrase(entry.people_until == 0 ? tongue_.say<Saying::pocket_people>(count)
                                                    : tongue_.say<Saying::pocket_people_until>(
                                                          count, in<"step">(tongue_.number(entry.people_until)))));
        }
        out_ += marks(entry) + "</span></label></li>\n";
    }

    [[nodiscard]] std::string marks(const PocketEntry& entry) const {
        std::string out;
        for (const std::size_t each : entry.heed) {
            const meaning::Signal signal = sheet_->pocket.cautions[each].first.signal;
            // ANSI Z535 keeps the triangle for what can injure.
            const bool injury = signal != meaning::Signal::notice;
            out += fmt::format(" <span class=\"signs\">{}<b{}>{}</b></span>",
                               injury ? fmt::format(fmt::runtime(caution_mark), signal_word(signal, tongue_))
                                      : std::string(),
                               injury ? "" : " class=\"letter\"", letter(each));
        }
        return out;
    }

    void foot() {
        std::vector<Phrase> left_out;
        for (const std::string& each : sheet_->pocket.left_out) {
            left_out.push_back(phrase(each));
        }
        put("<footer>\n<p>{} {} {}</p>\n</footer>\n",
            html_phrase(tongue_.say<Saying::pocket_left_out>(in<"what">(tongue_.series_of(left_out)))),
            html_phrase(sheet_->pocket.version),
            html_phrase(tongue_.say<Saying::made_by>(in<"tool">("Curbstop " + sheet_->info.tool_version))));
    }

    const Sheet* sheet_;
    Tongue tongue_;
    std::string out_;
};

} // namespace

std::string html_pocket(const Sheet& sheet) {
    PocketWriter writer(sheet);
    return html_document(sheet, sheet.procedure + " – " + sheet.pocket.short_title, {}, sheet_pocket_style(),
                         writer.body());
}

std::string html_pocket(const meaning::Model& model, const meaning::Procedure& procedure,
                        const proofs::ProcedureReport& report, const SheetInfo& info) {
    return html_pocket(compose_sheet(model, procedure, report, info));
}

} // namespace curbstop::output
