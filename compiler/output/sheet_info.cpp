#include "output/sheet_info.h"

#include "output/sha256.h"

#include <cstdint>

namespace curbstop::output {

std::string content_version(const text::SourceSet& sources) {
    std::string all;
    for (std::uint32_t i = 0; i < sources.size(); ++i) {
        const std::string& text = sources[text::SourceId{i}].text;
        all += std::to_string(text.size());
        all += '\n';
        all += text;
    }
    return to_hex(sha256(all));
}

} // namespace curbstop::output
