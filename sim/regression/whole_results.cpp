#include "sim/regression/whole_results.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <cerrno>
#include <filesystem>
#include <system_error>

#include "sim/files/output_error.hpp"
#include "sim/files/unfinished_files.hpp"
#include "sim/regression/results_schema.hpp"

namespace sim {

namespace {

[[noreturn]] void refuse(const std::string& file, int error) {
    throw OutputError(file, "it cannot be written (" + std::generic_category().message(error) +
                                "); name another file");
}

/// A name is on the disk only when its folder is.
void bring_to_disk(const std::string& path, int flags, const std::string& file) {
    const int descriptor = ::open(path.c_str(), flags | O_CLOEXEC);
    if (descriptor < 0 || ::fsync(descriptor) != 0) {
        refuse(file, errno);
    }
    ::close(descriptor);
}

std::string resolved(const std::string& path) {
    std::error_code error;
    const std::filesystem::path real = std::filesystem::canonical(path, error);
    return error ? path : real.string();
}

void copy_in_order(Database& database, const std::string& source, const char* table,
                   const char* order) {
    database.run(fmt::format("INSERT INTO main.{1} SELECT * FROM {0}.{1} ORDER BY {2}", source,
                             table, order));
}

}  // namespace

void attach(Database& database, const std::string& path, const std::string& name) {
    Statement statement = database.prepare("ATTACH ? AS " + name);
    statement.bind(0, path);
    statement.run();
}

void write_whole_results(const std::string& target, const CampaignRow& campaign,
                         const std::vector<std::string>& figures, const std::string& source,
                         const std::function<void(Database&)>& attach_source) {
    const std::string final_name = resolved(target);
    const std::string beside = final_name + ".whole";
    // Left by a campaign that was killed while it wrote this.
    ::unlink(beside.c_str());
    const UnfinishedFile unfinished(beside);
    try {
        Database database(beside, Database::Access::change, target);
        // Nobody else knows the file before it has its name.
        database.run(
            "PRAGMA page_size = 4096; PRAGMA journal_mode = OFF; PRAGMA synchronous = OFF");
        attach_source(database);
        database.run("BEGIN");
        make_results_tables(database, "main", campaign, figures);
        copy_in_order(database, source, "cases", "id");
        copy_in_order(database, source, "inputs", "case_id, name");
        copy_in_order(database, source, "starts", "case_id, start");
        copy_in_order(database, source, "broken", "case_id, start, requirement");
        database.run("COMMIT");
    } catch (...) {
        ::unlink(beside.c_str());
        throw;
    }
    bring_to_disk(beside, O_RDONLY, target);
    if (::rename(beside.c_str(), final_name.c_str()) != 0) {
        const int error = errno;
        ::unlink(beside.c_str());
        refuse(target, error);
    }
    const std::string folder = std::filesystem::path(final_name).parent_path().string();
    bring_to_disk(folder.empty() ? "." : folder, O_RDONLY | O_DIRECTORY, target);
}

}  // namespace sim
