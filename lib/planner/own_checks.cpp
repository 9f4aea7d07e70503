// See own_checks.hpp. Tests: tests/planner/evidence.cpp.
#include "planner/own_checks.hpp"

#include <algorithm>

#include "checks/bus_site.hpp"
#include "checks/look_checks.hpp"
#include "checks/sight.hpp"

namespace whichwire {
namespace {

std::string joined(const std::vector<std::string>& words) {
  std::string all;
  for (const std::string& word : words) all += (all.empty() ? "" : ", ") + word;
  return all.empty() ? "not listed" : all;
}

Candidate reference_candidate(const Job& job, std::string_view what, std::size_t module, std::size_t item, Place place,
                              const std::string& load, const std::string& id) {
  const Module& owner = job.network.modules.at(module);
  const Reference& reference = owner.references.at(item);
  Candidate made = build(job, what, {owner.id, reference.pin, reference.wire, std::move(place), {}},
                         {{"ref", reference.id}, {"load", load}, {"loads", joined(reference.loads)}}, id);
  made.place = id;
  made.hazards = owner.place.hazards;
  made.sees = [](const std::vector<Fault>&) { return Sight{}; };  // the meter's prediction says more
  return made;
}

}  // namespace

Candidate reference_volts_check(const Job& job, std::size_t module, std::size_t item) {
  const Module& owner = job.network.modules.at(module);
  return reference_candidate(job, "reference-volts", module, item, {}, "",
                             "reference:" + owner.id + "/" + owner.references.at(item).id);
}

Candidate load_check(const Job& job, std::size_t module, std::size_t item, std::size_t load) {
  const Module& owner = job.network.modules.at(module);
  const Reference& reference = owner.references.at(item);
  const std::string& name = reference.loads.at(load);
  return reference_candidate(job, "reference-load", module, item, {}, name,
                             "load:" + owner.id + "/" + reference.id + "/" + name);
}

Candidate all_loads_check(const Job& job, std::size_t module, std::size_t item) {
  const Module& owner = job.network.modules.at(module);
  return reference_candidate(job, "reference-loads", module, item, {}, "",
                             "loads:" + owner.id + "/" + owner.references.at(item).id);
}

Candidate reference_wire_check(const Job& job, std::size_t module, std::size_t item) {
  const Module& owner = job.network.modules.at(module);
  return reference_candidate(job, "reference-wire", module, item, owner.place, "",
                             "wire:" + owner.id + "/" + owner.references.at(item).id);
}

Candidate bus_volts_check(const Job& job, std::size_t bus, Line line) {
  const Bus& on = job.network.buses.at(bus);
  const bool two = lines_of(on.protocol) == 2, high = line == Line::high;
  const std::string name = !two ? "bus" : high ? "high" : "low";
  std::string pin;
  for (const auto& each : job.network.diagnostic_connector.buses) {
    if (each.bus == bus) pin = high ? each.pins.high : each.pins.low;
  }
  Site site{"DLC", pin, high ? on.high_colour : on.low_colour, job.network.diagnostic_connector.place, {}};
  Candidate made =
      build(job, "bus-volts", site, {{"bus", on.id}, {"line", name}, {"pins", pin.empty() ? "" : " (pin " + pin + ")"}},
            "volts:" + on.id + "/" + name);
  made.place = made.check.id;
  made.sees = [](const std::vector<Fault>&) { return Sight{}; };
  return made;
}

Candidate wire_check(const Job& job, const Wiring& wiring, std::size_t segment) {
  const Segment& wire = wiring->bus().segments.at(segment);
  const Site site = bus_site(job.network, *wiring, wire.from), far = bus_site(job.network, *wiring, wire.to);
  Fields fields = bus_fields(*wiring, site);
  fields.emplace_back("segment", wire.id);
  fields.emplace_back("other", far.part + pins_phrase(far));
  Candidate made = build(job, "wire", site, fields, "wire:" + wiring->bus().id + "/" + wire.id, "continuity");
  made.place = made.check.id;
  made.check.minutes += far.place.minutes.value_or(made.kind->reach);
  for (const End& end : {wire.from, wire.to}) {
    const bool bare =
        end.kind == End::Kind::point && job.network.points[end.index].kind != Point::Kind::inline_connector;
    if (bare) made.check.minutes += knowledge().limit("lay-bare-minutes");
  }
  made.hazards.insert(made.hazards.end(), far.place.hazards.begin(), far.place.hazards.end());
  made.sees = first_seen([bus = wiring->index(), segment](const Fault& fault) {
    const bool own = fault.part == PartKind::segment && fault.owner == bus && fault.item == segment;
    return sight(own && (fault.kind == FaultKind::open || fault.kind == FaultKind::resistive), 1);
  });
  return made;
}

Candidate ring_sender_check(const Job& job, const Wiring& wiring, std::size_t segment) {
  const Segment& link = wiring->bus().segments.at(segment);
  const Site site = bus_site(job.network, *wiring, link.from);
  Fields fields = bus_fields(*wiring, site);
  fields.emplace_back("segment", link.id);
  fields.emplace_back("other", bus_site(job.network, *wiring, link.to).part);
  Candidate made = build(job, "ring-sender", site, fields, "sends:" + wiring->bus().id + "/" + link.id);
  made.place = made.check.id;
  made.sees = first_seen([&network = job.network, sender = link.from.index](const Fault& fault) {
    return sight(of_module(fault, FaultKind::dead, sender) || unpowers(network, fault, sender), 1);
  });
  return made;
}

Candidate label_check(const Job& job, std::size_t module) {
  const Module& owner = job.network.modules.at(module);
  Candidate made = build(job, "label", {owner.id, "", "", owner.place, {}}, {}, "label:" + owner.id);
  made.place = made.check.id;
  made.hazards = owner.place.hazards;
  made.sees =
      first_seen([module](const Fault& fault) { return sight(fault.owner == module && of_configuration(fault), 1); });
  return made;
}

Candidate poll_check(const Job& job, const Effects& effects, std::size_t module) {
  const Module& owner = job.network.modules.at(module);
  Candidate made = build(job, "poll", {owner.id, "", "", {}, {}}, {}, "poll:" + owner.id);
  made.place = made.check.id;
  const Circumstances circumstances{job.scan.key, job.scan.tool_has_own_battery};
  const Question question{Question::About::answers, module, nowhere};
  made.sees = [&effects, question, circumstances](const std::vector<Fault>& present) {
    if (!effects.answerable(question)) return Sight{};
    const Level level = effects.predict(present, std::array{question}, circumstances).front();
    if (level == Level::unsure) return Sight{1, 0.5, 0, 0};
    return Sight{level == Level::down ? std::size_t{1} : 0, 1, 0, 0};
  };
  return made;
}

}  // namespace whichwire
