// The words of the format for keys, protocols, feeds and points. Tested in tests/network/words_test.cpp.
#include <whichwire/network.hpp>

namespace whichwire {

std::string_view word_for(KeyState key) {
  switch (key) {
    case KeyState::off:
      return "off";
    case KeyState::accessory:
      return "accessory";
    case KeyState::run:
      return "run";
    case KeyState::start:
      return "start";
  }
  return {};
}

std::string_view word_for(Protocol protocol) {
  switch (protocol) {
    case Protocol::can_hs:
      return "can-hs";
    case Protocol::can_ft:
      return "can-ft";
    case Protocol::can_sw:
      return "can-sw";
    case Protocol::j1850_vpw:
      return "j1850-vpw";
    case Protocol::j1850_pwm:
      return "j1850-pwm";
    case Protocol::k_line:
      return "k-line";
    case Protocol::lin:
      return "lin";
    case Protocol::j1708:
      return "j1708";
    case Protocol::flexray:
      return "flexray";
    case Protocol::ring:
      return "ring";
    case Protocol::ethernet_t1:
      return "ethernet-t1";
  }
  return {};
}

std::string_view word_for(Feed::Kind kind) {
  switch (kind) {
    case Feed::Kind::fuse:
      return "fuse";
    case Feed::Kind::relay:
      return "relay";
    case Feed::Kind::fusible_link:
      return "fusible-link";
    case Feed::Kind::switched:
      return "switch";
  }
  return {};
}

std::string_view word_for(Point::Kind kind) {
  switch (kind) {
    case Point::Kind::splice:
      return "splice";
    case Point::Kind::inline_connector:
      return "inline-connector";
    case Point::Kind::star:
      return "star";
    case Point::Kind::hidden:
      return "hidden";
  }
  return {};
}

std::string_view phrase_for(Feed::Kind kind) {
  return kind == Feed::Kind::fusible_link ? "fusible link" : word_for(kind);
}

std::string phrase_for(const Feed& feed) { return std::string(phrase_for(feed.kind)) + " " + feed.id; }

std::string_view phrase_for(Point::Kind kind) {
  return kind == Point::Kind::inline_connector ? "in-line connector" : word_for(kind);
}

int lines_of(Protocol protocol) {
  switch (protocol) {
    case Protocol::can_hs:
    case Protocol::can_ft:
    case Protocol::j1850_pwm:
    case Protocol::j1708:
    case Protocol::flexray:
    case Protocol::ethernet_t1:
      return 2;
    case Protocol::can_sw:
    case Protocol::j1850_vpw:
    case Protocol::k_line:
    case Protocol::lin:
    case Protocol::ring:
      return 1;
  }
  return 1;
}

const std::string& id_of(const Network& network, const End& end) {
  static const std::string connector = "DLC";
  switch (end.kind) {
    case End::Kind::module:
      return network.modules[end.index].id;
    case End::Kind::point:
      return network.points[end.index].id;
    case End::Kind::diagnostic_connector:
      return connector;
  }
  return connector;
}

}  // namespace whichwire
