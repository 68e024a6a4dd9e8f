// The pocket form: what stands around the steps, and steps that share something drawn together.
// Must not know: HTML, Markdown, models, proofs.
#pragma once

#include "output/sheet.h"

namespace curbstop::output {

/// Of a sheet that is composed otherwise.
[[nodiscard]] Pocket compose_pocket(const Sheet& sheet);

} // namespace curbstop::output
