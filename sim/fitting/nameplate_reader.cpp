#include "sim/fitting/nameplate_reader.hpp"

#include <filesystem>

#include "sim/files/bounded_input.hpp"
#include "sim/files/quoting.hpp"
#include "sim/fitting/nameplate_keys.hpp"
#include "sim/scenario/given_keys.hpp"
#include "sim/scenario/table_reading.hpp"
#include "sim/scenario/toml_root.hpp"

namespace sim {

Nameplate read_nameplate(const std::string& path, const NameplateCheck& last_check) {
    return parse_nameplate(read_bounded_input(path, most_nameplate_bytes), input_name(path),
                           last_check);
}

Nameplate parse_nameplate(std::string_view text, const std::string& file,
                          const NameplateCheck& last_check) {
    Nameplate nameplate;
    nameplate.title = escaped(std::filesystem::path(file).stem().string());
    const ScenarioTable table = nameplate_table(nameplate, last_check);
    const toml::table root = toml_root(text, file, "[nameplate]");
    const GivenKey* found = nullptr;
    const std::vector<GivenKey> given = keys_in_file_order(root, file);
    for (const GivenKey& one : given) {
        if (one.name != table.name) {
            throw InputError(file, one.line, shortened(one.name, 60),
                             "a nameplate file has one table; give [nameplate] with its keys below "
                             "(a scenario is for runup start)");
        }
        found = &one;
    }
    if (found == nullptr) {
        throw InputError(
            file, 0, std::string(table.name),
            "this table is missing; give [nameplate] (" + std::string(table.meaning) + ")");
    }
    if (!found->value->is_table()) {
        throw InputError(file, found->line, std::string(table.name),
                         "this is not a table; give [nameplate] once, with its keys below");
    }
    read_table(*found->value->as_table(), TablePlace{file, found->line}, table);
    return nameplate;
}

}  // namespace sim
