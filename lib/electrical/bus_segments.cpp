// Rules and tests: see bus_circuit.hpp.
#include "electrical/bus_segments.hpp"

#include <optional>

namespace whichwire {
namespace {

/// What is wrong in one segment.
struct SegmentState {
  std::array<std::optional<Interval>, 2> open, joint;  ///< by line; of an open what still conducts
  struct Touch {
    std::size_t line;
    ShortTo to;
    Interval ohms;
  };
  std::vector<Touch> shorts;
};

class Wires {
 public:
  Wires(BusCircuit& made, const BusPlan& plan, std::size_t bus, const PartValues& parts)
      : made_(made), plan_(plan), bus_(bus), parts_(parts), segments_(plan.segments.size()) {}

  void add(const std::vector<PresentFault>& faults) {
    for (const PresentFault& each : faults) note_segment_fault(each);
    for (std::size_t s = 0; s < plan_.segments.size(); ++s) add_segment(s);
  }

 private:
  void note_segment_fault(const PresentFault& each) {
    const Fault& fault = each.fault;
    if (fault.part != PartKind::segment || fault.bus != bus_ || fault.item >= segments_.size()) return;
    SegmentState& state = segments_[fault.item];
    if (fault.kind == FaultKind::short_circuit && fault.to == ShortTo::other_line) {
      if (plan_.lines == 2) state.shorts.push_back({0, ShortTo::other_line, each.ohms.value_or(parts_.short_circuit)});
      return;
    }
    for (std::size_t l = 0; l < plan_.lines; ++l) {
      if (!concerns(fault, l)) continue;
      if (fault.kind == FaultKind::open) state.open[l] = each.ohms.value_or(exactly(open_circuit));
      if (fault.kind == FaultKind::resistive) state.joint[l] = each.ohms.value_or(parts_.joint);
      if (fault.kind != FaultKind::short_circuit) continue;
      state.shorts.push_back({l, fault.to.value_or(ShortTo::ground), each.ohms.value_or(parts_.short_circuit)});
    }
  }

  void add_short(const LinePair& at, const SegmentState::Touch& each) {
    const Node other = each.to == ShortTo::other_line ? at[1] : each.to == ShortTo::ground ? ground_node : made_.rail;
    made_.circuit.resistor(at[each.line], other, each.ohms);
  }

  /// Both halves of each wire meet in the middle, where the faults are.
  void add_segment(std::size_t s) {
    const SegmentState& state = segments_[s];
    const auto& [from, to] = made_.plugs[s];
    const Interval& wire = plan_.wire[s];
    const bool shorted = !state.shorts.empty();
    LinePair near{no_node, no_node}, far{no_node, no_node};
    bool parted = false;
    for (std::size_t l = 0; l < plan_.lines; ++l) {
      const Interval gap = state.open[l].value_or(state.joint[l].value_or(exactly(0)));
      const bool gapped = state.open[l] || state.joint[l];
      if (!shorted) {
        made_.circuit.resistor(from[l], to[l], wire + gap);
        continue;
      }
      const Interval half{0, wire.nominal / 2, wire.high};
      near[l] = far[l] = made_.circuit.add();
      made_.circuit.resistor(from[l], near[l], half);
      if (gapped) {
        far[l] = made_.circuit.add();
        made_.circuit.resistor(near[l], far[l], gap);
        parted |= state.open[l].has_value();
      }
      made_.circuit.resistor(far[l], to[l], half);
    }
    for (const auto& each : state.shorts) {
      add_short(near, each);
      const bool both_sides = state.open[each.line] || (each.to == ShortTo::other_line && parted);
      if (both_sides) add_short(far, each);
    }
  }

  BusCircuit& made_;
  const BusPlan& plan_;
  std::size_t bus_;
  const PartValues& parts_;
  std::vector<SegmentState> segments_;
};

}  // namespace

bool concerns(const Fault& fault, std::size_t line) {
  return fault.lines == Lines::both || (fault.lines == Lines::high ? 0U : 1U) == line;
}

void add_segments(BusCircuit& made, const BusPlan& plan, std::size_t bus, const PartValues& parts,
                  const std::vector<PresentFault>& faults) {
  Wires(made, plan, bus, parts).add(faults);
}

}  // namespace whichwire
