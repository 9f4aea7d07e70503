#include "published_net.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <numeric>
#include <random>
#include <set>
#include <stdexcept>

namespace whichwire::test {

namespace {

/// Fills the engine's state as the Mersenne Twister's authors' `init_by_array` does for a key of one word; the standard
/// takes the words that a seed sequence generates for the state itself.
struct OneWordKey {
  using result_type = std::uint32_t;
  std::uint32_t key;

  template <class Iterator>
  void generate(Iterator first, Iterator last) const {
    const auto n = static_cast<std::uint32_t>(last - first);
    std::vector<std::uint32_t> state(n);
    const auto mix = [](std::uint32_t before) { return before ^ (before >> 30); };
    state[0] = 19650218;
    for (std::uint32_t i = 1; i < n; ++i) state[i] = 1812433253 * mix(state[i - 1]) + i;
    std::uint32_t i = 1;
    const auto step = [&] {
      if (++i == n) {
        state[0] = state[n - 1];
        i = 1;
      }
    };
    for (std::uint32_t k = 0; k < n; ++k, step()) state[i] = (state[i] ^ (mix(state[i - 1]) * 1664525)) + key;
    for (std::uint32_t k = 1; k < n; ++k, step()) state[i] = (state[i] ^ (mix(state[i - 1]) * 1566083941)) - i;
    state[0] = 0x80000000;
    std::copy(state.begin(), state.end(), first);
  }
};

/// Draws as Python's `random.Random(seed)` does.
class PythonDice {
 public:
  explicit PythonDice(std::uint32_t seed) {
    OneWordKey key{seed};
    engine_.seed(key);
  }

  double fraction() {
    const std::uint32_t high = word() >> 5, low = word() >> 6;
    return (high * 67108864.0 + low) / 9007199254740992.0;
  }

  std::uint32_t below(std::uint32_t count) {
    int bits = 0;
    while ((count >> bits) != 0) ++bits;
    std::uint32_t drawn = word() >> (32 - bits);
    while (drawn >= count) drawn = word() >> (32 - bits);
    return drawn;
  }

  void shuffle(std::vector<std::uint32_t>& all) {
    for (auto i = static_cast<std::uint32_t>(all.size()) - 1; i > 0; --i) std::swap(all[i], all[below(i + 1)]);
  }

  /// Two different ones of 0 … count-1.
  std::array<std::uint32_t, 2> two_of(std::uint32_t count) {
    constexpr std::uint32_t copied_up_to = 21;  // Python copies small populations and draws again in large ones
    const auto first = below(count);
    if (count <= copied_up_to) {
      const auto second = below(count - 1);
      return {first, second == first ? count - 1 : second};
    }
    auto second = below(count);
    while (second == first) second = below(count);
    return {first, second};
  }

 private:
  std::uint32_t word() { return static_cast<std::uint32_t>(engine_()); }
  std::mt19937 engine_;
};

struct NetModule {
  std::string name;
  std::size_t bus, splice;
};

class Generator {
 public:
  explicit Generator(const NetShape& shape) : shape_(shape), dice_(shape.seed) {}

  PublishedNet make() {
    add_faults_of_buses();
    share_supplies();
    for (const auto& name : shape_.present) present_.insert(net_.index_of(name));
    ask_modules();
    read_codes();
    return std::move(net_);
  }

 private:
  void add(const std::string& fault, double prior) {
    net_.faults.push_back(fault);
    net_.prior.push_back(prior);
  }

  void add_faults_of_buses() {
    add("gw_dead", 0.0005);
    for (std::size_t b = 0; b < shape_.buses; ++b) {
      const std::string bus = std::to_string(b);
      add("port_" + bus, 0.0005);
      add("short_" + bus, 0.001);
      for (std::size_t s = 1; s <= shape_.splices; ++s) add("trunk_" + bus + "_" + std::to_string(s), 0.002);
      for (std::size_t s = 1; s <= shape_.splices; ++s) {
        for (std::size_t k = 0; k < shape_.modules_a_splice; ++k) {
          const std::string name = bus + "_" + std::to_string(s) + "_" + std::to_string(k);
          modules_.push_back({name, b, s});
          add("mod_" + name, 0.003);
          add("stub_" + name, 0.004);
        }
      }
    }
  }

  void share_supplies() {
    constexpr std::size_t users = 5;
    std::vector<std::uint32_t> order(modules_.size());
    std::iota(order.begin(), order.end(), 0);
    fuse_.resize(order.size());
    ground_.resize(order.size());
    for (auto* group : {&fuse_, &ground_}) {
      dice_.shuffle(order);
      for (std::size_t i = 0; i < order.size(); ++i) (*group)[order[i]] = i / users;
    }
    for (std::size_t i = 0; i < (modules_.size() + users - 1) / users; ++i) {
      add("fuse_" + std::to_string(i), 0.003);
      add("gnd_" + std::to_string(i), 0.0015);
    }
  }

  std::vector<std::string> own(std::size_t module) const {
    const auto& name = modules_[module].name;
    return {"mod_" + name, "stub_" + name, "fuse_" + std::to_string(fuse_[module]),
            "gnd_" + std::to_string(ground_[module])};
  }

  /// Trunks of a bus from one splice on to another.
  static void add_trunks(std::size_t bus, std::size_t from, std::size_t to, std::vector<std::string>& causes) {
    for (std::size_t s = from; s <= to; ++s) causes.push_back("trunk_" + std::to_string(bus) + "_" + std::to_string(s));
  }

