// The two reports of a case. Tests: tests/cli/case.cpp.
#pragma once

#include "render/document.hpp"

namespace whichwire::render {

Document colleague_report(const CasePages& pages);
Document customer_report(const CasePages& pages);

}  // namespace whichwire::render
