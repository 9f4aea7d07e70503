#include "effects/predictor.hpp"

#include <algorithm>

namespace whichwire {
namespace {

constexpr AtomIndex no_atom = 0xffffffff;

bool acts_on_bus(const Fault& fault) {
  switch (fault.part) {
    case PartKind::segment:
    case PartKind::terminator:
    case PartKind::bus:
    case PartKind::connector_bus_pin:
      return true;
    case PartKind::module:
      return fault.kind == FaultKind::holds || fault.kind == FaultKind::babbles || fault.kind == FaultKind::back_feeds;
    default:
      return false;
  }
}

template <class T>
void sort_unique(std::vector<T>& list) {
  std::sort(list.begin(), list.end());
  list.erase(std::unique(list.begin(), list.end()), list.end());
}

}  // namespace

Predictor::Predictor(const Effects::Compiled& compiled, std::span<const Question> questions,
                     const Circumstances& circumstances)
    : supply_(compiled.supply_in(circumstances.key)),
      tool_has_own_battery_(circumstances.tool_has_own_battery),
      questions_(questions.begin(), questions.end()),
      tester_atom_(no_atom) {
  const auto& network = compiled.network;
  for (std::size_t q = 0; q < questions_.size(); ++q) {
    enter(static_cast<std::uint32_t>(q), formula_of(compiled, questions_[q], atoms_));
  }
  direct_.resize(atoms_.all().size());
  routed_.resize(atoms_.all().size());
  bus_atoms_.resize(network.buses.size());
  port_atoms_.resize(network.modules.size());
  life_atom_.assign(network.modules.size(), no_atom);
  fitted_atom_.assign(network.modules.size(), no_atom);
  forward_atom_.assign(network.modules.size(), no_atom);
  for (AtomIndex i = 0; i < atoms_.all().size(); ++i) {
    const Atom& atom = atoms_.all()[i];
    switch (atom.kind) {
      case Atom::Kind::life:
        life_atom_[atom.a] = i;
        break;
      case Atom::Kind::fitted:
        fitted_atom_[atom.a] = i;
        break;
      case Atom::Kind::tester_supply:
        tester_atom_ = i;
        break;
      case Atom::Kind::forwards:
        forward_atom_[atom.a] = i;
        break;
      case Atom::Kind::port:
        port_atoms_[atom.a].push_back(i);
        break;
      case Atom::Kind::hop:
      case Atom::Kind::at:
        bus_atoms_[atom.a].push_back(i);
        break;
    }
  }
  for (std::size_t b = 0; b < network.buses.size(); ++b) bus_state_.emplace_back(network.buses[b], compiled.wiring[b]);
  bus_last_.resize(network.buses.size());
  atom_level_.assign(atoms_.all().size(), Level::up);
  question_level_.assign(questions_.size(), Level::up);
  is_dirty_.assign(by_route_.size(), 0);
}

void Predictor::enter(std::uint32_t question, const std::vector<Clause>& clauses) {
  direct_.resize(atoms_.all().size());
  routed_.resize(atoms_.all().size());
  for (const Clause& clause : clauses) {
    if (clause.routes.size() == 1) {
      for (const auto atom : clause.routes.front()) direct_[atom].push_back(question);
      continue;
    }
    const auto entry = static_cast<std::uint32_t>(by_route_.size());
    by_route_.push_back({question, clause});
    for (const Route& route : clause.routes) {
      for (const auto atom : route) routed_[atom].push_back(entry);
    }
  }
}

void Predictor::set_atom(AtomIndex atom, Level level) {
  if (atom == no_atom || level <= atom_level_[atom]) return;
  if (atom_level_[atom] == Level::up) changed_.push_back(atom);
  atom_level_[atom] = level;
}

void Predictor::raise(std::uint32_t question, Level level) {
  if (level <= question_level_[question]) return;
  if (question_level_[question] == Level::up) touched_.push_back(question);
  question_level_[question] = level;
}

void Predictor::note_modules_of(const Fault& fault) {
  switch (fault.part) {
    case PartKind::module:
    case PartKind::power_pin:
    case PartKind::ground_pin:
    case PartKind::reference:
      modules_.push_back(fault.owner);
      break;
    case PartKind::feed:
    case PartKind::ground: {
      const auto& users =
          fault.part == PartKind::feed ? supply_.users_of_feed(fault.owner) : supply_.users_of_ground(fault.owner);
      modules_.insert(modules_.end(), users.begin(), users.end());
      break;
    }
    default:
      break;
  }
}

void Predictor::act_on_modules(std::span<const Fault* const> faults) {
  modules_.clear();
  for (const Fault* fault : faults) {
    note_modules_of(*fault);
    if (fault->kind == FaultKind::not_fitted) set_atom(fitted_atom_[fault->owner], Level::down);
    if (fault->kind == FaultKind::not_forwarding) set_atom(forward_atom_[fault->owner], Level::down);
    if (fault->kind != FaultKind::port_dead) continue;
    for (const auto atom : port_atoms_[fault->owner]) {
      if (atoms_.all()[atom].p == fault->bus) set_atom(atom, Level::down);
    }
  }
  sort_unique(modules_);
  for (const auto module : modules_) {
    if (life_atom_[module] != no_atom) set_atom(life_atom_[module], supply_.life(module, faults));
  }
  if (tester_atom_ != no_atom && !tool_has_own_battery_) set_atom(tester_atom_, supply_.of_tester(faults));
}

void Predictor::act_on_buses(std::size_t acting) {
  buses_.clear();
  for (const Fault* fault : all_) {
    if (acts_on_bus(*fault)) buses_.push_back(fault->bus);
  }
  sort_unique(buses_);
  for (const auto bus : buses_) act_on_bus(bus, acting);
}

/// The first `acting` of all faults disturb, the others act firmly.
void Predictor::act_on_bus(std::size_t bus, std::size_t acting) {
  on_bus_.clear();
  std::size_t disturbing = 0;
  for (std::size_t i = 0; i < all_.size(); ++i) {
    const Fault* fault = all_[i];
    if (!acts_on_bus(*fault) || fault->bus != bus) continue;
    if (fault->kind == FaultKind::babbles && supply_.of(fault->owner, all_) == Level::down) continue;
    on_bus_.push_back(fault);
    if (i < acting) disturbing = on_bus_.size();
  }
  BusLast& last = bus_last_[bus];
  if (last.faults != on_bus_ || last.disturbing != disturbing) {
    auto& state = bus_state_[bus];
    const std::span<const Fault* const> here = on_bus_;
    state.set(here.first(disturbing), here.subspan(disturbing));
    last.faults = on_bus_;
    last.disturbing = disturbing;
    last.levels.clear();
    for (const auto index : bus_atoms_[bus]) {
      const Atom& atom = atoms_.all()[index];
      last.levels.push_back(atom.kind == Atom::Kind::at ? state.at(atom.p) : state.hop(atom.p, atom.q));
    }
  }
  for (std::size_t i = 0; i < last.levels.size(); ++i) set_atom(bus_atoms_[bus][i], last.levels[i]);
}

std::vector<std::pair<PointIndex, PointIndex>> Predictor::hops_on(std::size_t bus) const {
  std::vector<std::pair<PointIndex, PointIndex>> hops;
  for (const auto atom : bus_atoms_[bus]) hops.emplace_back(atoms_.all()[atom].p, atoms_.all()[atom].q);
  return hops;
}

Level Predictor::best_route(const Clause& clause) const {
  Level best = Level::down;
  for (const Route& route : clause.routes) {
    Level worst = Level::up;
    for (auto atom = route.begin(); atom != route.end() && worst < best; ++atom)
      worst = std::max(worst, atom_level_[*atom]);
    best = std::min(best, worst);
  }
  return best;
}

void Predictor::present(std::span<const Fault* const> acting, std::span<const Fault* const> firmly,
                        std::vector<Raised>& out) {
  all_.assign(acting.begin(), acting.end());
  all_.insert(all_.end(), firmly.begin(), firmly.end());
  act_on_modules(all_);
  act_on_buses(acting.size());
  for (const auto atom : changed_) {
    for (const auto question : direct_[atom]) raise(question, atom_level_[atom]);
    for (const auto entry : routed_[atom]) {
      if (is_dirty_[entry] != 0) continue;
      is_dirty_[entry] = 1;
      dirty_.push_back(entry);
    }
  }
  routed_last_.clear();
  for (const auto entry : dirty_) {
    is_dirty_[entry] = 0;
    routed_last_.push_back(by_route_[entry].question);
    raise(by_route_[entry].question, best_route(by_route_[entry].clause));
  }
  std::sort(touched_.begin(), touched_.end());
  out.clear();
  for (const auto question : touched_) {
    out.push_back({question, question_level_[question]});
    question_level_[question] = Level::up;
  }
  for (const auto atom : changed_) atom_level_[atom] = Level::up;
  changed_.clear();
  touched_.clear();
  dirty_.clear();
}

void Predictor::left_behind(const Fault& fault, std::vector<Raised>& out) {
  const Fault* only[] = {&fault};
  present(only, {}, out);
  std::erase_if(out, [&](const Raised& raised) {
    const Question& question = questions_[raised.question];
    const bool coded = question.about == Question::About::hears || question.about == Question::About::bus;
    return !coded || supply_.life(question.a, only) == Level::down;
  });
  for (auto& raised : out) raised.level = raised.level == Level::down ? Level::was_down : Level::was_unsure;
}

}  // namespace whichwire
