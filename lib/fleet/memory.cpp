#include "fleet/memory.hpp"

#include <mutex>

namespace whichwire {
namespace {

/// About what one entry takes; a finding's own lists are of this order.
std::size_t bytes_of(const std::string& key, const UnitFinding& finding) {
  return key.size() + sizeof(UnitFinding) + 500 + 200 * finding.suspected.size();
}

std::size_t shard_of(const std::string& key) { return std::hash<std::string>()(key) >> 59U; }

}  // namespace

std::shared_ptr<const UnitFinding> Memory::find(const std::string& key) const {
  const Shard& shard = shards_.at(shard_of(key) % shard_count);
  const std::shared_lock hold(shard.mutex);
  const auto found = shard.findings.find(key);
  return found == shard.findings.end() ? nullptr : found->second;
}

void Memory::put(std::string key, const std::shared_ptr<const UnitFinding>& finding) {
  Shard& shard = shards_.at(shard_of(key) % shard_count);
  const std::unique_lock hold(shard.mutex);
  const std::size_t bytes = bytes_of(key, *finding);
  if (shard.bytes + bytes > most_bytes_) {
    shard.findings.clear();
    shard.bytes = 0;
  }
  if (shard.findings.try_emplace(std::move(key), finding).second) shard.bytes += bytes;
}

}  // namespace whichwire
