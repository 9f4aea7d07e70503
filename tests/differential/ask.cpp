#include "ask.hpp"

#include "plain_effects.hpp"

namespace whichwire::test {

std::vector<Fault> faults_from(const Network& network, std::initializer_list<const char*> words) {
  std::vector<Fault> faults;
  for (const char* each : words) {
    const FaultResult read = parse_fault(network, each);
    if (!read.fault) throw std::logic_error(std::string(each) + ": " + read.error);
    faults.push_back(*read.fault);
  }
  return faults;
}

Level Asker::ask(const Question& question, std::initializer_list<const char*> words) const {
  const std::vector<Fault> faults = faults_from(network, words);
  return plain_predict(network, faults, {&question, 1}, circumstances).front();
}

Level Asker::answers(const char* module, std::initializer_list<const char*> faults) const {
  return ask({Question::About::answers, index_of(network.modules, module)}, faults);
}

Level Asker::hears(const char* module, const char* other, std::initializer_list<const char*> faults) const {
  return ask({Question::About::hears, index_of(network.modules, module), index_of(network.modules, other)}, faults);
}

Level Asker::bus(const char* module, const char* bus, std::initializer_list<const char*> faults) const {
  return ask({Question::About::bus, index_of(network.modules, module), index_of(network.buses, bus)}, faults);
}

Level Asker::function(const char* function, std::initializer_list<const char*> faults) const {
  return ask({Question::About::function, index_of(network.functions, function)}, faults);
}

}  // namespace whichwire::test
