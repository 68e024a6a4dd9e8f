// Where the reader of a sheet may be between two steps: whoever skips the steps of an option has not gone along.
// Must not know: how steps are told.
#pragma once

#include "meaning/ids.h"
#include "output/applies.h"

#include <string>
#include <vector>

namespace curbstop::output {

class Whereabouts {
  public:
    /// Whether every reader is there; at first nobody knows.
    [[nodiscard]] bool surely(meaning::ZoneId place) const;
    /// Everybody is in one of these now.
    void are(const std::vector<meaning::ZoneId>& places);
    /// For whom `condition` holds: those who go through its steps.
    [[nodiscard]] Whereabouts of_those(const Applies& condition) const;
    /// After such steps, which began with `before`: those who went through them are here, the others where they were.
    void join_others(const Whereabouts& before, const Applies& condition);

  private:
    struct Reader {
        meaning::ZoneId place;
        std::vector<std::string> holds; ///< conditions known of this reader, as postfix

        bool operator==(const Reader&) const = default;
    };
    /// Of those for whom it does not hold, each with the knowledge that it does.
    [[nodiscard]] static std::vector<Reader> knowing(const std::vector<Reader>& readers, const std::string& condition);

    std::vector<Reader> readers_{Reader{}};
};

} // namespace curbstop::output
