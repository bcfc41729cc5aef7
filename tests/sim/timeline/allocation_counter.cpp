#include "timeline/allocation_counter.hpp"

#include <cstdlib>
#include <new>

namespace {

thread_local long count = 0;

void* counted(std::size_t size) {
    ++count;
    return std::malloc(size == 0 ? 1 : size);
}

void* counted(std::size_t size, std::align_val_t alignment) {
    ++count;
    const auto align = static_cast<std::size_t>(alignment);
    return std::aligned_alloc(align, (size + align - 1) / align * align);
}

void* or_throw(void* memory) {
    if (memory == nullptr) {
        throw std::bad_alloc();
    }
    return memory;
}

}  // namespace

namespace sim_test {
long allocations() {
    return count;
}
}  // namespace sim_test

void* operator new(std::size_t size) {
    return or_throw(counted(size));
}
void* operator new[](std::size_t size) {
    return or_throw(counted(size));
}
void* operator new(std::size_t size, const std::nothrow_t& /*tag*/) noexcept {
    return counted(size);
}
void* operator new[](std::size_t size, const std::nothrow_t& /*tag*/) noexcept {
    return counted(size);
}
void* operator new(std::size_t size, std::align_val_t alignment) {
    return or_throw(counted(size, alignment));
}
void* operator new[](std::size_t size, std::align_val_t alignment) {
    return or_throw(counted(size, alignment));
}
void operator delete(void* memory) noexcept {
    std::free(memory);
}
void operator delete[](void* memory) noexcept {
    std::free(memory);
}
void operator delete(void* memory, std::size_t /*size*/) noexcept {
    std::free(memory);
}
void operator delete[](void* memory, std::size_t /*size*/) noexcept {
    std::free(memory);
}
void operator delete(void* memory, const std::nothrow_t& /*tag*/) noexcept {
    std::free(memory);
}
void operator delete[](void* memory, const std::nothrow_t& /*tag*/) noexcept {
    std::free(memory);
}
void operator delete(void* memory, std::align_val_t /*alignment*/) noexcept {
    std::free(memory);
}
void operator delete[](void* memory, std::align_val_t /*alignment*/) noexcept {
    std::free(memory);
}
void operator delete(void* memory, std::size_t /*size*/, std::align_val_t /*alignment*/) noexcept {
    std::free(memory);
}
void operator delete[](void* memory, std::size_t /*size*/,
                       std::align_val_t /*alignment*/) noexcept {
    std::free(memory);
}
