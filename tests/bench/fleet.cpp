// Many units: the rate of `whichwire fleet --as ndjson` against merely parsing the same lines with the JSON library on
// as many threads, its growth with the number of units, its memory. Beside it how fast another parser of Debian is.
#include <algorithm>
#include <atomic>
#include <cstdio>
#include <fstream>
#include <nlohmann/json.hpp>
#include <random>
#include <string_view>
#include <thread>
#include <vector>
#include <whichwire/expected_scan.hpp>
#include <whichwire/network.hpp>

#ifdef WHICHWIRE_SIMDJSON
#include <simdjson.h>
#endif

#include "parts.hpp"
#include "process.hpp"
#include "running.hpp"
#include "table.hpp"
#include "timing.hpp"

namespace whichwire::bench {

namespace {

using Tree = nlohmann::ordered_json;

constexpr double unlimited = 1e9;  ///< a row that promises nothing

const std::string folder = WHICHWIRE_SOURCE_DIR "/topologies";

/// A yard of invented vans: most in order, two in a hundred with one of a hundred faults; so many in a hundred with an
/// old code that has nothing to do with the network, at any module, of 64 numbers and 30 supplies: few of these are
/// alike.
class Yard {
 public:
  explicit Yard(std::size_t with_odd_code)
      : with_odd_code_(with_odd_code),
        network_(std::move(*load_network(folder + "/van-base.json").network)),
        effects_(network_) {
    healthy_ = tree({});
    for (const Fault& fault : faults_of(network_)) {
      // Faults of single parts of a unit; a whole bus down takes the search seconds, and is measured by `vehicle`.
      const bool pin = fault.part == PartKind::power_pin || fault.part == PartKind::ground_pin;
      if (pin && !fault.comes_and_goes) broken_.push_back(tree({&fault, 1}));
    }
  }

  std::string line() {
    const bool broken = dice_() % 100 < 2;
    Tree scan = broken ? broken_[dice_() % broken_.size()] : healthy_;
    if (dice_() % 100 < with_odd_code_) {
      Tree& module = scan["modules"][dice_() % scan["modules"].size()];
      char code[8];
      std::snprintf(code, sizeof code, "B1%03X", static_cast<unsigned>(dice_() % 64));
      if (module["answer"] == "yes")
        module["codes"].push_back(
            {{"code", code}, {"state", "history"}, {"volts", (110 + static_cast<int>(dice_() % 30)) / 10.0}});
    }
    scan["unit"] = "U-" + std::to_string(count_);
    scan["taken"] = "2026-05-04T" + std::to_string(10 + count_++ % 14) + ":14:00Z";
    scan["battery_volts"] = static_cast<double>(1200 + dice_() % 90) / 100;
    return scan.dump() + "\n";
  }

 private:
  Tree tree(std::span<const Fault> faults) const {
    Tree made = Tree::parse(json_of(expected_scan(effects_, faults).scan));
    made["vehicle"] = {{"make", "Hollin"}, {"model", "Moor"}, {"model_year", 2018}, {"variant", "base"}};
    return made;
  }

