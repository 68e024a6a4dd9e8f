#include "output/sheet_picture.h"

#include "output/picture.h"
#include "output/step_state.h"
#include "output/tongue.h"

#include <string>

namespace curbstop::output {

using namespace meaning;

namespace {

constexpr std::size_t most_beyond = 2; // names beside a tee

/// "from 1 to 2", "from 1 out"
Phrase way_words(const PictureWay& way, const Tongue& tongue) {
    const std::string from = tongue.number(way.from + 1);
    if (way.to && way.one_way) {
        return tongue.say<Saying::picture_way_only>(in<"from">(from), in<"to">(tongue.number(*way.to + 1)));
    }
    return way.to ? tongue.say<Saying::picture_way>(in<"from">(from), in<"to">(tongue.number(*way.to + 1)))
                  : tongue.say<Saying::picture_way_out>(in<"from">(from));
}

Phrase frame_words(const PictureFrame& frame, bool numbered, const Tongue& tongue) {
    std::vector<Phrase> open;
    bool surely = true;
    for (const PictureWay& way : frame.ways) {
        open.push_back(way_words(way, tongue));
        surely = surely && way.surely;
    }
    const auto ways = in<"ways">(tongue.all_of(open));
    const Phrase how = open.empty() ? phrase(tongue.text(Saying::picture_shut))
                       : !numbered
                           ? phrase(tongue.text(surely ? Saying::picture_through : Saying::picture_may_be_through))
                       : surely ? tongue.say<Saying::picture_open>(ways)
                                : tongue.say<Saying::picture_may_be_open>(ways);
    if (plain(how) == frame.stands) { // "open (open)"
        return how;
    }
    return tongue.say<Saying::standing>(in<"what">(frame.stands), in<"how">(how));
}

std::string part_words(const PicturePart& part, const Tongue& tongue) {
    Phrase moves;
    const bool numbered = part.numbered();
    for (const PictureFrame& frame : part.frames) {
        moves = moves.empty() ? frame_words(frame, numbered, tongue)
                              : tongue.say<Saying::moved_then>(in<"before">(moves),
                                                               in<"after">(frame_words(frame, numbered, tongue)));
    }
    std::string text = plain(tongue.say<Saying::picture_told>(in<"what">(part.label), in<"how">(moves)));
    for (std::size_t i = 0; numbered && i < part.ports.size(); ++i) {
        if (!part.ports[i].empty()) {
            text += " " +
                    plain(tongue.say<Saying::picture_told>(in<"what">(tongue.number(i + 1)), in<"how">(part.ports[i])));
        }
    }
    if (!part.out_to.empty()) {
        text += " " + plain(tongue.say<Saying::picture_out_to>(in<"where">(part.out_to))) + ".";
    }
    return text;
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
    return plain(what.empty() || what == zone ? tongue.say<Saying::leads_to>(in<"names">(zone))
                 : zone.empty()               ? tongue.say<Saying::leads_to>(in<"names">(what))
                                : tongue.say<Saying::leads_to_place>(in<"place">(zone), in<"names">(what)));
}

std::string frame_sides(const PicturePart& part, const PictureFrame& frame, const Tongue& tongue) {
    const bool checks = frame.ways.size() == 1 && frame.ways.front().one_way && frame.ways.front().to;
    return !checks || !part.numbered()
               ? std::string()
               : plain(tongue.say<Saying::picture_only>(in<"from">(tongue.number(frame.ways.front().from + 1)),
                                                        in<"to">(tongue.number(*frame.ways.front().to + 1))));
}

std::string picture_words(const Picture& picture, const Tongue& tongue) {
    std::string text;
    for (const PicturePart& part : picture.parts) {
        text += (text.empty() ? "" : " ") + part_words(part, tongue);
    }
    return text;
}

std::vector<PictureSign> picture_signs(const Tongue& tongue) {
    using Kind = PictureSign::Kind;
    return {
        {Kind::open, tongue.text(Saying::sign_open)},           {Kind::shut, tongue.text(Saying::sign_shut)},
        {Kind::side_shut, tongue.text(Saying::sign_side_shut)}, {Kind::in_doubt, tongue.text(Saying::sign_in_doubt)},
        {Kind::one_way, tongue.text(Saying::sign_one_way)},     {Kind::out, tongue.text(Saying::sign_out)}};
}

} // namespace curbstop::output
