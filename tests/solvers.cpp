#include "solvers.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <sstream>

#include "running.hpp"

namespace whichwire::test {

namespace {

Cost cost(double log) { return -std::llround(1000 * log); }

/// Solutions of solvers give the value of each variable: candidates first.
SolvedSet set_of(const CostModel& model, const std::vector<int>& values) {
  SolvedSet set;
  for (std::size_t c = 0; c < model.candidate.size() && c < values.size(); ++c) {
    if (values[c] != 0) set.members.push_back(static_cast<search::Candidate>(c));
  }
  return set;
}

void sort(std::vector<SolvedSet>& sets) {
  std::sort(sets.begin(), sets.end(), [](const SolvedSet& a, const SolvedSet& b) {
    return a.cost != b.cost ? a.cost < b.cost : a.members < b.members;
  });
}

/// The number after the last `words` in a solver's output, or `otherwise`.
double number_after(const std::string& out, const std::string& words, double otherwise) {
  const auto at = out.rfind(words);
  return at == std::string::npos ? otherwise : std::strtod(out.c_str() + at + words.size(), nullptr);
}

std::string in_file(const std::string& name, const std::string& text) {
  const std::string path = scratch() + "/" + name;
  write_text(path, text);
  return path;
}

/// `N solution(COST): v v v …`, a line each.
Solved read_toulbar2(const CostModel& model, const std::string& out) {
  Solved solved;
  std::istringstream lines(out);
  for (std::string line; std::getline(lines, line);) {
    const auto at = line.find(" solution(");
    if (at == std::string::npos) continue;
    std::istringstream numbers(line.substr(line.find("):", at) + 2));
    std::vector<int> values;
    for (int value = 0; numbers >> value;) values.push_back(value);
    auto set = set_of(model, values);
    set.cost = std::strtoll(line.c_str() + at + 10, nullptr, 10) + model.least;
    solved.sets.push_back(std::move(set));
  }
  sort(solved.sets);
  solved.seconds = number_after(out, "Time                   :", -1);
  solved.proved = out.find("Number of solutions    : =") != std::string::npos;
  return solved;
}

Solved run_toulbar2(const CostModel& model, const std::string& file, Cost most) {
  const std::string below = std::to_string(most - model.least + 1);
  const auto ran = run("toulbar2 '" + file + "' -a -ub=" + below + " -s=1");
  return read_toulbar2(model, ran.out);
}

/// Models of clasp over a MaxSAT file: `v 1 -2 3 …` lines, then `o COST`.
Solved read_clasp(const CostModel& model, const std::string& out) {
  Solved solved;
  std::istringstream lines(out);
  std::vector<int> values;
  for (std::string line; std::getline(lines, line);) {
    if (line.starts_with("v ")) {
      std::istringstream numbers(line.substr(2));
      for (int value = 0; numbers >> value && value != 0;) values.push_back(value > 0 ? 1 : 0);
    } else if (line.starts_with("o ")) {
      auto set = set_of(model, values);
      set.cost = std::strtoll(line.c_str() + 2, nullptr, 10) + model.least;
      solved.sets.push_back(std::move(set));
      values.clear();
    }
  }
  sort(solved.sets);
  solved.seconds = number_after(out, "CPU Time       :", -1);
  return solved;
}

}  // namespace

Cost CostModel::cost_of(const std::vector<search::Candidate>& set) const {
  Cost sum = 0;
  for (const auto member : set) sum += candidate[member];
  for (const auto& step : steps) {
    const bool taken = std::any_of(set.begin(), set.end(), [&](search::Candidate member) {
      return std::count(step.causes.begin(), step.causes.end(), member) != 0;
    });
    if (taken) sum += step.cost;
  }
  return sum;
}

CostModel model_of(const search::Problem& problem) {
  CostModel model;
  for (const double log_odds : problem.log_odds) {
    model.candidate.push_back(cost(log_odds));
    model.least += std::min<Cost>(0, model.candidate.back());
  }
  using Causes = std::vector<search::Candidate>;
  std::vector<std::map<Level, Causes>> raise(problem.observations());
  for (search::Candidate c = 0; c < problem.candidates(); ++c) {
    for (const auto& [observation, level] : problem.signatures[problem.signature[c]]) {
      raise[observation][level].push_back(c);
    }
  }
  for (std::size_t o = 0; o < raise.size(); ++o) {
    const auto& likelihood = problem.likelihood[o];
    Cost before = cost(likelihood.front());
    for (auto level = raise[o].begin(); level != raise[o].end(); ++level) {
      CostModel::Step step;
      for (auto worse = level; worse != raise[o].end(); ++worse) {
        step.causes.insert(step.causes.end(), worse->second.begin(), worse->second.end());
      }
      const Cost here = cost(likelihood[static_cast<std::size_t>(level->first)]);
      step.cost = here - before;
      before = here;
      model.least += std::min<Cost>(0, step.cost);
      model.steps.push_back(std::move(step));
    }
  }
  return model;
}

std::string answer_set_program(const CostModel& model) {
  std::ostringstream out;
  const auto minimize = [&](Cost cost, const std::string& id, const std::string& atom) {
    out << "#minimize{" << std::abs(cost) << "," << id << ":" << (cost < 0 ? "not " : "") << atom << "}.\n";
  };
  for (std::size_t c = 0; c < model.candidate.size(); ++c) {
    const std::string id = "f(" + std::to_string(c) + ")";
    out << "{" << id << "}.\n";
    minimize(model.candidate[c], id, id);
  }
  for (std::size_t s = 0; s < model.steps.size(); ++s) {
    const std::string id = "b(" + std::to_string(s) + ")";
    for (const auto cause : model.steps[s].causes) out << id << " :- f(" << cause << ").\n";
    minimize(model.steps[s].cost, id, id);
  }
  out << "#show f/1.\n";
  return out.str();
}

// Functions of many variables are split into a chain of those of three: toulbar2 1.1.1 loses part of the cost of a
// forbidden tuple of many (seen with twelve), and then lists sets that do not exist.
std::string weighted_csp(const CostModel& model) {
  constexpr Cost forbidden = 1'000'000'000;
  std::ostringstream functions;
  std::size_t count = 0, variables = model.candidate.size() + model.steps.size();
  const auto unary = [&](std::size_t variable, Cost cost) {
    functions << "1 " << variable << " 0 1\n" << (cost < 0 ? 0 : 1) << " " << std::abs(cost) << "\n";
    ++count;
  };
  // `whole` is the or of two others; of one, when both are the same.
  const auto either = [&](std::size_t a, std::size_t b, std::size_t whole) {
    const bool two = a != b;
    functions << (two ? 3 : 2) << " " << a << " ";
    if (two) functions << b << " ";
    functions << whole << " 0 " << (two ? 4 : 2) << "\n";
    for (int bits = 0; bits < (two ? 4 : 2); ++bits) {
      functions << (bits & 1) << " ";
      if (two) functions << bits / 2 << " ";
      functions << (bits == 0 ? 1 : 0) << " " << forbidden << "\n";
    }
    ++count;
  };
  for (std::size_t c = 0; c < model.candidate.size(); ++c) unary(c, model.candidate[c]);
  for (std::size_t s = 0; s < model.steps.size(); ++s) {
    const auto& [causes, cost] = model.steps[s];
    const std::size_t taken = model.candidate.size() + s;
    unary(taken, cost);
    std::size_t before = causes.front();
    for (std::size_t i = 1; i + 1 < causes.size(); ++i) {
      either(before, causes[i], variables);
      before = variables++;
    }
    either(before, causes.back(), taken);
  }
  std::ostringstream out;
  out << "diagnosis " << variables << " 2 " << count << " " << forbidden << "\n";
  for (std::size_t v = 0; v < variables; ++v) out << (v == 0 ? "" : " ") << 2;
  out << "\n" << functions.str();
  return out.str();
}

std::string weighted_maxsat(const CostModel& model) {
  const auto candidates = static_cast<long>(model.candidate.size());
  std::ostringstream clauses;
  std::size_t count = 0;
  Cost top = 1;
  const auto soft = [&](long variable, Cost cost) {
    if (cost == 0) return;
    clauses << std::abs(cost) << " " << (cost > 0 ? -variable : variable) << " 0\n";
    top += std::abs(cost);
    ++count;
  };
  for (long c = 0; c < candidates; ++c) soft(c + 1, model.candidate[static_cast<std::size_t>(c)]);
  for (std::size_t s = 0; s < model.steps.size(); ++s) soft(candidates + static_cast<long>(s) + 1, model.steps[s].cost);
  for (std::size_t s = 0; s < model.steps.size(); ++s) {
    const long taken = candidates + static_cast<long>(s) + 1;
    for (const auto cause : model.steps[s].causes) {
      clauses << top << " " << taken << " -" << cause + 1 << " 0\n";
      ++count;
    }
    clauses << top << " -" << taken;
    for (const auto cause : model.steps[s].causes) clauses << " " << cause + 1;
    clauses << " 0\n";
    ++count;
  }
  std::ostringstream out;
  out << "p wcnf " << candidates + static_cast<long>(model.steps.size()) << " " << count << " " << top << "\n"
      << clauses.str();
  return out.str();
}

Solved best_by_clasp(const CostModel& model) {
  const auto file = in_file("model.lp", answer_set_program(model));
  const auto ran = run("gringo '" + file + "' | clasp -q1 --opt-strategy=usc,stratify");
  Solved solved;
  std::istringstream lines(ran.out);
  SolvedSet set;
  for (std::string line, before; std::getline(lines, line); before = line) {
    if (!line.starts_with("Optimization: ")) continue;
    set.cost = std::strtoll(line.c_str() + 14, nullptr, 10) + model.least;
    std::istringstream atoms(before);
    for (std::string atom; atoms >> atom;) {
      if (atom.starts_with("f(")) set.members.push_back(static_cast<search::Candidate>(std::stoul(atom.substr(2))));
    }
  }
  std::sort(set.members.begin(), set.members.end());
  solved.sets.push_back(std::move(set));
  solved.seconds = number_after(ran.out, "CPU Time     :", -1);
  solved.proved = ran.out.find("OPTIMUM FOUND") != std::string::npos;
  return solved;
}

Solved all_by_toulbar2(const CostModel& model, Cost most) {
  return run_toulbar2(model, in_file("model.wcsp", weighted_csp(model)), most);
}

Solved all_by_toulbar2_maxsat(const CostModel& model, Cost most) {
  return run_toulbar2(model, in_file("model.wcnf", weighted_maxsat(model)), most);
}

Solved best_by_clasp_maxsat(const CostModel& model) {
  const auto file = in_file("model.wcnf", weighted_maxsat(model));
  const auto ran = run("clasp '" + file + "' -q1,1 --opt-strategy=usc,stratify");
  auto solved = read_clasp(model, ran.out);
  solved.proved = ran.out.find("OPTIMUM FOUND") != std::string::npos;
  return solved;
}

Solved all_by_clasp_maxsat(const CostModel& model, Cost most) {
  const auto file = in_file("model.wcnf", weighted_maxsat(model));
  const auto bound = std::to_string(most - model.least);
  const auto ran = run("clasp '" + file + "' 0 --opt-mode=enum," + bound);
  auto solved = read_clasp(model, ran.out);
  solved.proved =
      ran.out.find("SATISFIABLE") != std::string::npos || ran.out.find("OPTIMUM FOUND") != std::string::npos;
  return solved;
}

}  // namespace whichwire::test
