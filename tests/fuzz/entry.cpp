#include "tests/fuzz/fuzz.hpp"

#include <cstddef>
#include <cstdint>

// The name is libFuzzer's.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    fuzz_one(std::string(reinterpret_cast<const char*>(data), size));
    return 0;
}
