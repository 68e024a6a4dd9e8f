// Every statement of a procedure, with how often it may be done. Must not know: what is looked for.
#pragma once

#include <functional>

#include "meaning/procedure.h"

namespace curbstop::quantities {

/// Tells every statement, inner ones too, and how often at most it is done: the product of the rounds around it.
void for_each_statement(const meaning::Procedure& procedure,
                        const std::function<void(const meaning::Statement&, std::uint64_t times)>& tell);

} // namespace curbstop::quantities
