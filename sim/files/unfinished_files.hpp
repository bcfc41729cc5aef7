// The temporary files that this process is writing, so that an interrupt leaves none behind.
//
// A fixed table, because a signal handler may neither allocate nor lock.
#pragma once

#include <string>

namespace sim {

/// Only main may decide what a signal does to the whole process, so nothing is installed without
/// this call. From now on SIGINT, SIGTERM and SIGHUP delete every unfinished file and then end the
/// process as they would have done. A signal that is being ignored stays ignored.
void delete_unfinished_files_on_interrupt();

/// One file listed as unfinished for the lifetime of this object. When the table (64 places) is
/// full, or the path is longer than 4,095 bytes, the file is simply not listed.
class UnfinishedFile {
  public:
    explicit UnfinishedFile(const std::string& path);
    ~UnfinishedFile();
    UnfinishedFile(const UnfinishedFile&) = delete;
    UnfinishedFile& operator=(const UnfinishedFile&) = delete;

  private:
    int place_ = -1;
};

}  // namespace sim
