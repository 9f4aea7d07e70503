// A case about the invented compact car, in a file of the test's own.
#pragma once

#include <doctest/doctest.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <whichwire/casefile.hpp>

namespace whichwire::test {

inline std::string text_at(const std::string& path) {
  std::ostringstream text;
  text << std::ifstream(path, std::ios::binary).rdbuf();
  return text.str();
}

inline void write_at(const std::string& path, const std::string& text) {
  std::ofstream(path, std::ios::binary) << text;
}

inline std::string said(const std::vector<Mistake>& mistakes) {
  std::string all;
  for (const Mistake& mistake : mistakes) all += text_of(mistake);
  return all;
}

inline NetworkLine line_of(const std::string& network) {
  const std::string path = std::string(WHICHWIRE_SOURCE_DIR) + "/topologies/" + network;
  return network_line(text_at(path), path);
}

inline const Network& compact_car() {
  static const NetworkResult result = load_network(WHICHWIRE_SOURCE_DIR "/topologies/compact-car.json");
  REQUIRE(result.network);
  return *result.network;
}

inline CaseStart compact_start() {
  CaseStart start;
  start.unit = "T-14";
  start.network_name = "compact-car.json";
  start.network_json = line_of("compact-car.json").json.value();
  start.intake.complaint = "does not crank";
  start.intake.works_not = {"rear wiper"};
  start.intake.battery_volts = 12.5;
  return start;
}

/// The scan of the text; each line `MODULE answer codes`.
inline Scan scan_of(const std::string& pasted) {
  ScanResult result = read_pasted_scan(pasted, "pasted", compact_car());
  REQUIRE(result.scan);
  return *result.scan;
}

/// A case in a file that goes with it. The time moves on a minute an entry.
class Job {
 public:
  Job() : path_(fresh()) {
    const Appended started = start_case(path_, compact_start(), next());
    REQUIRE_MESSAGE(started.entry == 1, started.error);
  }
  ~Job() {
    std::error_code ignored;
    std::filesystem::remove(path_, ignored);
  }
  Job(const Job&) = delete;
  Job& operator=(const Job&) = delete;

  Appended add(const CaseContents& contents) { return append_to_case(path_, contents, next()); }

  /// The error, or an empty text.
  std::string why(const CaseContents& contents) {
    const Appended added = add(contents);
    CHECK((added.entry == 0) == !added.error.empty());
    return added.error;
  }

  Case read() const {
    CaseResult result = load_case(path_);
    REQUIRE_MESSAGE(result.job, said(result.mistakes));
    return std::move(*result.job);
  }

  const std::string& path() const { return path_; }

  static std::string fresh() {
    static int count = 0;
    return (std::filesystem::temp_directory_path() /
            ("whichwire-case-" + std::to_string(getpid()) + "-" + std::to_string(++count) + ".jsonl"))
        .string();
  }

 private:
  std::string next() {
    using namespace std::chrono;
    return utc_text(sys_days(year(2026) / 3 / 2) + hours(9) + minutes(minute_++));
  }

  std::string path_;
  int minute_ = 0;
};

inline CaseWork work(WorkKind kind, const std::string& what) { return {kind, what, ""}; }
inline CaseNote note(const std::string& text) { return {text, false, {}}; }

inline CaseReading reading(const std::string& place, const std::string& typed) {
  CaseReading made;
  made.place = place;
  made.reading = typed;
  return made;
}

}  // namespace whichwire::test
