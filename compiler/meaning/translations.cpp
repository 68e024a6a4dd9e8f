#include "meaning/translations.h"

#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace curbstop::meaning {
namespace {

struct Missing {
    syntax::Node where;
    Languages languages = 0;
    bool has_text = false; ///< else it is a name that nothing labels
};

/// Of these, neither text nor label is printed on a sheet: they are for authors.
bool is_for_authors(Syntax kind) {
    switch (kind) {
    case Syntax::source_:
    case Syntax::lineup_:
    case Syntax::group_:
        return true;
    default:
        return false;
    }
}

/// What the sheet prints the name of where there is no label.
bool is_printed_by_name(Syntax kind) {
    switch (kind) {
    case Syntax::system_:
    case Syntax::procedure_:
    case Syntax::option_:
    case Syntax::zone_:
    case Syntax::cover_:
    case Syntax::vessel_:
    case Syntax::place_:
    case Syntax::part_:
    case Syntax::position_:
    case Syntax::fluid_:
        return true;
    default:
        return false;
    }
}

bool has_letter(std::string_view text) {
    return std::ranges::any_of(text, [](char c) {
        return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || static_cast<unsigned char>(c) >= 0x80;
    });
}

std::string names_of(Languages languages) {
    std::vector<std::string_view> names;
    for (const Language language : all_languages) {
        if (contains(languages, language)) {
            names.push_back(english_name(language));
        }
    }
    return fmt::format("{}", fmt::join(names, " and "));
}

class Finder {
  public:
    Finder(Languages wanted, text::DiagnosticSink& sink)
        : wanted_(wanted)
        , sink_(sink) {}

    void file(const syntax::Tree& tree) {
        language_ = language_of(tree);
        inside(tree.root(), false);
    }

    [[nodiscard]] const std::vector<Missing>& missing() const { return missing_; }

  private:
    // A tree is as deep as its blocks, and those are bounded.
    void inside(syntax::Node node, bool for_authors) {
        bool names_file = node.is(Syntax::photo_); // the first text of a photograph
        for (const syntax::Node child : node.children()) {
            if (child.is(Syntax::string_) && names_file) {
                names_file = false;
            } else if (child.is(Syntax::string_)) {
                string(child, for_authors || is_for_authors(node.kind()));
            } else {
                // Only the label of a kind is for authors, not what is in it.
                inside(child, child.is(Syntax::label_) && is_for_authors(node.kind()));
            }
        }
        if (is_printed_by_name(node.kind()) && !node.has(Syntax::label_)) {
            const Languages lacking = static_cast<Languages>(wanted_ & ~just(language_));
            if (const auto name = node.find(Syntax::name_); name && lacking != 0) {
                missing_.push_back({*name, lacking, false});
            }
        }
    }

    void string(syntax::Node string, bool for_authors) {
        Languages given = just(language_);
        for (const syntax::Node translation : string.children()) {
            const auto language = language_from_code(translation.child(0).text());
            if (!language) {
                continue;
            }
            if (contains(given, *language)) {
                sink_.add({.slug = "language-twice",
                           .span = translation.span(),
                           .message = fmt::format("this text is given in {} already", english_name(*language)),
                           .notes = *language == language_
                                        ? std::vector<std::string>{fmt::format("a text without a code is in the "
                                                                               "language of its file, {} here",
                                                                               english_name(language_))}
                                        : std::vector<std::string>{}});
            }
            given = static_cast<Languages>(given | just(*language));
        }
        const auto lacking = static_cast<Languages>(wanted_ & ~given);
        if (!for_authors && lacking != 0 && has_letter(string.unquoted())) {
            missing_.push_back({string, lacking, true});
        }
    }

    Languages wanted_;
    text::DiagnosticSink& sink_;
    Language language_ = Language::english;
    std::vector<Missing> missing_;
};

} // namespace

void check_translations(const Declarations& declarations, Languages wanted, text::DiagnosticSink& sink) {
    Finder finder(wanted, sink);
    for (const syntax::Tree& tree : declarations.trees) {
        if (!tree.nodes.empty()) {
            finder.file(tree);
        }
    }
    const std::vector<Missing>& missing = finder.missing();
    const std::size_t told = std::min(missing.size(), most_missing_texts_told);
    for (std::size_t i = 0; i < told; ++i) {
        const Missing& each = missing[i];
        const std::string languages = names_of(each.languages);
        text::Diagnostic diagnostic{
            .slug = "not-translated",
            .severity = text::Severity::warning,
            .span = each.where.span(),
            .message = each.has_text ? fmt::format("this text is not given in {}", languages)
                                     : fmt::format("`{}` has no label in {}", each.where.text(), languages)};
        if (i + 1 == told && missing.size() > told) {
            diagnostic.notes.push_back(
                fmt::format("{} texts are not given in every language that `languages` asks for; {} of them are told",
                            missing.size(), told));
        }
        sink.add(std::move(diagnostic));
    }
}

} // namespace curbstop::meaning
