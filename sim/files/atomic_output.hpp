// An output file that appears whole or not at all.
//
// A regular file is written under a temporary name in the folder of the target and takes the
// target's name only in commit(), after every byte has reached the disk. Without commit() the
// temporary is deleted and whatever stood under the target's name is untouched.
//
// Not renamed, because it cannot be, but checked in the same way: standard output (path "-") and a
// target that exists and is not a regular file (a device, a pipe). There, what was written before
// an error stays written.
#pragma once

#include <initializer_list>
#include <memory>
#include <string>
#include <string_view>

#include "sim/files/unfinished_files.hpp"

namespace sim {

class AtomicOutput {
  public:
    /// Opens at once, so that a wrong path is found before the work is done. Throws OutputError.
    explicit AtomicOutput(std::string path);
    /// Deletes what was not committed.
    ~AtomicOutput();
    AtomicOutput(const AtomicOutput&) = delete;
    AtomicOutput& operator=(const AtomicOutput&) = delete;

    /// Appends; buffered. Throws OutputError, after which the output is discarded.
    void write(std::string_view bytes);

    /// Writes the rest, checks it, and gives the file its name. Throws OutputError, after which
    /// the output is discarded. Nothing may be written afterwards.
    void commit();

    /// The same of several, which appear together: only when the bytes of all of them have reached
    /// the disk do they take their names, one right after the other in this order.
    static void commit_together(std::initializer_list<AtomicOutput*> outputs);

  private:
    bool is_temporary() const { return !temporary_path_.empty(); }
    void open_temporary();
    void write_out(std::string_view bytes);
    void bring_to_disk();
    void take_name();
    void discard();
    [[noreturn]] void fail(int error);

    std::string name_;            ///< in messages
    std::string target_path_;     ///< with symbolic links followed
    std::string temporary_path_;  ///< empty when written directly
    std::unique_ptr<UnfinishedFile> unfinished_;
    int descriptor_ = -1;
    bool is_open_ = false;
    bool owns_descriptor_ = true;  ///< false: standard output, which stays open
    std::string buffer_;
};

}  // namespace sim
