// What only the whole network shows. A bus is one connected graph of its segments; Boost.Graph says in how many pieces
// it is. A bus with mistakes of its own is left alone: what it lacks may be what was mistyped.
// Tested in tests/network/wiring_test.cpp.
#include <algorithm>
#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/connected_components.hpp>
#include <map>
#include <set>

#include "network/draft.hpp"

namespace whichwire {

namespace {

using json::Trail;
using Graph = boost::adjacency_list<boost::vecS, boost::vecS, boost::undirectedS>;

/// The ends of a bus, numbered as they occur.
class Ends {
 public:
  explicit Ends(const Bus& bus) {
    for (const Segment& segment : bus.segments) {
      number(segment.from);
      number(segment.to);
    }
  }

  std::size_t number(const End& end) {
    const auto [place, fresh] = numbers_.try_emplace({end.kind, end.index}, all_.size());
    if (fresh) all_.push_back(end);
    return place->second;
  }

  bool has(const End& end) const { return numbers_.contains({end.kind, end.index}); }
  const std::vector<End>& all() const { return all_; }

 private:
  std::map<std::pair<End::Kind, std::size_t>, std::size_t> numbers_;
  std::vector<End> all_;
};

// A mistake in one of these says nothing about what is wired to what.
constexpr std::string_view harmless_keys[] = {"name", "bit_rate", "called", "lines", "terminators", "commander"};

std::string listed(const Network& network, const std::vector<End>& ends) {
  constexpr std::size_t most = 5;
  std::string out;
  for (std::size_t i = 0; i < std::min(ends.size(), most); ++i) {
    out += (i > 0 ? ", " : "") + json::in_quotes(id_of(network, ends[i]));
  }
  return ends.size() > most ? out + " and " + std::to_string(ends.size() - most) + " more" : out;
}

/// An end that is missing or leads nowhere was complained of, or will be once the rest of the file is right.
bool leads_nowhere(const Segment& segment) {
  const auto lost = [](const End& end) { return end.kind != End::Kind::diagnostic_connector && end.index == nowhere; };
  return lost(segment.from) || lost(segment.to);
}

class Wiring {
 public:
  explicit Wiring(Draft& draft) : draft_(draft), network_(draft.network) {
    for (const Bus& bus : network_.buses) {
      ends_.emplace_back(bus);
      doubtful_.push_back(std::ranges::any_of(bus.segments, leads_nowhere) ||
                          draft_.complaints.any_below(buses_ / bus.id, harmless_keys));
    }
  }

  void check() {
    for (std::size_t b = 0; b < network_.buses.size(); ++b) {
      if (doubtful_[b]) continue;
      check_pieces(b);
      check_terminators(b);
      check_commander(b);
      check_ring(b);
      check_link(b);
      check_addresses(b);
    }
    check_connector();
    check_gateways();
    check_modules();
  }

 private:
  const json::Member& member(std::size_t bus) const { return *draft_.buses[bus]; }

  const json::Member& segment_member(std::size_t bus, std::size_t segment) const {
    return json::find(member(bus).value, "segments")->members[segment];
  }

  void check_pieces(std::size_t b) {
    const Bus& bus = network_.buses[b];
    Ends& ends = ends_[b];
    Graph graph(ends.all().size());
    for (const Segment& segment : bus.segments) add_edge(ends.number(segment.from), ends.number(segment.to), graph);
    std::vector<std::size_t> pieces(num_vertices(graph));
    const std::size_t count = pieces.empty() ? 0 : boost::connected_components(graph, pieces.data());
    for (std::size_t piece = 1; piece < count; ++piece) {
      std::vector<End> there;
      for (std::size_t i = 0; i < pieces.size(); ++i) {
        if (pieces[i] == piece) there.push_back(ends.all()[i]);
      }
      std::size_t first = 0;
      while (pieces[ends.number(bus.segments[first].from)] != piece) ++first;
      const Trail one = buses_ / bus.id;
      const Trail segments = one / "segments";
      draft_.say(segment_member(b, first).spot, segments / bus.segments[first].id,
                 "the bus is in pieces: no segment joins " + listed(network_, there) + " to " +
                     json::in_quotes(id_of(network_, ends.all().front())));
    }
  }

  void check_terminators(std::size_t b) {
    const Bus& bus = network_.buses[b];
    const Trail one = buses_ / bus.id;
    const Trail list = one / "terminators";
    const std::vector<json::Value>& items = json::items_in(member(b).value, "terminators");
    for (std::size_t i = 0; i < bus.terminators.size(); ++i) {
      if (ends_[b].has(bus.terminators[i].at) || bus.terminators[i].at == End{}) continue;
      const Trail here = list / i;
      draft_.say(json::find(items[i], "at")->spot, here / "at",
                 json::in_quotes(id_of(network_, bus.terminators[i].at)) +
                     " is not on this bus; a terminator sits at an end of one of its segments");
    }
  }

  void check_commander(std::size_t b) {
    const Bus& bus = network_.buses[b];
    if (bus.commander == nowhere || ends_[b].has({End::Kind::module, bus.commander})) return;
    const Trail one = buses_ / bus.id;
    draft_.say(json::find(member(b).value, "commander")->spot, one / "commander",
               json::in_quotes(network_.modules[bus.commander].id) + " is not on this bus; its commander must be");
  }

