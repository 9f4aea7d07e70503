// A ranking put together by hand over the invented Moor of tests/checks/moor.hpp, so that pages are judged without
// the search: the engine controller is silent, its feed at A-27 is the likeliest, a shared fuse the rival.
#pragma once

#include <string>
#include <vector>
#include <whichwire/render.hpp>

#include "checks/moor.hpp"

namespace example {

using namespace whichwire;

inline Scan scan() {
  Scan made;
  made.name = "scan.txt";
  made.unit = "V-117";
  made.key_stated = true;
  made.battery_volts = 12.5;
  const auto add = [&](const char* id, Answer answer) { made.modules.push_back({id, answer, {}}); };
  for (const char* id : {"GWM", "TCM", "ABS", "BCM"}) add(id, Answer::yes);
  add("ECM", Answer::no);
  add("SRS", Answer::not_fitted);
  add("Trailer unit", Answer::yes);
  return made;
}

inline Observation observation(Question::About about, std::size_t a, std::size_t b, std::string text, bool abnormal) {
  Observation made;
  made.question = {about, a, b};
  made.text = std::move(text);
  made.abnormal = abnormal;
  return made;
}

inline Explanation explanation(double probability, std::vector<Fault> faults, VerdictClass verdict_class) {
  Explanation made;
  made.probability = {probability, probability + 5e-5};
  made.faults = std::move(faults);
  made.verdict_class = verdict_class;
  return made;
}

inline Ranking ranking() {
  using namespace moor;
  Ranking made;
  made.evidence = {observation(Question::About::answers, ECM, nowhere, "ECM does not answer", true),
                   observation(Question::About::hears, TCM, ECM, "TCM stores U0100-87, current: misses ECM", true),
                   observation(Question::About::answers, TCM, nowhere, "TCM answers", false),
                   observation(Question::About::answers, SRS, nowhere, "SRS does not answer", true)};
  Explanation local = explanation(0.90, {open_part(PartKind::power_pin, ECM, 1)}, VerdictClass::module);
  local.alike = {{open_segment(DRV, 3)}, {open_segment(DRV, 3, Lines::high)}, {dead(ECM)}};
  local.explains = {0, 1};
  local.leaves = {3};
  Explanation fuse = explanation(0.06, {open_part(PartKind::feed, F4)}, VerdictClass::supply);
  fuse.explains = {0, 1};
  fuse.contradicts = {2};
  made.explanations = {local, fuse};
  made.outside = 3.21e-5;
  made.doubts = {"The battery was at 11.4 V; below 12 V modules drop out by themselves."};
  return made;
}

inline Verdict verdict() {
  return {VerdictClass::module, {"ECM"}, 0.9012345678, "One silent module: ECM", 0.9012345678};
}

inline CheckPlan plan() {
  Check check;
  check.id = "feed-pin:ECM/A-27";
  check.measure = "Unplug ECM and measure feed pin A-27 in its plug, loaded with a lamp";
  check.part = "ECM";
  check.connector = "A";
  check.pin = "A-27";
  check.wire = "VT";
  check.where = "engine bay, left";
  check.mode = "volts-loaded";
  check.key = KeyState::run;
  check.expect = {{"good", 12.0, 12.8, "this feed carries a load"}, {"0 V or dark", 0.0, 2.0, "open before this pin"}};
  check.minutes = 6;
  check.gain_bits = 0.81234567;
  check.cautions = {"No lamp on bus or sensor wires."};
  return {{check}, {{"SRS", "part of the restraint system, never a measuring point"}}};
}

/// Everything a page needs, kept alive together.
struct Page {
  Network network = moor::network();
  Scan scan = example::scan();
  std::vector<LineRead> lines = {{1, "ECM no response", "ECM: no"}, {2, "Bluetooth kit v5", ""}};
  Ranking ranking = example::ranking();
  Verdict verdict = example::verdict();
  CheckPlan plan = example::plan();
  Findings findings() const { return {network, scan, lines, ranking, verdict, plan}; }
};

}  // namespace example
