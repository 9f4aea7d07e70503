// Modules, their pins, references, listeners and codes; functions. Tests: tests/compare/edits.cpp.
#include "compare/differ.hpp"

namespace whichwire {
namespace {

using Kind = Difference::Kind;
using Texts = Differ::Texts;

std::string yes(bool is, const char* so, const char* otherwise) { return is ? so : otherwise; }

class Modules {
 public:
  explicit Modules(Differ& differ) : to_(differ) {}

  void pair(const Module& a, const Module& b, std::size_t index) {
    id_ = a.id;
    say("name", said(a.name), said(b.name));
    to_.changed(Kind::module, id_, "roles", a.roles, b.roles);
    to_.changed(Kind::module, id_, "other names", a.aliases, b.aliases);
    const auto address = [](const Module& module) { return module.address ? std::to_string(*module.address) : ""; };
    say("address", said(address(a)), said(address(b)));
    say("fitted", yes(a.optional, "optional", "always"), yes(b.optional, "optional", "always"));
    say("behind a locked gateway", yes(a.locked, "yes", "no"), yes(b.locked, "yes", "no"));
    say("passes the ring on without supply", yes(a.passes_when_dead, "yes", "no"),
        yes(b.passes_when_dead, "yes", "no"));
    differ_power(to_, Kind::module, id_, to_.match.power[index], a.power, b.power);
    differ_ground(to_, Kind::module, id_, to_.match.ground[index], a.ground, b.ground);
    references(a, b, to_.match.references[index]);
    listeners(a, b);
    to_.changed(Kind::module, id_, "codes", codes_of_a(a), codes_of_b(b));
    to_.places(Kind::module, id_, a.place, b.place);
  }

 private:
  void say(const std::string& what, const std::string& a, const std::string& b) {
    to_.changed(Kind::module, id_, what, a, b);
  }

  void references(const Module& a, const Module& b, const Map& map) {
    std::vector<Reference> of_a = a.references, of_b = b.references;
    for (Reference& one : of_a) one.id.insert(0, id_ + "/");
    for (Reference& one : of_b) one.id.insert(0, id_ + "/");
    to_.parts(Kind::module, map, of_a, of_b, [&](const Reference& x, const Reference& y, std::size_t) {
      to_.changed(Kind::module, x.id, "pin", said(x.pin), said(y.pin));
      to_.changed(Kind::module, x.id, "wire", said(x.wire), said(y.wire));
      to_.changed(Kind::module, x.id, "volts", said(x.volts, "V"), said(y.volts, "V"));
      to_.changed(Kind::module, x.id, "loads", x.loads, y.loads);
    });
  }

  void listeners(const Module& a, const Module& b) {
    if (a.listens_to.has_value() != b.listens_to.has_value()) {
      return say("listens to", a.listens_to ? "known" : "not known", b.listens_to ? "known" : "not known");
    }
    if (!a.listens_to) return;
    Texts of_a, of_b;
    for (const std::size_t m : *a.listens_to) of_a.push_back(to_.a.modules[m].id);
    for (const std::size_t m : *b.listens_to) of_b.push_back(to_.module_of_b(m));
    to_.changed(Kind::module, id_, "listens to", std::move(of_a), std::move(of_b));
  }

  static std::string says(OwnCode::Says says) {
    if (says == OwnCode::Says::lost) return "lost ";
    return says == OwnCode::Says::invalid ? "bad content from " : "fault of bus ";
  }

  Texts codes_of_a(const Module& module) const {
    Texts codes;
    for (const OwnCode& own : module.own_codes) {
      const bool bus = own.says == OwnCode::Says::bus_fault;
      const std::string& id = bus ? to_.a.buses[own.subject].id : to_.a.modules[own.subject].id;
      codes.push_back(own.code + " (" + says(own.says) + id + ")");
    }
    return codes;
  }

  Texts codes_of_b(const Module& module) const {
    Texts codes;
    for (const OwnCode& own : module.own_codes) {
      const bool bus = own.says == OwnCode::Says::bus_fault;
      const std::string id = bus ? to_.bus_of_b(own.subject) : to_.module_of_b(own.subject);
      codes.push_back(own.code + " (" + says(own.says) + id + ")");
    }
    return codes;
  }

  Differ& to_;
  std::string id_;
};

void differ_functions(Differ& to) {
  const auto name_a = [&](std::size_t m) { return to.a.modules[m].id; };
  const auto name_b = [&](std::size_t m) { return to.module_of_b(m); };
  const auto modules = [](const Function& function, const auto& name) {
    Texts all;
    for (const std::size_t m : function.modules) all.push_back(name(m));
    return all;
  };
  const auto messages = [](const Function& function, const auto& name) {
    Texts all;
    for (const auto& message : function.messages) all.push_back(name(message.from) + " to " + name(message.to));
    return all;
  };
  to.parts(Kind::function, to.match.functions, to.a.functions, to.b.functions,
           [&](const Function& x, const Function& y, std::size_t) {
             to.changed(Kind::function, x.id, "name", said(x.name), said(y.name));
             to.changed(Kind::function, x.id, "modules", modules(x, name_a), modules(y, name_b));
             to.changed(Kind::function, x.id, "messages", messages(x, name_a), messages(y, name_b));
           });
}

}  // namespace

void differ_modules(Differ& differ) {
  Modules modules(differ);
  differ.parts(Kind::module, differ.match.modules, differ.a.modules, differ.b.modules,
               [&](const Module& x, const Module& y, std::size_t index) { modules.pair(x, y, index); });
  differ_functions(differ);
}

}  // namespace whichwire
