#include "sim/commands/asked_output.hpp"

namespace sim {

AskedOutput::AskedOutput(const std::string& path) {
    if (!path.empty()) {
        output_.emplace(path);
    }
}

void AskedOutput::put(const std::string& bytes) {
    output_->write(bytes);
    output_->commit();
}

void AskedOutput::put(const nlohmann::ordered_json& result) {
    put(result.dump(2) + "\n");
}

}  // namespace sim
