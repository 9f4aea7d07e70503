// The class of an explanation: what kind of thing is wrong, and the parts by which the class names it.
// Source: the classes of findings.v1, realised by the wiring. Tests: tests/checks/verdict_class.cpp.
#pragma once

#include <optional>
#include <string>
#include <vector>
#include <whichwire/findings.hpp>

namespace whichwire {

/// The classes of many sets of faults of one network; remembers what each segment parts.
class Classes {
 public:
  explicit Classes(const Network& network);

  /// A `not_fitted` module is benign and counts for nothing beside another fault.
  VerdictClass of(const std::vector<Fault>& faults);

  /// The module, gateway, bus, segment, feed or ground by which the class names the set; `DLC` for the connector.
  std::vector<std::string> parts_of(const std::vector<Fault>& faults);

 private:
  /// The class of one fault as if it were present now, and the id that stands for it.
  struct Classed {
    VerdictClass verdict_class = VerdictClass::none;
    std::string part;
  };

  Classed classed(const Fault& fault);
  Classed local_to(std::size_t module) const;
  Classed shared(const std::vector<std::size_t>& users, bool connector, const std::string& id) const;
  Classed of_feed(std::size_t feed) const;
  Classed of_ground(std::size_t ground) const;
  Classed of_module(const Fault& fault) const;
  Classed of_break(std::size_t bus, std::size_t segment) const;

  const Network& network_;
  std::vector<std::vector<std::optional<Classed>>> breaks_;  ///< by bus and segment
};

VerdictClass class_of(const Network& network, const std::vector<Fault>& faults);
std::vector<std::string> class_parts_of(const Network& network, const std::vector<Fault>& faults);

/// Modules with a power pin on the feed or on any feed that hangs from it, ascending.
std::vector<std::size_t> modules_on_feed(const Network& network, std::size_t feed);

/// Whether `feed` is `above` or hangs from it.
bool hangs_from(const Network& network, std::size_t feed, std::size_t above);

/// Modules with a ground pin on the ground point, ascending.
std::vector<std::size_t> modules_on_ground(const Network& network, std::size_t ground);

}  // namespace whichwire