  /// A ring comes back to where it began: two segments at every end.
  void check_ring(std::size_t b) {
    const Bus& bus = network_.buses[b];
    if (bus.protocol != Protocol::ring || !bus.wired) return;
    std::vector<std::size_t> degree(ends_[b].all().size(), 0);
    for (const Segment& segment : bus.segments) {
      ++degree[ends_[b].number(segment.from)];
      ++degree[ends_[b].number(segment.to)];
    }
    std::vector<End> wrong;
    for (std::size_t i = 0; i < degree.size(); ++i) {
      if (degree[i] != 2) wrong.push_back(ends_[b].all()[i]);
    }
    if (wrong.empty()) return;
    draft_.say(member(b).spot, buses_ / bus.id,
               "the ring is not closed: two segments meet at each of its ends, but not at " + listed(network_, wrong));
  }

  /// An Ethernet T1 link joins two.
  void check_link(std::size_t b) {
    const Bus& bus = network_.buses[b];
    if (bus.protocol != Protocol::ethernet_t1) return;
    std::vector<End> partners;
    for (const End& end : ends_[b].all()) {
      if (end.kind != End::Kind::point) partners.push_back(end);
    }
    if (partners.size() <= 2) return;
    draft_.say(
        member(b).spot, buses_ / bus.id,
        "an ethernet-t1 link joins two; here are " + listed(network_, partners) + ": give each link a bus of its own");
  }

  void check_addresses(std::size_t b) {
    std::map<int, std::size_t> first;
    for (const End& end : ends_[b].all()) {
      if (end.kind != End::Kind::module || !network_.modules[end.index].address) continue;
      const auto [place, fresh] = first.try_emplace(*network_.modules[end.index].address, end.index);
      const auto [earlier, later] = std::minmax({place->second, end.index});
      if (fresh || !said_.insert({earlier, later}).second) continue;
      const auto spot_of = [&](std::size_t m) { return json::find(draft_.modules[m]->value, "address")->spot; };
      const Trail one = modules_ / network_.modules[later].id;
      draft_.complaints.add(spot_of(later), one / "address",
                            json::in_quotes(network_.modules[earlier].id) + " has the same address on the bus " +
                                json::in_quotes(network_.buses[b].id),
                            spot_of(earlier));
    }
  }

  void check_connector() {
    const End connector{End::Kind::diagnostic_connector, nowhere};
    const Trail trail = root_ / "diagnostic_connector";
    const Trail all = trail / "buses";
    for (const DiagnosticConnector::BusPins& pins : network_.diagnostic_connector.buses) {
      const Bus& bus = network_.buses[pins.bus];
      if (doubtful_[pins.bus] || ends_[pins.bus].has(connector)) continue;
      const json::Value* const there = json::find(*json::find(draft_.root, "diagnostic_connector"), "buses");
      draft_.say(json::find_member(*there, bus.id)->spot, all / bus.id,
                 "no segment of the bus " + json::in_quotes(bus.id) + " leads to `DLC`");
    }
  }

  void check_gateways() {
    const Trail all = root_ / "gateways";
    const std::vector<json::Member>& members = json::members_in(draft_.root, "gateways");
    for (std::size_t g = 0; g < network_.gateways.size(); ++g) {
      const Gateway& gateway = network_.gateways[g];
      const std::vector<json::Value>& joins = json::items_in(members[g].value, "joins");
      const Trail one = all / members[g].key;
      const Trail list = one / "joins";
      for (std::size_t i = 0; i < gateway.joins.size(); ++i) {
        const std::size_t b = gateway.joins[i];
        if (b == nowhere || gateway.module == nowhere || doubtful_[b]) continue;
        if (ends_[b].has({End::Kind::module, gateway.module})) continue;
        draft_.say(joins[i].spot, list / i,
                   "the gateway " + json::in_quotes(members[g].key) + " is not on the bus " +
                       json::in_quotes(network_.buses[b].id));
      }
    }
  }

  void check_modules() {
    if (std::find(doubtful_.begin(), doubtful_.end(), true) != doubtful_.end()) return;
    for (std::size_t m = 0; m < network_.modules.size(); ++m) {
      if (draft_.complaints.any_at(draft_.modules[m]->spot)) continue;  // its id is wrong
      const auto there = [&](const Ends& ends) { return ends.has({End::Kind::module, m}); };
      if (std::any_of(ends_.begin(), ends_.end(), there)) continue;
      draft_.say(draft_.modules[m]->spot, modules_ / network_.modules[m].id,
                 "the module " + json::in_quotes(network_.modules[m].id) + " is on no bus");
    }
  }

  Draft& draft_;
  Network& network_;
  const Trail root_;
  const Trail buses_ = root_ / "buses";
  const Trail modules_ = root_ / "modules";
  std::vector<Ends> ends_;
  std::vector<bool> doubtful_;
  std::set<std::pair<std::size_t, std::size_t>> said_;
};

}  // namespace

void check_wiring(Draft& draft) {
  if (draft.complaints.full()) return;
  Wiring(draft).check();
}

}  // namespace whichwire
