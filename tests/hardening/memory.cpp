#include "hardening/memory.hpp"

#include <cstdlib>
#include <new>

namespace {

thread_local std::size_t made = 0, failing = 0;
thread_local bool all_behind = false;

void* memory(std::size_t size, std::size_t alignment) {
  ++made;
  const bool fails = failing != 0 && (all_behind ? made >= failing : made == failing);
  if (fails) throw std::bad_alloc();
  const std::size_t whole = (size + alignment - 1) / alignment * alignment;
  void* const given = std::aligned_alloc(alignment, whole == 0 ? alignment : whole);
  if (given == nullptr) throw std::bad_alloc();
  return given;
}

constexpr std::size_t usual = __STDCPP_DEFAULT_NEW_ALIGNMENT__;

}  // namespace

void whichwire::test::fail_allocation(std::size_t number, bool from_there_on) {
  made = 0;
  failing = number;
  all_behind = from_there_on;
}

std::size_t whichwire::test::allocations() { return made; }

// Every form, since the sanitizers have forms of their own for each that is left out.
void* operator new(std::size_t size) { return memory(size, usual); }
void* operator new[](std::size_t size) { return memory(size, usual); }
void* operator new(std::size_t size, std::align_val_t alignment) {
  return memory(size, static_cast<std::size_t>(alignment));
}
void* operator new(std::size_t size, const std::nothrow_t&) noexcept {
  try {
    return memory(size, usual);
  } catch (const std::bad_alloc&) {
    return nullptr;
  }
}
void* operator new[](std::size_t size, const std::nothrow_t& no) noexcept { return operator new(size, no); }
void operator delete(void* given) noexcept { std::free(given); }
void operator delete[](void* given) noexcept { std::free(given); }
void operator delete(void* given, std::size_t) noexcept { std::free(given); }
void operator delete[](void* given, std::size_t) noexcept { std::free(given); }
void operator delete(void* given, std::align_val_t) noexcept { std::free(given); }
void operator delete(void* given, std::size_t, std::align_val_t) noexcept { std::free(given); }
void operator delete(void* given, const std::nothrow_t&) noexcept { std::free(given); }
void operator delete[](void* given, const std::nothrow_t&) noexcept { std::free(given); }
