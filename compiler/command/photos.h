// Reads the photographs that a system names, and says what is wrong with them. Must not know: outputs.
#pragma once

#include "meaning/system.h"
#include "text/diagnostic.h"
#include "text/read_file.h"
#include "text/source.h"

#include <cstddef>

namespace curbstop::command {

/// Of one photograph, and of all of a system and its procedures together. Our choice: a sheet is mailed, and kept on
/// telephones.
inline constexpr std::size_t max_photo_bytes = 2U * 1024U * 1024U;
inline constexpr std::size_t max_photos_bytes = 20U * 1024U * 1024U;

/// Fills in what each holds. False where one of them cannot be used: a message says why.
[[nodiscard]] bool load_photos(meaning::System& system, const text::SourceSet& sources, text::DiagnosticSink& sink,
                               const text::FileReader& reader);

} // namespace curbstop::command
