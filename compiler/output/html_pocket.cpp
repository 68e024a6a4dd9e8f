// The pocket form: a line per step, for those who know the full sheet.
#include "output/html.h"
#include "output/html_escape.h"
#include "output/html_parts.h"
#include "output/sheet_beforehand.h"
#include "output/words.h"

#include <fmt/format.h>

#include <iterator>

namespace curbstop::output {
namespace {

// A mark beside a step that a caution is about; the words stand in the block at the top.
constexpr std::string_view caution_mark =
    R"(<svg class="mark" viewBox="0 0 24 22" width="12" height="11" role="img" aria-label="{}: {}">)"
    R"(<path d="M12 1 23 21H1Z" fill="none" stroke="currentColor" stroke-width="2.4" stroke-linejoin="round"/>)"
    R"(<path d="M12 8v6M12 16.5v2" stroke="currentColor" stroke-width="2.6"/></svg>)";

class PocketWriter {
  public:
    explicit PocketWriter(const Sheet& sheet)
        : sheet_(&sheet) {}

    [[nodiscard]] std::string body() {
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
        return std::move(out_);
    }

  private:
    template <class... Args>
    void put(fmt::format_string<Args...> format, Args&&... args) {
        fmt::format_to(std::back_inserter(out_), format, std::forward<Args>(args)...);
    }

    void head() {
        put("<header>\n<h1>{}</h1>\n<p class=\"system\">{}. {}.</p>\n<p>{}</p>\n<p>{}</p>\n</header>\n",
            html_label(sheet_->procedure), html_label(sheet_->system), html_escaped(sheet_->pocket.title),
            html_escaped(sheet_->pocket.full_sheet), html_escaped(sheet_->pocket.proved));
    }

    void cautions() {
        if (sheet_->pocket.cautions.empty()) {
            return;
        }
        out_ += "<ul class=\"cautions\" aria-label=\"Cautions, before the steps that they are about\">\n";
        for (std::size_t i = 0; i < sheet_->pocket.cautions.size(); ++i) {
            const auto& [caution, steps] = sheet_->pocket.cautions[i];
            put("<li><strong>{} {}</strong> {} <span class=\"about\">({})</span></li>\n", signal_word(caution.signal),
                letter(i), html_escaped(caution.text), html_escaped(step_words(steps)));
        }
        out_ += "</ul>\n";
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
            block.kind == BlockKind::step ? step(block.step) : box(block);
        }
        out_ += "</ol>\n";
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

    void step(const SheetStep& step) {
        put("<li value=\"{0}\"><label><input type=\"checkbox\"><b class=\"number\">{0}</b> <span>{1}{2}{3}</span></label>"
            "</li>\n",
            step.number, html_phrase(step.brief), step.helper ? " <em>(two people)</em>" : "", marks(step.number));
    }

    [[nodiscard]] std::string marks(std::uint32_t step) const {
        std::string out;
        for (std::size_t i = 0; i < sheet_->pocket.cautions.size(); ++i) {
            const auto& [caution, steps] = sheet_->pocket.cautions[i];
            for (const std::uint32_t each : steps) {
                if (each == step) {
                    out += " " + fmt::format(fmt::runtime(caution_mark), signal_word(caution.signal), letter(i)) +
                           fmt::format("<b class=\"letter\" aria-hidden=\"true\">{}</b>", letter(i));
                }
            }
        }
        return out;
    }

    void foot() {
        out_ += "<footer>\n<p>Not on this form: ";
        for (std::size_t i = 0; i < sheet_->pocket.left_out.size(); ++i) {
            put("{}{}", i == 0 ? "" : "; ", html_escaped(sheet_->pocket.left_out[i]));
        }
        put(".</p>\n<p>Procedure <code>{}</code>, content version <code>{}</code>. Made by Curbstop {}.</p>\n"
            "</footer>\n",
            html_escaped(sheet_->procedure_name), html_escaped(sheet_->info.content_version),
            html_escaped(sheet_->info.tool_version));
    }

    const Sheet* sheet_;
    std::string out_;
};

} // namespace

std::string html_pocket(const Sheet& sheet) {
    PocketWriter writer(sheet);
    return html_document(sheet, sheet.procedure + " – " + sheet.pocket.title, {}, sheet_pocket_style(), writer.body());
}

std::string html_pocket(const meaning::Model& model, const meaning::Procedure& procedure,
                        const proofs::ProcedureReport& report, const SheetInfo& info) {
    return html_pocket(compose_sheet(model, procedure, report, info));
}

} // namespace curbstop::output
