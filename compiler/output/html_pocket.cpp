// The pocket form: a line per step, for those who know the full sheet.
#include "output/html.h"
#include "output/html_escape.h"
#include "output/html_parts.h"
#include "output/words.h"

#include <fmt/format.h>

#include <iterator>

namespace curbstop::output {
namespace {

// A mark beside a step that a caution is about; the words stand in the block at the top.
constexpr std::string_view caution_mark =
    R"(<svg class="mark" viewBox="0 0 24 22" width="12" height="11" role="img" aria-label="{}">)"
    R"(<path d="M12 1 23 21H1Z" fill="none" stroke="currentColor" stroke-width="2.4" stroke-linejoin="round"/>)"
    R"(<path d="M12 8v6M12 16.5v2" stroke="currentColor" stroke-width="2.6"/></svg>)";

// Letters that a page takes, about, at the sizes of sheet_pocket.css.
constexpr std::size_t roomy_up_to = 3200;
constexpr std::size_t even_up_to = 5000;

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
        for (const SheetStage& stage : sheet_->stages) {
            put("<section>\n<h2>{}</h2>\n", html_label(stage.label));
            list(stage.blocks);
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

    /// How much there is to fit on a page.
    [[nodiscard]] std::string_view density() const {
        std::size_t letters = 0;
        const auto count = [&](const auto& self, const std::vector<Block>& blocks) -> void {
            for (const Block& block : blocks) {
                letters += plain(block.heading).size() + block.step.title.size() + plain(block.step.brief).size() + 8;
                self(self, block.blocks);
            }
        };
        for (const SheetStage& stage : sheet_->stages) {
            letters += 40 + stage.label.size();
            count(count, stage.blocks);
        }
        return letters > roomy_up_to ? (letters > even_up_to ? "dense" : "even") : "roomy";
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

    void list(const std::vector<Block>& blocks) {
        out_ += "<ol>\n";
        for (const Block& block : blocks) {
            if (block.kind == BlockKind::step) {
                step(block.step, {});
            } else if (is_one_step(block)) {
                step(block.blocks.front().step, html_phrase(tongue_.say<Saying::lead_in>(in<"what">(block.heading))));
            } else {
                box(block);
            }
        }
        out_ += "</ol>\n";
    }

    /// A condition on a single step is said in its line.
    [[nodiscard]] static bool is_one_step(const Block& block) {
        return (block.kind == BlockKind::conditional || block.kind == BlockKind::in_case) && block.blocks.size() == 1 &&
               block.blocks.front().kind == BlockKind::step;
    }

    void box(const Block& block) {
        put("<li class=\"part\"><p>{}", html_phrase(block.heading));
        for (const std::vector<Line>* lines : {&block.opening, &block.closing}) {
            for (const Line& line : *lines) {
                if (line.kind != LineKind::estimate) {
                    put(" {}", html_phrase(line.text));
                }
            }
        }
        out_ += "</p>\n";
        list(block.blocks);
        out_ += "</li>\n";
    }

    void step(const SheetStep& step, const std::string& condition) {
        put("<li value=\"{0}\"><label><input type=\"checkbox\"> <span><strong>{0} "
            "{1}</strong>{2}{3}{4}{5}</span></label>"
            "</li>\n",
            step.number, html_label(step.title), condition.empty() ? condition : " <i>" + condition + "</i>",
            step.brief.empty() ? std::string() : " " + html_phrase(step.brief),
            step.helper ? " <em>" + html_escaped(tongue_.text(Saying::pocket_two_people)) + "</em>" : std::string(),
            marks(step.number));
    }

    [[nodiscard]] std::string marks(std::uint32_t step) const {
        std::string out;
        for (std::size_t i = 0; i < sheet_->pocket.cautions.size(); ++i) {
            const auto& [caution, steps] = sheet_->pocket.cautions[i];
            for (const std::uint32_t each : steps) {
                if (each == step) {
                    // ANSI Z535 keeps the triangle for what can injure.
                    const bool injury = caution.signal != meaning::Signal::notice;
                    out += fmt::format(
                        " <span class=\"signs\">{}<b{}>{}</b></span>",
                        injury ? fmt::format(fmt::runtime(caution_mark), signal_word(caution.signal, tongue_))
                               : std::string(),
                        injury ? "" : " class=\"letter\"", letter(i));
                }
            }
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