  std::size_t with_odd_code_;
  Network network_;
  Effects effects_;
  Tree healthy_;
  std::vector<Tree> broken_;
  std::mt19937_64 dice_{7};
  std::size_t count_ = 0;
};

std::vector<std::string_view> lines_of(std::string_view text) {
  std::vector<std::string_view> lines;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = text.find('\n', at);
    lines.push_back(text.substr(at, end - at));
    at = end + 1;
  }
  return lines;
}

/// Processor time of `each(line)` for all lines, shared by all cores.
template <class Each>
double on_all_cores(const std::vector<std::string_view>& lines, Each each) {
  const double begin = processor_ms();
  const std::size_t cores = std::max(1U, std::thread::hardware_concurrency());
  std::vector<std::thread> threads;
  for (std::size_t t = 0; t < cores; ++t) {
    threads.emplace_back([&, t] {
      for (std::size_t i = lines.size() * t / cores; i < lines.size() * (t + 1) / cores; ++i) each(lines[i]);
    });
  }
  for (std::thread& thread : threads) thread.join();
  return processor_ms() - begin;
}

/// Against merely parsing the lines. `at_most`: the ratio that is still ok.
void measure_parsing(const std::string& name, const std::vector<std::string_view>& lines, double ours_ms,
                     double at_most) {
  std::atomic<std::size_t> members = 0;  // so that nothing is optimised away
  const double parse_ms =
      on_all_cores(lines, [&](std::string_view line) { members += nlohmann::json::parse(line).size(); });
  print({name + "fleet as a filter", "ms", ours_ms, "parsing alone", parse_ms, at_most});
#ifdef WHICHWIRE_SIMDJSON
  const double simd_ms = on_all_cores(lines, [&](std::string_view line) {
    thread_local simdjson::dom::parser parser;
    const simdjson::padded_string padded(line);
    members += simdjson::dom::object(parser.parse(padded)).size();
  });
  print({name + "parsing by simdjson", "ms", simd_ms, "parsing alone", parse_ms, unlimited});
#endif
  if (members == 0) print("nothing was parsed");
}

/// A line of a yard; of a hundred, one is cut off, one is no scan and one of another vehicle.
std::string mixed_line(Yard& yard, std::size_t number) {
  std::string line = yard.line();
  switch (number % 100) {
    case 17:
      return line.substr(0, line.size() / 2) + "\n";
    case 53:
      return "no scan at all " + std::to_string(number) + "\n";
    case 71:
      return line.replace(line.find("Hollin"), 6, "Nobody");
    default:
      return line;
  }
}

/// Writes the lines of so many units and runs the program over them. Line by line: what this process once held would
/// count as the program's peak.
Counted run_over(const std::string& scans, std::size_t units, std::size_t with_odd_code) {
  Yard yard(with_odd_code);
  {
    std::ofstream file(scans);
    for (std::size_t i = 0; i < units; ++i) file << yard.line();
  }
  const Counted counted = run_once({WHICHWIRE_BINARY, "fleet", folder, scans, "--as", "ndjson"});
  if (counted.status != 0) print("the program ended with " + std::to_string(counted.status));
  return counted;
}

}  // namespace

void measure_fleet() {
  const std::string few = test::scratch() + "/few.ndjson", many = test::scratch() + "/many.ndjson",
                    odd = test::scratch() + "/odd.ndjson";
  const Counted of_few = run_over(few, 100'000, 5), of_many = run_over(many, 1'000'000, 5),
                of_odd = run_over(odd, 100'000, 100);
  print({"1000000 units: peak memory", "MiB", of_many.peak_mebibytes, "limit", 128, 1});
  print({"1000000 units: fleet as a filter", "ms", of_many.processor_ms, "10 x of 100000", 10 * of_few.processor_ms,
         1.1});
  const auto reading = [](std::string_view line) {
    static const Network network = std::move(*load_network(folder + "/van-base.json").network);
    if (!read_scan(line, "scan", &network).scan) print("a scan was not read");
  };
  const std::string text = test::read_text(few), odd_text = test::read_text(odd);
  measure_parsing("100000 units: ", lines_of(text), of_few.processor_ms, 2);
  measure_parsing("100000 units, few alike: ", lines_of(odd_text), of_odd.processor_ms, unlimited);
  const double parsing =
      on_all_cores(lines_of(odd_text), [](std::string_view line) { (void)nlohmann::json::parse(line).size(); });
  print({"100000 units, few alike: read as scans", "ms", on_all_cores(lines_of(odd_text), reading), "parsing alone",
         parsing, unlimited});
}

void measure_soak() {
  constexpr std::size_t units = 1'000'000, tenths = 10;
  const std::string scans = test::scratch() + "/mixed.ndjson";
  {
    Yard yard(30);
    std::ofstream file(scans);
    for (std::size_t i = 0; i < units; ++i) file << mixed_line(yard, i);
  }
  const std::vector<double> sizes =
      resident_while_running({WHICHWIRE_BINARY, "fleet", folder, scans, "--as", "ndjson"});
  if (sizes.size() < 2 * tenths) return print("too short to be looked at");
  std::string all = "resident MiB after each tenth of the time:";
  for (std::size_t i = 1; i <= tenths; ++i) {
    char one[16];
    std::snprintf(one, sizeof one, " %.1f", sizes[sizes.size() * i / tenths - 1]);
    all += one;
  }
  print(all);
  const auto half = sizes.begin() + static_cast<std::ptrdiff_t>(sizes.size() / 2);
  print({"1000000 mixed scans: largest size in the second half", "MiB", *std::max_element(half, sizes.end()),
         "in the first", *std::max_element(sizes.begin(), half), 1.05});
}

}  // namespace whichwire::bench
