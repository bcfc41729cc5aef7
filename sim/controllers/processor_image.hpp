// The controller's programs for small processors (firmware/board), as they were built with this
// program.
#pragma once

#include <string_view>
#include <vector>

namespace sim {

struct ProcessorImage {
    std::string_view processor;  ///< as the compiler names it, such as "cortex-m4"
    std::string_view elf;
};

/// Empty if there was no ARM compiler when this program was built.
std::vector<ProcessorImage> embedded_processor_images();

}  // namespace sim
