// Refused cases, with exactly what is said about them. A case is an entry a line; only a last line whose writing was
// cut off is no mistake.
#include <whichwire/casefile.hpp>

#include "bad/golden.hpp"

using namespace whichwire;

TEST_CASE("every refused case is refused with exactly its text") {
  test::check_folder("case", ".jsonl", 20, [](const std::string& path) {
    const CaseResult result = load_case(path);
    CHECK(!result.job);
    return result.mistakes;
  });
}
