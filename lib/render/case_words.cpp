#include "render/case_words.hpp"

#include <algorithm>

#include "render/page.hpp"

namespace whichwire {

namespace render {

namespace {

std::string mode_phrase(const std::string& mode) {
  if (mode == "volts-loaded") return "volts with a load";
  if (mode == "volts-drop") return "volts lost, with a load";
  if (mode == "volts-ac") return "volts AC";
  return mode;
}

/// What was off when the entry was made.
std::vector<std::string> off_then(const Case& job, std::size_t entry) {
  std::vector<std::string> texts;
  for (const OffNow& one : ledger_of(job, entry)) texts.push_back(one.what + " " + off_word(one.kind));
  return texts;
}

}  // namespace

std::string vehicle_phrase(const Case& job) {
  const Vehicle& vehicle = job.start().network.vehicle;
  std::vector<std::string> parts;
  if (!job.start().unit.empty()) parts.push_back(job.start().unit);
  std::string model = vehicle.make + " " + vehicle.model;
  if (vehicle.model_year > 0) model += " " + std::to_string(vehicle.model_year);
  if (model != " ") parts.push_back(model);
  if (!vehicle.variant.empty()) parts.push_back(vehicle.variant);
  return parts.empty() ? job.start().network_name : joined(parts, ", ");
}

std::string counted(std::size_t count, const std::string& one) {
  if (count == 1) return "1 " + one;
  return std::to_string(count) + " " + (one.ends_with("y") ? one.substr(0, one.size() - 1) + "ies" : one + "s");
}

std::string off_word(WorkKind kind) {
  if (kind == WorkKind::fuse_out) return "out";
  return kind == WorkKind::jumper ? "bridged" : "unplugged";
}

std::string scan_conditions(const Scan& scan) {
  std::string text = scan.key_stated ? "key " + std::string(word_for(scan.key)) : "key not stated";
  if (scan.battery_volts) text += ", battery " + number(*scan.battery_volts) + " V";
  return text;
}

std::vector<std::string> silent_in(const Network& network, const Scan& scan) {
  std::vector<std::string> ids;
  for (const ModuleSeen& seen : scan.modules) {
    const std::size_t module = index_of(network.modules, seen.module);
    const bool missed = seen.answer == Answer::not_fitted && module != nowhere && !network.modules[module].optional;
    if (seen.answer == Answer::no || missed) ids.push_back(seen.module);
  }
  return ids;
}

std::size_t answering_in(const Scan& scan) {
  return static_cast<std::size_t>(std::ranges::count_if(scan.modules, [](const ModuleSeen& seen) {
    return seen.answer == Answer::yes || seen.answer == Answer::refused;
  }));
}

std::size_t codes_in(const Scan& scan) {
  std::size_t count = 0;
  for (const ModuleSeen& seen : scan.modules) count += seen.codes.size();
  return count;
}

const Scan* scan_of(const Case& job, std::size_t entry) {
  if (entry == 0 || entry > job.entries.size()) return nullptr;
  const auto* const scanned = std::get_if<CaseScan>(&job.entries[entry - 1].contents);
  return scanned == nullptr ? nullptr : &scanned->scan;
}

std::vector<Cell> reading_cells(const Case& job, std::size_t entry) {
  const auto& made = std::get<CaseReading>(job.entries[entry - 1].contents);
  const ReadingResult read = read_reading(made.reading);
  std::vector<std::string> how;
  if (!made.mode.empty()) how.push_back(mode_phrase(made.mode));
  how.push_back(made.key ? "key " + std::string(word_for(*made.key)) : "key not stated");
  if (made.battery_connected) how.emplace_back(*made.battery_connected ? "battery connected" : "battery disconnected");
  if (made.awake) how.emplace_back(*made.awake ? "bus awake" : "bus asleep");
  for (const std::string& off : off_then(job, entry)) how.push_back(off);
  const Part part = part_called(job.start().network, made.place.substr(0, made.place.find_first_of("/ ")));
  return {{"Where", made.place, ": ", "", part},
          {"Reading", read.reading ? text_of(*read.reading) : made.reading, ": "},
          {"How", joined(how, ", "), " (", ")"},
          {"Note", made.note, "; "}};
}

std::string reading_phrase(const Case& job, std::size_t entry) { return line_of(reading_cells(job, entry)); }

std::string ruled_out_phrase(const Network& network, const std::string& words) {
  const FaultResult result = parse_fault(network, words);
  return result.fault ? phrase_of(network, *result.fault) : words;
}

}  // namespace render

using namespace render;

std::string phrase_of(const Case& job, std::size_t entry) {
  const CaseContents& contents = job.entries[entry - 1].contents;
  const std::string word(word_for(contents));
  struct Phrase {
    const Case& job;
    std::size_t entry;
    const std::string& word;

    std::string operator()(const CaseStart& start) const {
      return start.intake.complaint.empty() ? word : word + ": " + start.intake.complaint;
    }
    std::string operator()(const CaseScan& scanned) const {
      const auto silent = silent_in(job.start().network, scanned.scan);
      return word + ": " + std::to_string(answering_in(scanned.scan)) + " answer, " +
             (silent.empty() ? "none silent" : "silent: " + joined(silent, ", ")) + "; " +
             counted(codes_in(scanned.scan), "code");
    }
    std::string operator()(const CaseReading&) const { return word + " " + reading_phrase(job, entry); }
    std::string operator()(const CaseWork& work) const {
      return word + " " + work.what + (work.note.empty() ? "" : " (" + work.note + ")");
    }
    std::string operator()(const CaseNote& note) const {
      std::string text = note.fault ? word + " of a fault: " + note.text : word + ": " + note.text;
      for (const std::string& words : note.rules_out) text += "; rules out " + words;
      return text;
    }
    std::string operator()(const CaseUndo& undo) const { return word + " of entry " + std::to_string(undo.entry); }
    std::string operator()(const CaseClose& close) const {
      return close.note.empty() ? word : word + ": " + close.note;
    }
  };
  return std::visit(Phrase{job, entry, word}, contents);
}

}  // namespace whichwire
