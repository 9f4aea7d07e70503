// Times of entries. The seconds since 1970 of the examples are `date -u -d TEXT +%s` of GNU coreutils.
#include "casefile/jobs.hpp"

using namespace whichwire;

TEST_CASE("a time is written in UTC to the second") {
  using std::chrono::seconds;
  using std::chrono::sys_seconds;
  CHECK(utc_text(sys_seconds(seconds(0))) == "1970-01-01T00:00:00Z");
  CHECK(utc_text(sys_seconds(seconds(1772442840))) == "2026-03-02T09:14:00Z");
  CHECK(utc_text(sys_seconds(seconds(1709210096))) == "2024-02-29T12:34:56Z");
}

TEST_CASE("for people a time is written without seconds") {
  CHECK(time_phrase("2026-03-02T09:14:00Z") == "2026-03-02 09:14 UTC");
  CHECK(time_phrase("soon") == "soon");
}

TEST_CASE("only real times of that form are taken") {
  CHECK(is_utc_time("2026-03-02T09:14:00Z"));
  CHECK(is_utc_time("2024-02-29T23:59:59Z"));
  for (const char* wrong :
       {"", "2026-03-02", "2026-03-02 09:14:00Z", "2026-03-02T09:14:00", "2026-02-29T09:14:00Z", "2026-13-01T00:00:00Z",
        "2026-03-02T24:00:00Z", "2026-03-02T09:60:00Z", "2o26-03-02T09:14:00Z", "2026-03-02T09:14:00+01:00",
        "2026-03-02T09:14:-1Z", "02026-03-02T09:14:0Z"}) {
    CAPTURE(wrong);
    CHECK_FALSE(is_utc_time(wrong));
  }
}
