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

StepPictures draw_pictures(const Words& words, const proofs::ProcedureReport& report,
                           std::vector<meaning::ValueSet> before) {
    StepPictures result;
    for (const Picture& picture : compose_pictures(words, report, std::move(before))) {
        PictureSvg drawn;
        if (!picture.empty()) {
            drawn = picture_svg(picture, words.tongue());
        }
        if (!drawn.error.empty()) {
            return {{}, std::move(drawn.error)};
        }
        result.steps.push_back(std::move(drawn.svg));
    }
    return result;
}

} // namespace curbstop::output
