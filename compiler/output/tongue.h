// Speaks one language: fills the sentences of the catalogue in, joins lists, writes numbers.
// Must not know: models, HTML, Markdown.
#pragma once

#include "output/phrase.h"
#include "output/sayings.h"

#include <cstdint>
#include <span>
#include <string>
#include <string_view>

namespace curbstop::output {

/// The name of a place in a sentence, for a template argument.
template <std::size_t Size>
struct PlaceName {
    // NOLINTNEXTLINE(google-explicit-constructor): written as a literal
    constexpr PlaceName(const char (&text)[Size]) { std::copy_n(text, Size, letters); }
    [[nodiscard]] constexpr std::string_view view() const { return {letters, Size - 1}; }
    char letters[Size] = {};
};

/// What stands in a place: `in<"what">(phrase)`.
template <PlaceName Name>
struct Filling {
    Phrase phrase;
};
template <PlaceName Name, class Content>
[[nodiscard]] Filling<Name> in(Content&& content) {
    return {phrase(std::forward<Content>(content))};
}

/// CLDR plural categories that the four languages have for whole numbers (Unicode CLDR, plurals.xml). French and
/// Spanish have `many` for whole millions; our numbers are in digits, with which they say the same as `other`.
enum class Plural : std::uint8_t { one, many, other };
[[nodiscard]] Plural plural_category(Language language, std::uint64_t count);

/// The decimal number with the language's signs (Unicode CLDR, numbers): digits with `.`, as C writes them, in.
[[nodiscard]] std::string localised_number(Language language, std::string_view digits);

class Tongue {
  public:
    explicit Tongue(Language language)
        : language_(language) {}

    [[nodiscard]] Language language() const { return language_; }

    /// A sentence with its places filled. Which names it has, the compiler checks.
    template <Saying What, PlaceName... Names>
    [[nodiscard]] Phrase say(const Filling<Names>&... fillings) const {
        static_assert(all_filled<What, Names...>(), "the sentence has other places than are filled");
        return filled(said(language_, What).other, {{{Names.view(), &fillings.phrase}...}});
    }
    /// The same of a number, which stands in {count}.
    template <Saying What, PlaceName... Names>
    [[nodiscard]] Phrase say_of(std::uint64_t count, const Filling<Names>&... fillings) const {
        static_assert(all_filled<What, PlaceName("count"), Names...>(),
                      "the sentence has other places than are filled");
        const Said& sentence = said(language_, What);
        const Phrase number = phrase(this->number(count));
        return filled(plural_category(language_, count) == Plural::one ? sentence.one : sentence.other,
                      {{{"count", &number}, {Names.view(), &fillings.phrase}...}});
    }
    /// A sentence without places.
    [[nodiscard]] std::string text(Saying what) const { return std::string(said(language_, what).other); }

    /// "a", "a and b", "a, b and c".
    [[nodiscard]] Phrase all_of(const std::vector<Phrase>& phrases) const;
    /// The same with "or".
    [[nodiscard]] Phrase one_of(const std::vector<Phrase>& phrases) const;
    /// "a; b; c": clauses that have commas themselves.
    [[nodiscard]] Phrase series_of(const std::vector<Phrase>& phrases) const;

    [[nodiscard]] std::string number(std::uint64_t count) const;
    /// Digits as C writes them, in this language's signs: "1234.5" is "1.234,5" in German.
    [[nodiscard]] std::string number(std::string_view digits) const { return localised_number(language_, digits); }
    /// A number and its unit, which no line end parts but in English. "20 L".
    [[nodiscard]] std::string measured(std::string_view digits, std::string_view unit) const;

  private:
    struct Place {
        std::string_view name;
        const Phrase* phrase;
    };
    struct Places {
        std::initializer_list<Place> all;
    };
    template <Saying What, PlaceName... Names>
    [[nodiscard]] static constexpr bool all_filled() {
        constexpr std::string_view sentence = english_sayings[static_cast<std::size_t>(What)].other;
        bool known = true;
        take_apart(
            sentence, [](std::string_view) {},
            [&]([[maybe_unused]] std::string_view place) { known = known && ((place == Names.view()) || ...); });
        // A sentence may turn on a number that it does not say.
        return known && ((Names.view() == "count" || has_place(sentence, Names.view())) && ...);
    }
    [[nodiscard]] static Phrase filled(std::string_view sentence, Places places);

    Language language_;
};

} // namespace curbstop::output
