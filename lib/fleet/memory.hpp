// Findings by a key, remembered up to a size; a part of the memory that is full begins anew, so that a fleet of any
// size takes no more. For many threads. Tests: tests/fleet/fleet.cpp.
#pragma once

#include <array>
#include <memory>
#include <shared_mutex>
#include <string>
#include <unordered_map>
#include <whichwire/fleet.hpp>

namespace whichwire {

class Memory {
 public:
  explicit Memory(std::size_t most_bytes) : most_bytes_(most_bytes / shard_count) {}

  std::shared_ptr<const UnitFinding> find(const std::string& key) const;
  void put(std::string key, const std::shared_ptr<const UnitFinding>& finding);

 private:
  static constexpr std::size_t shard_count = 16;
  struct Shard {
    mutable std::shared_mutex mutex;
    std::unordered_map<std::string, std::shared_ptr<const UnitFinding>> findings;
    std::size_t bytes = 0;
  };
  std::size_t most_bytes_;  ///< of a shard
  std::array<Shard, shard_count> shards_;
};

}  // namespace whichwire
