// Which checks a suspected fault calls for. Tests: tests/checks/plan.cpp.
#pragma once

#include <map>
#include <set>

#include "checks/bus_checks.hpp"

namespace whichwire {

/// Collects the checks that suspects call for, each once.
class Collector {
 public:
  explicit Collector(const Job& job) : job_(job) {}

  void add_for(const Fault& fault);
  void add_general(const Hypotheses& hypotheses);

  std::vector<Candidate> candidates;

 private:
  /// Whether `key` was not asked for before.
  bool first(const std::string& key) { return asked_.insert(key).second; }

  void add(Candidate candidate) { candidates.push_back(std::move(candidate)); }
  void add_plug(std::size_t module);
  void add_module(const Fault& fault);
  void add_connector();
  void add_bus_at(std::size_t bus, const End& end);
  void add_bus(std::size_t bus);
  void add_segment(std::size_t bus, std::size_t segment);
  void add_continuity(std::size_t bus, std::size_t module);
  End easiest_place(std::size_t bus, const End& but) const;
  const Wiring& wiring(std::size_t bus);

  const Job& job_;
  std::set<std::string> asked_;
  std::map<std::size_t, Wiring> wirings_;
};

}  // namespace whichwire
