// What a vehicle is wired like: modules on buses, gateways, feeds, grounds, references, the diagnostic connector.
// Everything refers to everything else by index into the vectors of `Network`; ids are the user's own words.
// What is not known is left out (empty or nullopt); the answer then gets coarser, never wrong.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>
#include <whichwire/mistake.hpp>

namespace whichwire {

enum class KeyState : std::uint8_t { off, accessory, run, start };

enum class Protocol : std::uint8_t {
  can_hs,  ///< ISO 11898-2, CAN FD, SAE J1939
  can_ft,  ///< ISO 11898-3, low-speed fault-tolerant
  can_sw,  ///< SAE J2411, single wire
  j1850_vpw,
  j1850_pwm,
  k_line,  ///< ISO 9141-2, ISO 14230: tester only, no messages between modules
  lin,     ///< ISO 17987
  j1708,
  flexray,
  ring,         ///< optical or coaxial ring
  ethernet_t1,  ///< point to point
};

/// The two lines of a pair; a bus with a single line has only `high`.
enum class Line : std::uint8_t { high, low };

constexpr std::size_t nowhere = static_cast<std::size_t>(-1);

/// Where wiring meets.
struct End {
  enum class Kind : std::uint8_t { module, point, diagnostic_connector };
  Kind kind = Kind::point;
  std::size_t index = nowhere;  ///< into `modules` or `points`; unused for the diagnostic connector
  friend bool operator==(const End&, const End&) = default;
};

struct LinePins {
  std::string high, low;  ///< connector-pin, as in `B-7`; empty when not known
};

struct Place {
  std::string where;                 ///< in the vehicle, in the user's words
  std::optional<double> minutes;     ///< to reach it
  std::vector<std::string> hazards;  ///< of `restraint`, `high-voltage`, `fuel`, `moving-parts`, `hot`
};

struct PowerPin {
  std::string pin;
  std::size_t feed = nowhere;  ///< nowhere: a feed of its own that has no name
  std::string wire;            ///< colour
};

struct GroundPin {
  std::string pin;
  std::size_t ground = nowhere;  ///< nowhere: a ground of its own that has no name
  std::string wire;
};

struct Reference {
  std::string id, pin, wire;
  double volts = 5.0;
  std::vector<std::string> loads;
};

/// A maker's own trouble code or sentence, and what it says.
struct OwnCode {
  enum class Says : std::uint8_t { lost, invalid, bus_fault };
  std::string code;
  Says says = Says::lost;
  std::size_t subject = nowhere;  ///< module for lost and invalid, bus for bus_fault
};

struct Module {
  std::string id, name;
  std::vector<std::string> roles;    ///< subjects of the network-code table
  std::vector<std::string> aliases;  ///< other names that a scan summary may print
  std::optional<int> address;        ///< J1939 source address
  bool optional = false;             ///< not every vehicle of this build has it
  bool locked = false;               ///< reached only through a gateway that asks for authorisation
  bool passes_when_dead = false;     ///< ring member that lets light or current through without supply
  std::vector<PowerPin> power;       ///< empty: one feed of its own, not known
  std::vector<GroundPin> ground;     ///< empty: one ground of its own, not known
  std::vector<Reference> references;
  std::optional<std::vector<std::size_t>> listens_to;  ///< modules whose silence it notices; nullopt: not known
  std::vector<OwnCode> own_codes;
  Place place;
};

struct Point {
  enum class Kind : std::uint8_t { splice, inline_connector, star, hidden };
  std::string id;
  Kind kind = Kind::splice;
  Place place;
};

struct Segment {
  std::string id;
  End from, to;
  std::optional<double> length_m;
  std::optional<double> area_mm2;  ///< cross-section of each conductor
  LinePins from_pins, to_pins;     ///< at the connectors of the two ends
};

struct Terminator {
  End at;
  double ohms = 120.0;
};

struct Bus {
  std::string id, name;
  Protocol protocol = Protocol::can_hs;
  int bit_rate = 0;  ///< bit/s; 0: not known
  std::string high_colour, low_colour;
  std::vector<std::string> called;  ///< bus subjects of the network-code table, as `can-high-speed` or `bus-a`
  std::vector<Segment> segments;
  std::vector<Terminator> terminators;  ///< empty: not known
  std::size_t commander = nowhere;      ///< LIN: the module that leads
  bool wired = true;                    ///< false: only the members are known, joined at a hidden centre
};

struct Gateway {
  std::size_t module = nowhere;
  std::vector<std::size_t> joins;  ///< buses
};

struct Feed {
  enum class Kind : std::uint8_t { fuse, relay, fusible_link, switched };
  std::string id;
  Kind kind = Kind::fuse;
  std::optional<double> amps;
  std::size_t from = nowhere;  ///< feed above it; nowhere: the battery
  std::array<bool, 4> live{};  ///< by KeyState
  Place place;
};

struct Ground {
  std::string id;
  Place place;
};

struct DiagnosticConnector {
  struct BusPins {
    std::size_t bus = nowhere;
    LinePins pins;
  };
  std::vector<BusPins> buses;
  std::vector<PowerPin> power;
  std::vector<GroundPin> ground;
  Place place;
};

struct Function {
  struct Message {
    std::size_t from = nowhere, to = nowhere;  ///< modules
  };
  std::string id, name;
  std::vector<std::size_t> modules;
  std::vector<Message> messages;
};

struct Vehicle {
  std::string make, model, variant;
  int model_year = 0;  ///< 0: not stated
  friend bool operator==(const Vehicle&, const Vehicle&) = default;
};

struct Network {
  std::string name;  ///< of the file, for messages
  std::string note;  ///< the file's own remark, as that the vehicle is invented
  Vehicle vehicle;
  std::vector<Module> modules;
  std::vector<Bus> buses;
  std::vector<Gateway> gateways;
  std::vector<Point> points;
  std::vector<Feed> feeds;
  std::vector<Ground> grounds;
  DiagnosticConnector diagnostic_connector;
  std::vector<Function> functions;
};

struct NetworkResult {
  std::optional<Network> network;  ///< nullopt when there are mistakes
  std::vector<Mistake> mistakes;
};

/// Reads `whichwire.network.v1` (comments allowed). `name` stands in messages.
/// A base that the text `extends` is looked up beside the file `name`.
NetworkResult read_network(std::string_view text, const std::string& name);

/// Reads the file at `path`.
NetworkResult load_network(const std::string& path);

/// Each module that ends a segment of the bus, once, in the order of the segments.
std::vector<std::size_t> modules_on(const Bus& bus);

std::string_view word_for(KeyState);
std::string_view word_for(Protocol);
std::string_view word_for(Feed::Kind);
std::string_view word_for(Point::Kind);

/// The same as people say them.
std::string_view phrase_for(Feed::Kind);
std::string_view phrase_for(Point::Kind);
std::string phrase_for(const Feed&);  ///< with its id: `fusible link FL-B`

/// How many lines a bus of this protocol has: 2, or 1; a ring counts as 1.
int lines_of(Protocol);

/// The id of an end: a module's, a point's, or `DLC`.
const std::string& id_of(const Network&, const End&);

/// Index of the module, bus, feed … with this id, or `nowhere`.
template <class T>
std::size_t index_of(const std::vector<T>& all, std::string_view id) {
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (all[i].id == id) return i;
  }
  return nowhere;
}

}  // namespace whichwire
