// One job from call-out to handover, as a file that is only ever appended to: `whichwire.case.v1`, one entry a line.
// An entry that was written stays; `undo` is an entry itself. topologies/CASE-FORMAT.md says what the keys mean.
#pragma once

#include <chrono>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>
#include <whichwire/mistake.hpp>
#include <whichwire/network.hpp>
#include <whichwire/reading.hpp>
#include <whichwire/scan.hpp>

namespace whichwire {

/// What is asked before anything is touched.
struct Intake {
  std::string complaint, since, conditions;
  std::vector<std::string> earlier_repairs, works, works_not, added_devices;
  std::optional<double> battery_volts;
};

struct CaseStart {
  std::string unit;  ///< which vehicle, in the user's words
  std::string network_name;
  std::string network_json;  ///< the whole network on one line, bases merged in
  Network network;
  Intake intake;
};

struct CaseScan {
  Scan scan;
};

/// A reading with everything that it depends on; what was unplugged then follows from the entries before it.
struct CaseReading {
  std::string place;    ///< `ECM/A-27`, `DRV at DLC`, in the user's words
  std::string check;    ///< id of the check that it answers; may be empty
  std::string reading;  ///< as typed; `read_reading` accepts it, or `outcome` says what it means
  std::string outcome;  ///< name of an outcome of the check, of an answer in words: `back`
  std::string mode;     ///< of `case_modes()`; may be empty
  std::optional<KeyState> key;
  std::optional<bool> battery_connected, awake;
  std::vector<std::string> rules_out;  ///< what the technician takes as ruled out by it
  std::string note;
};

enum class WorkKind : std::uint8_t { unplug, replug, fuse_out, fuse_in, jumper, jumper_off, replaced, programmed };

struct CaseWork {
  WorkKind kind = WorkKind::unplug;
  std::string what, note;
};

struct CaseNote {
  std::string text;
  bool fault = false;  ///< it tells of a fault
  std::vector<std::string> rules_out;
};

struct CaseUndo {
  std::size_t entry = 0;  ///< number of the entry that no longer counts, from 1
};

struct CaseClose {
  std::string note;
};

using CaseContents = std::variant<CaseStart, CaseScan, CaseReading, CaseWork, CaseNote, CaseUndo, CaseClose>;

struct CaseEntry {
  std::string at;  ///< UTC, as `2026-03-02T09:14:00Z`
  CaseContents contents;
};

struct Case {
  std::string name;                ///< of the file, for messages
  std::vector<CaseEntry> entries;  ///< the first is the start; numbers in messages count from 1
  std::vector<bool> undone;        ///< by entry: it no longer counts
  std::size_t closed_by = 0;       ///< number of the close that counts; 0: open
  std::size_t complete_bytes = 0;  ///< what of the text is complete entries
  std::size_t cut_off_bytes = 0;   ///< behind them: an entry whose writing was cut off, passed over

  const CaseStart& start() const { return std::get<CaseStart>(entries.front().contents); }
};

struct CaseResult {
  std::optional<Case> job;  ///< nullopt when there are mistakes
  std::vector<Mistake> mistakes;
};

/// Reads `whichwire.case.v1`. A last line whose writing was cut off is passed over; any other damage is a mistake.
CaseResult read_case(std::string_view text, const std::string& name);

/// Reads the file at `path`.
CaseResult load_case(const std::string& path);

/// An entry as it stands in the file, ended by a line feed.
std::string json_of(const CaseEntry&);

struct NetworkLine {
  std::optional<std::string> json;
  std::vector<Mistake> mistakes;
};

/// A network with its bases merged in, as one line of JSON.
NetworkLine network_line(std::string_view text, const std::string& name);

struct Appended {
  std::size_t entry = 0;          ///< its number, from 1; 0 when nothing was written
  std::string error;              ///< why not, one sentence without a full stop
  std::vector<Mistake> mistakes;  ///< of a file that is damaged; it is left as it is
  bool failed = false;            ///< the disk or system failed, not the input
};

/// Makes the file, which must not be there yet, or hold nothing but a start that was cut off.
Appended start_case(const std::string& path, const CaseStart&, const std::string& at);

/// Adds an entry under a lock, and returns when it is on the disk. What does not fit the case as it then is (something
/// plugged back that is not off, a close with something off, an entry after the close) is refused.
Appended append_to_case(const std::string& path, const CaseContents&, const std::string& at);

/// `2026-03-02T09:14:00Z`.
std::string utc_text(std::chrono::sys_seconds time);
/// The same for people: `2026-03-02 09:14 UTC`.
std::string time_phrase(std::string_view at);
/// Whether the text is a point in time of this form.
bool is_utc_time(std::string_view text);

/// Something that is off, out or bridged now.
struct OffNow {
  WorkKind kind = WorkKind::unplug;  ///< unplug, fuse_out or jumper
  std::string what, at;
  std::size_t entry = 0;
};

/// After the first `entries` of them; what was undone later does not count.
std::vector<OffNow> ledger_of(const Case&, std::size_t entries = nowhere);

/// The entry that an undo without a number takes back: the last that counts and is no start; 0: there is none.
std::size_t last_to_undo(const Case&);

struct PlaceFound {
  std::string what;   ///< the id, where the network knows the place; else as typed
  bool known = true;  ///< the network knows it
  std::string error;  ///< it looks like a slip of something that the network knows
};

/// What a person means by the thing that is unplugged, pulled or plugged back.
PlaceFound work_place(const Network&, WorkKind, std::string_view typed);

/// The place of a reading: an id of the network, `MODULE/PIN`, or words of one's own.
PlaceFound reading_place(const Network&, std::string_view typed);

/// Cautions that belong to taking this reading, in sentences.
std::vector<std::string> cautions_at(const Network&, const CaseReading&);

/// Cautions that belong to working at this place, in sentences.
std::vector<std::string> cautions_at(const Network&, WorkKind, std::string_view what);

/// One thing in which a later scan differs from the first or agrees with it.
struct ScanDifference {
  std::string what;     ///< as `ECM is silent`, `TCM stores U0100-87`
  std::string because;  ///< of a new one: the plug or fuse that was off in testing; else empty
};

struct ScanComparison {
  std::size_t first = 0, last = 0;    ///< numbers of the entries
  std::vector<ScanDifference> fresh;  ///< those about a plug that was off in testing first
  std::vector<ScanDifference> still, gone;
  std::vector<ScanDifference> not_seen;  ///< in the first, and the last did not look
};

/// The last scan against the first; nullopt with fewer than two.
std::optional<ScanComparison> compare_scans(const Case&);

/// Number of the entry of the first scan, of the last before a repair, of the last; 0: none.
struct ScansOf {
  std::size_t first = 0, before_repair = 0, last = 0;
};
ScansOf scans_of(const Case&);

struct FaultNoted {
  std::string at, text;
};

/// Faults noted before work began, and those found after. Work begins with the first reading, plug, fuse, jumper,
/// part or programming.
struct FaultsNoted {
  std::vector<FaultNoted> before, after;
};
FaultsNoted faults_noted(const Case&);

std::string_view word_for(WorkKind);
/// The word of the entry: `start`, `scan`, `fuse-out` …
std::string_view word_for(const CaseContents&);
/// Modes of a reading: `volts`, `ohms`, `look` …
const std::vector<std::string>& case_modes();

}  // namespace whichwire
