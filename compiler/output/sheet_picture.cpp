#include "output/sheet_picture.h"

#include "output/picture.h"
#include "output/step_state.h"
#include "output/tongue.h"

#include <string>

namespace curbstop::output {

using namespace meaning;

namespace {

constexpr std::size_t most_beyond = 2; // names beside a tee

std::string card_words(const PictureCard& card, const Tongue& tongue) {
    const std::string beyond = card.symbol == Symbol::tee ? beyond_words(card.beyond, tongue) : std::string();
    return beyond.empty() ? card.label : plain(tongue.say<Saying::standing>(in<"what">(card.label), in<"how">(beyond)));
}

std::string ends_words(const Picture& picture, const PicturePipe& pipe, const Tongue& tongue) {
    const PictureCard& first = picture.cards[pipe.from];
    // Where a tee leads is told once per pipe: from its farther end.
    const auto from = in<"from">(pipe.from < pipe.to ? first.label : card_words(first, tongue));
    const auto to = in<"to">(card_words(picture.cards[pipe.to], tongue));
    return plain(pipe.kind == PipeKind::falls ? tongue.say<Saying::falls_over>(from, to)
                                              : tongue.say<Saying::pipe_ends>(from, to));
}

std::string pipe_words(const Picture& picture, const PicturePipe& pipe, const Tongue& tongue) {
    const auto shut_at = [&](std::size_t card) {
        return tongue.say<Saying::pipe_shut_at>(in<"where">(picture.cards[card].label));
    };
    std::vector<Phrase> said;
    if (pipe.kind == PipeKind::coupled) {
        said.push_back(phrase(tongue.text(Saying::pipe_coupled)));
    }
    if (pipe.holds) {
        said.push_back(phrase(picture.key[*pipe.holds].words));
    }
    if (pipe.pressure) {
        said.push_back(phrase(tongue.text(Saying::may_be_pressed)));
    }
    if (pipe.shut_from) {
        said.push_back(shut_at(pipe.from));
    }
    if (pipe.shut_to) {
        said.push_back(shut_at(pipe.to));
    }
    if (pipe.optional) {
        said.push_back(phrase(tongue.text(Saying::not_in_every_variant)));
    }
    const std::string ends = ends_words(picture, pipe, tongue);
    return plain(said.empty() ? tongue.say<Saying::picture_pipe>(in<"ends">(ends))
                              : tongue.say<Saying::picture_told>(in<"what">(ends), in<"how">(tongue.series_of(said))));
}

std::string contents_words(const Picture& picture, const PictureCard& card, const Tongue& tongue) {
    std::vector<Phrase> said;
    for (const std::size_t key : card.holds) {
        said.push_back(phrase(picture.key[key].words));
    }
    if (card.pressure) {
        said.push_back(phrase(tongue.text(Saying::may_be_pressed)));
    }
    return said.empty()
               ? std::string()
               : plain(tongue.say<Saying::picture_in>(in<"where">(card.label), in<"what">(tongue.series_of(said))));
}

std::string moves_words(const PictureCard& card, const Tongue& tongue) {
    std::vector<Phrase> moves;
    for (const std::string& move : card.moves) {
        moves.push_back(phrase(move));
    }
    return plain(tongue.say<Saying::picture_told>(in<"what">(card.label), in<"how">(tongue.series_of(moves))));
}

} // namespace

Wording filling_words(const Words& words, const Content& filling) {
    const Tongue& tongue = words.tongue();
    if (filling.fluids.empty()) {
        return tongue.text(Saying::holds_air);
    }
    std::vector<Phrase> fluids;
    for (const FluidId fluid : filling.fluids) {
        fluids.push_back(phrase(words.fluid(fluid)));
    }
    Phrase what = tongue.one_of(fluids);
    if (filling.traces) {
        what = tongue.say<Saying::traces_of>(in<"fluids">(what));
    }
    if (filling.most_percent < 100) {
        const std::string percent = tongue.measured(std::to_string(filling.most_percent), "%");
        what = tongue.say<Saying::at_most_full>(in<"what">(what), in<"percent">(percent));
    }
    return plain(what);
}

std::string move_words(const Words& words, const Moved& moved, const std::string& card) {
    const Tongue& tongue = words.tongue();
    std::vector<std::string> stands{words.values(moved.variable, moved.before)};
    for (const std::uint32_t value : moved.through) {
        stands.push_back(words.value(moved.variable, value));
    }
    // Where a variant lacks what it is put to, it may stand otherwise afterwards: what the step does is told.
    const bool told = !moved.through.empty() && (moved.after >> moved.through.back() & 1) != 0;
    const std::string after = words.values(moved.variable, moved.after);
    if (!told && stands.back() != after) {
        stands.push_back(after);
    }
    Phrase moves = phrase(stands.front());
    for (std::size_t i = 1; i < stands.size(); ++i) {
        moves = tongue.say<Saying::moved_then>(in<"before">(moves), in<"after">(stands[i]));
    }
    std::string what = words.variable(moved.variable);
    what.erase(0, own_label_begins(what, card));
    if (what.starts_with(card + " (") && what.ends_with(')')) {
        what = what.substr(card.size() + 2, what.size() - card.size() - 3);
    }
    return plain(what == card ? moves : tongue.say<Saying::moved_of>(in<"what">(what), in<"moves">(moves)));
}

std::string names_words(const std::vector<std::string>& found, const Tongue& tongue) {
    const std::size_t named = found.size() <= most_beyond + 1 ? found.size() : most_beyond;
    std::vector<Phrase> names;
    for (std::size_t i = 0; i < named; ++i) {
        names.push_back(phrase(found[i]));
    }
    if (named < found.size()) {
        names.push_back(tongue.say_of<Saying::names_more>(found.size() - named));
    }
    return plain(tongue.all_of(names));
}

std::string beyond_words(const std::vector<std::string>& beyond, const Tongue& tongue) {
    return beyond.empty() ? std::string()
                          : plain(tongue.say<Saying::leads_to>(in<"names">(names_words(beyond, tongue))));
}

std::string onward_words(const std::string& zone, const std::string& what, const Tongue& tongue) {
    return plain(what.empty() || what == zone
                     ? tongue.say<Saying::leads_to>(in<"names">(zone))
                     : tongue.say<Saying::leads_to_place>(in<"place">(zone), in<"names">(what)));
}

std::string out_words(const PictureOut& out, const Tongue& tongue) {
    if (out.fills || out.into.empty()) {
        return tongue.text(out.fills ? Saying::out_runs_in : Saying::out_runs_out);
    }
    return plain(tongue.say<Saying::out_runs_into>(in<"where">(out.into)));
}

std::string picture_words(const Picture& picture, const Tongue& tongue) {
    std::string text = plain(tongue.say<Saying::picture_after_step>(in<"step">(tongue.number(picture.step))));
    const auto sentence = [&text](const std::string& said) { text += said.empty() ? said : " " + said; };
    for (const PictureCard& card : picture.cards) {
        if (card.moved) {
            sentence(moves_words(card, tongue));
        }
    }
    for (const PictureCard& card : picture.cards) {
        sentence(contents_words(picture, card, tongue));
    }
    for (const PicturePipe& pipe : picture.pipes) {
        sentence(pipe_words(picture, pipe, tongue));
    }
    for (const PictureOut& out : picture.outs) {
        sentence(plain(tongue.say<Saying::picture_told>(in<"what">(out.at), in<"how">(out_words(out, tongue)))));
    }
    return text;
}

std::vector<PictureSign> picture_signs(const Tongue& tongue) {
    using Kind = PictureSign::Kind;
    return {{Kind::moved, tongue.text(Saying::sign_moved)},
            {Kind::open_valve, tongue.text(Saying::sign_open_valve)},
            {Kind::shut_valve, tongue.text(Saying::sign_shut_valve)},
            {Kind::pressure, tongue.text(Saying::sign_pressure)},
            {Kind::bar, tongue.text(Saying::sign_bar)},
            {Kind::falls, tongue.text(Saying::sign_falls)},
            {Kind::optional, tongue.text(Saying::sign_optional)}};
}

} // namespace curbstop::output
