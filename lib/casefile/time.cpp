// Times of entries: ISO 8601, UTC, whole seconds. Tested in tests/casefile/time.cpp.
#include <array>
#include <cstdio>
#include <whichwire/casefile.hpp>

namespace whichwire {

namespace {

/// The digits from `at` on, `count` of them; -1 where one is no digit.
int digits_at(std::string_view text, std::size_t at, std::size_t count) {
  int value = 0;
  for (char letter : text.substr(at, count)) {
    if (letter < '0' || letter > '9') return -1;
    value = value * 10 + (letter - '0');
  }
  return value;
}

}  // namespace

std::string utc_text(std::chrono::sys_seconds time) {
  const auto day = std::chrono::floor<std::chrono::days>(time);
  const std::chrono::year_month_day date(day);
  const std::chrono::hh_mm_ss clock(time - day);
  std::array<char, 64> text;
  std::snprintf(text.data(), text.size(), "%04d-%02u-%02uT%02ld:%02ld:%02ldZ", static_cast<int>(date.year()),
                static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()),
                static_cast<long>(clock.hours().count()), static_cast<long>(clock.minutes().count()),
                static_cast<long>(clock.seconds().count()));
  return text.data();
}

std::string time_phrase(std::string_view at) {
  return is_utc_time(at) ? std::string(at.substr(0, 10)) + " " + std::string(at.substr(11, 5)) + " UTC"
                         : std::string(at);
}

bool is_utc_time(std::string_view text) {
  constexpr std::string_view form = "dddd-dd-ddTdd:dd:ddZ";
  if (text.size() != form.size()) return false;
  for (std::size_t i = 0; i < form.size(); ++i) {
    if (form[i] != 'd' && text[i] != form[i]) return false;
  }
  const int year = digits_at(text, 0, 4);
  const int month = digits_at(text, 5, 2);
  const int day = digits_at(text, 8, 2);
  const int hour = digits_at(text, 11, 2);
  const int minute = digits_at(text, 14, 2);
  const int second = digits_at(text, 17, 2);
  if (year < 0 || month < 0 || day < 0 || hour < 0 || minute < 0 || second < 0) return false;
  const auto date = std::chrono::year(year) / month / day;
  return date.ok() && hour < 24 && minute < 60 && second < 60;
}

}  // namespace whichwire