  /// Draws whether it is seen, by whether any cause is present, and notes the probability of that.
  bool observe(const std::string& name, const std::vector<std::string>& causes, double if_whole, double if_broken) {
    NetObservation observation;
    for (const auto& cause : causes) observation.causes.push_back(net_.index_of(cause));
    std::sort(observation.causes.begin(), observation.causes.end());
    const bool broken = std::any_of(observation.causes.begin(), observation.causes.end(),
                                    [&](std::uint32_t cause) { return present_.count(cause) != 0; });
    const bool seen = dice_.fraction() < (broken ? if_broken : if_whole);
    observation.name = name + "=" + (seen ? "1" : "0");
    observation.given_whole = seen ? if_whole : 1 - if_whole;
    observation.given_broken = seen ? if_broken : 1 - if_broken;
    net_.observations.push_back(std::move(observation));
    return seen;
  }

  void ask_modules() {
    for (std::size_t m = 0; m < modules_.size(); ++m) {
      const auto& [name, bus, splice] = modules_[m];
      auto causes = own(m);
      causes.insert(causes.end(), {"gw_dead", "port_" + std::to_string(bus), "short_" + std::to_string(bus)});
      add_trunks(bus, 1, splice, causes);
      answers_.push_back(observe("ans_" + name, causes, 0.98, 0.001));
    }
  }

  void read_codes() {
    for (std::size_t m = 0; m < modules_.size(); ++m) {
      if (!answers_[m]) continue;
      std::vector<std::size_t> others;
      for (std::size_t other = 0; other < modules_.size(); ++other) {
        if (modules_[other].bus == modules_[m].bus && other != m) others.push_back(other);
      }
      if (others.size() < 2) throw std::logic_error("a bus of such a net has three modules or more");
      for (const auto drawn : dice_.two_of(static_cast<std::uint32_t>(others.size()))) {
        const auto& [name, bus, splice] = modules_[m];
        const auto& missed = modules_[others[drawn]];
        auto causes = own(others[drawn]);
        causes.insert(causes.end(), {"short_" + std::to_string(bus), "stub_" + name});
        add_trunks(bus, std::min(splice, missed.splice) + 1, std::max(splice, missed.splice), causes);
        observe("lost_" + name + ">" + missed.name, causes, 0.01, 0.90);
      }
    }
  }

  const NetShape& shape_;
  PythonDice dice_;
  PublishedNet net_;
  std::vector<NetModule> modules_;
  std::vector<std::size_t> fuse_, ground_;
  std::set<std::uint32_t> present_;
  std::vector<bool> answers_;
};

/// The shortest decimal that reads back as the same double, without an exponent.
std::string shortest(double number) {
  std::array<char, 400> text{};
  const auto end = std::to_chars(text.data(), text.data() + text.size(), number, std::chars_format::fixed).ptr;
  return {text.data(), end};
}

template <class Cost>
search::Problem problem_with(const PublishedNet& net, Cost log_weight) {
  search::Problem problem;
  std::vector<std::vector<std::uint32_t>> breaks(net.faults.size());
  for (std::uint32_t o = 0; o < net.observations.size(); ++o) {
    const auto& observation = net.observations[o];
    for (const auto cause : observation.causes) breaks[cause].push_back(o);
    search::Likelihood likelihood{};
    likelihood.fill(log_weight(observation.given_broken));
    likelihood.front() = log_weight(observation.given_whole);
    problem.likelihood.push_back(likelihood);
  }
  for (std::size_t f = 0; f < net.faults.size(); ++f) {
    add_candidate(problem, log_weight(net.prior[f] / (1 - net.prior[f])), breaks[f]);
  }
  return problem;
}

}  // namespace

std::uint32_t PublishedNet::index_of(const std::string& fault) const {
  const auto found = std::find(faults.begin(), faults.end(), fault);
  if (found == faults.end()) throw std::logic_error("no such fault: " + fault);
  return static_cast<std::uint32_t>(found - faults.begin());
}

PublishedNet published_net(const NetShape& shape) { return Generator(shape).make(); }
PublishedNet net30() { return published_net({3, 5, 2, 7, {"trunk_1_3"}}); }
PublishedNet net300() { return published_net({10, 10, 3, 11, {"trunk_2_6", "fuse_17", "mod_7_3_1"}}); }

std::string text_of(const PublishedNet& net) {
  std::string text = std::to_string(net.faults.size()) + " " + std::to_string(net.observations.size()) + "\n";
  for (std::size_t f = 0; f < net.faults.size(); ++f) text += net.faults[f] + " " + shortest(net.prior[f]) + "\n";
  for (const auto& [name, causes, given_whole, given_broken] : net.observations) {
    text += name + " " + shortest(given_whole) + " " + shortest(given_broken) + " " + std::to_string(causes.size());
    for (const auto cause : causes) text += " " + std::to_string(cause);
    text += "\n";
  }
  return text;
}

search::Problem problem_of(const PublishedNet& net) {
  return problem_with(net, [](double probability) { return std::log(probability); });
}

search::Problem rounded_problem_of(const PublishedNet& net) {
  return problem_with(net, [](double probability) { return std::round(1000 * std::log(probability)) / 1000; });
}

double log_of_no_fault(const PublishedNet& net) {
  double sum = 0;
  for (const double prior : net.prior) sum += std::log1p(-prior);
  for (const auto& observation : net.observations) sum += std::log(observation.given_whole);
  return sum;
}

}  // namespace whichwire::test
