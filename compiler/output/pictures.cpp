#include "output/pictures.h"

#include "output/picture_svg.h"

#include <utility>

namespace curbstop::output {

std::vector<Picture> compose_pictures(const Words& words, const proofs::ProcedureReport& report,
                                      std::vector<meaning::ValueSet> before) {
    const DrawingGraph graph = drawing_graph(words, nullptr);
    std::vector<Picture> pictures;
    for (const proofs::StepReport& step : report.steps) {
        pictures.push_back(compose_picture(words, graph, step, std::move(before)));
        before = step.standing;
    }
    return pictures;
}

std::vector<std::string> draw_pictures(const Words& words, const proofs::ProcedureReport& report,
                                       std::vector<meaning::ValueSet> before) {
    std::vector<std::string> drawn;
    for (const Picture& picture : compose_pictures(words, report, std::move(before))) {
        drawn.push_back(picture.empty() ? std::string() : picture_svg(picture, words.tongue()));
    }
    return drawn;
}

} // namespace curbstop::output
