// Minimal hitting sets of the literature through the search core; how they are expressed: textbook.hpp.
// Sources: R. Reiter, Artificial Intelligence 32 (1987) 57-95, the tree example (the input from memory, the answer
// recomputed independently); R. Greiner, B. Smith, R. Wilkerson, Artificial Intelligence 41 (1989) 79-88, where a
// pruning of that tree loses an answer (likewise); test files of the public repositories TheMatjaz/minihit and
// VeraLiconaResearchGroup/MHSGenerationAlgorithms, inputs and answers as published there.
#include <doctest/doctest.h>

#include "textbook.hpp"

using namespace whichwire::textbook;

TEST_CASE("Reiter's tree example has its six minimal hitting sets") {
  const Sets conflicts = {{"2", "4", "5"}, {"1", "2", "3"}, {"1", "3", "5"}, {"2", "4", "6"},
                          {"2", "4"},      {"2", "3", "5"}, {"1", "6"}};
  CHECK(minimal_hitting_sets(conflicts) ==
        Sets{{"1", "2"}, {"1", "3", "4"}, {"1", "4", "5"}, {"2", "3", "6"}, {"2", "5", "6"}, {"3", "4", "6"}});
}

TEST_CASE("the case that unsound pruning gets wrong has exactly two minimal hitting sets") {
  CHECK(minimal_hitting_sets({{"a", "b"}, {"b", "c"}, {"a", "c"}, {"b", "d"}, {"b"}}) == Sets{{"a", "b"}, {"b", "c"}});
}

TEST_CASE("published test files of hitting set programs give their published answers") {
  CHECK(minimal_hitting_sets({{"1", "2", "3", "4"},
                              {"3"},
                              {"2", "4"},
                              {"15"},
                              {"2", "9", "15"},
                              {"3", "9"},
                              {"7", "8"},
                              {"1", "7", "8", "9"}}) ==
        Sets{{"2", "3", "8", "15"}, {"2", "3", "7", "15"}, {"3", "4", "8", "15"}, {"3", "4", "7", "15"}});
  CHECK(minimal_hitting_sets({{"1", "2", "5"}, {"2", "3", "4"}, {"1", "3"}}) ==
        Sets{{"1", "2"}, {"1", "3"}, {"1", "4"}, {"2", "3"}, {"3", "5"}});
  CHECK(minimal_hitting_sets({{"1", "2", "3"}, {"3", "4", "5"}, {"5", "6", "7"}, {"7", "8", "9"}}).size() == 17);
}
