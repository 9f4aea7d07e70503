#include "scan/locked_gateway.hpp"

#include <algorithm>

#include "scan/said.hpp"

namespace whichwire {

namespace {

using Kind = LineElement::Kind;

bool little(const LineElement& element) { return element.says(Sense::noise) || element.says(Sense::heading); }

class Lock {
 public:
  Lock(const TextLine& line, const Network& network, std::vector<LineElement>& elements)
      : line_(line), network_(network), e_(elements) {}

  bool fold_one() {
    for (std::size_t i = 0; i < e_.size(); ++i) {
      if (!e_[i].says(Sense::locked)) continue;
      const std::size_t gateway = gateway_beside(i);
      if (gateway == nowhere || !of_others(i, gateway)) continue;
      const auto [first, last] = std::minmax(i, gateway);
      LineElement reason;
      reason.kind = Kind::sense;
      reason.sense = Sense::behind_gateway;
      reason.first = e_[first].first;
      reason.last = e_[last].last;
      const auto from = e_.begin() + static_cast<std::ptrdiff_t>(first);
      *from = std::move(reason);
      e_.erase(from + 1, e_.begin() + static_cast<std::ptrdiff_t>(last) + 1);
      return true;
    }
    return false;
  }

 private:
  bool is_gateway(std::size_t i) const {
    return e_[i].is(Kind::module) && e_[i].hits.size() == 1 &&
           std::ranges::find(network_.gateways, e_[i].hits[0].module, &Gateway::module) != network_.gateways.end();
  }

  /// `gateway locked`, `the gateway module is locked`, `locked gateway`.
  std::size_t gateway_beside(std::size_t lock) const {
    for (std::size_t k = lock; k-- > 0;) {
      if (is_gateway(k)) return k;
      if (!little(e_[k])) break;
    }
    for (std::size_t k = lock + 1; k < e_.size(); ++k) {
      if (is_gateway(k)) return k;
      if (!little(e_[k])) break;
    }
    return nowhere;
  }

  /// Others are told of, and not that they live; or they stand in other lines.
  bool of_others(std::size_t lock, std::size_t gateway) const {
    bool others = line_.tail.find(':') != std::string::npos;
    for (std::size_t k = 0; k < e_.size(); ++k) {
      if (k == lock || k == gateway) continue;
      if (e_[k].says(Sense::not_reachable)) others = true;
      if (e_[k].is(Kind::module)) {
        const bool same = e_[k].hits.size() == 1 && e_[k].hits[0].module == e_[gateway].hits[0].module;
        others = others || !same;
      }
      const auto answer = answer_said(e_[k]);
      if (answer == Answer::yes || e_[k].is(Kind::code)) return false;
    }
    return others && !in_a_column_of_its_own(gateway);
  }

  /// `ECM  no reply  GWM  locked` is two modules a line.
  bool in_a_column_of_its_own(std::size_t gateway) const {
    const bool by_id = e_[gateway].hits[0].kind == NameKind::id;
    return by_id && gateway > 0 && line_.words[e_[gateway].first].ends_cell_before();
  }

  const TextLine& line_;
  const Network& network_;
  std::vector<LineElement>& e_;
};

}  // namespace

void fold_locked_gateways(const TextLine& line, const Network& network, std::vector<LineElement>& elements) {
  while (Lock(line, network, elements).fold_one()) {
  }
}

}  // namespace whichwire
