// A text as nlohmann_json reads it: each run of blanks and comments as one blank, and every byte counted, so that the
// place of each token is known. The shortening is there for time: nlohmann_json keeps all blanks since the last token,
// and writes each line end of them out as an escape when it reports an error.
// Tested in tests/network/placed_json_test.cpp and hostile_test.cpp.
#pragma once

#include <cstddef>
#include <iterator>
#include <string_view>

#include "network/text_check.hpp"

namespace whichwire::json {

class CountingInput {
 public:
  explicit CountingInput(std::string_view text) : text_(text) { look_ahead(); }

  bool over() const { return at_ >= text_.size(); }
  /// Bytes that have been read.
  std::size_t count() const { return at_; }
  /// Where a comment begins that is never closed, or npos; the text is over there.
  std::size_t open_comment() const { return open_comment_; }

  const char& now() const { return ahead_ == at_ ? text_[at_] : blank; }

  void advance() {
    if (ahead_ != at_) {
      at_ = ahead_;
    } else {
      const char letter = text_[at_++];
      if (letter == '"' && !escaped_) in_quotes_ = !in_quotes_;
      escaped_ = in_quotes_ && letter == '\\' && !escaped_;
    }
    look_ahead();
  }

 private:
  void look_ahead() {
    ahead_ = in_quotes_ ? at_ : behind_blanks(text_, at_);
    if (in_quotes_ || text_.substr(ahead_, 2) != "/*") return;
    open_comment_ = ahead_;
    text_ = text_.substr(0, ahead_);
  }

  static constexpr char blank = ' ';
  std::string_view text_;
  std::size_t at_ = 0;
  std::size_t ahead_ = 0;  ///< behind the blanks and comments that begin at `at_`
  std::size_t open_comment_ = std::string_view::npos;
  bool in_quotes_ = false;
  bool escaped_ = false;
};

/// The iterator that nlohmann_json takes; one without input is the end.
class CountingIterator {
 public:
  using iterator_category = std::input_iterator_tag;
  using value_type = char;
  using difference_type = std::ptrdiff_t;
  using pointer = const char*;
  using reference = const char&;

  CountingIterator() = default;
  explicit CountingIterator(CountingInput* input) : input_(input) {}
  reference operator*() const { return input_->now(); }
  CountingIterator& operator++() {
    input_->advance();
    return *this;
  }
  friend bool operator==(const CountingIterator& a, const CountingIterator& b) { return a.over() == b.over(); }
  friend bool operator!=(const CountingIterator& a, const CountingIterator& b) { return a.over() != b.over(); }

 private:
  bool over() const { return input_ == nullptr || input_->over(); }
  CountingInput* input_ = nullptr;
};

}  // namespace whichwire::json
