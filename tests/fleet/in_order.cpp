// Results come in the order of the input whatever takes how long, and never more are begun than are wanted.
#include <doctest/doctest.h>

#include <atomic>
#include <stdexcept>
#include <vector>
#include <whichwire/in_order.hpp>

using namespace whichwire;

TEST_CASE("results are taken in the order of what was given, whatever the number of threads") {
  for (const std::size_t threads : {1U, 2U, 7U}) {
    CAPTURE(threads);
    int given = 0;
    std::vector<int> taken;
    in_order(
        threads, [&]() -> std::optional<int> { return given < 100 ? std::optional(given++) : std::nullopt; },
        [](int piece) {
          if (piece % 10 == 0) std::this_thread::sleep_for(std::chrono::milliseconds(2));
          return piece * piece;
        },
        [&](int result) {
          taken.push_back(result);
          return true;
        });
    REQUIRE(taken.size() == 100);
    for (int i = 0; i < 100; ++i) CHECK(taken[static_cast<std::size_t>(i)] == i * i);
  }
}

TEST_CASE("no more pieces are read ahead than there are threads") {
  int given = 0, taken = 0, most_ahead = 0;
  in_order(
      3, [&]() -> std::optional<int> { return given < 50 ? std::optional(given++) : std::nullopt; },
      [](int piece) { return piece; },
      [&](int) {
        most_ahead = std::max(most_ahead, given - taken);
        ++taken;
        return true;
      });
  CHECK(taken == 50);
  CHECK(most_ahead <= 4);
}

TEST_CASE("nothing more is taken once it is not wanted, and what is thrown comes out") {
  int given = 0, taken = 0;
  const auto next = [&]() -> std::optional<int> { return given++; };
  in_order(
      2, next, [](int piece) { return piece; }, [&](int) { return ++taken < 5; });
  CHECK(taken == 5);
  CHECK(given < 10);
  const auto fail = [](int piece) -> int {
    if (piece > 20) throw std::runtime_error("broken");
    return piece;
  };
  CHECK_THROWS_WITH(in_order(2, next, fail, [](int) { return true; }), "broken");
}
