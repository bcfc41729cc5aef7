#include "sim/files/atomic_output.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <atomic>
#include <cerrno>
#include <cstdlib>
#include <stdexcept>
#include <system_error>
#include <utility>

#include "sim/files/output_error.hpp"

namespace sim {

namespace {

constexpr std::size_t buffer_bytes = 65536;
// Far more than the leftovers of killed processes that could carry our number.
constexpr int most_name_attempts = 100;

std::string reason(int error) {
    switch (error) {
        case ENOSPC:
        case EDQUOT:
            return "the disk is full; free some space or name a file on another disk";
        case ENOENT:
        case ENOTDIR:
            return "there is no such folder; name a file in a folder that exists";
        case EISDIR:
            return "this is a folder; give a file name";
        case EACCES:
        case EPERM:
            return "permission to write here is missing; name a file in a folder that you may "
                   "write";
        case EROFS:
            return "this disk is read-only; name a file on another disk";
        case ENAMETOOLONG:
            return "the name is too long; give a shorter name";
        case EFBIG:
            return "the file would be larger than allowed here; raise the limit or name a file on "
                   "another disk";
        case EPIPE:
            return "the reader has closed its end; keep it reading until the output ends";
        default:
            return "it cannot be written (" + std::generic_category().message(error) +
                   "); name a file that can be written";
    }
}

/// A rename onto a symbolic link would replace the link; the file behind it is meant.
std::string resolved(const std::string& path) {
    char* const real = ::realpath(path.c_str(), nullptr);
    if (real == nullptr) {
        return path;
    }
    std::string result(real);
    std::free(real);
    return result;
}

/// In the target's folder (a rename cannot cross disks), short (the target's own name may be as
/// long as the disk allows), and never used twice in this process.
std::string temporary_name_beside(const std::string& target) {
    static std::atomic<unsigned> count{0};
    const std::size_t slash = target.rfind('/');
    const std::string folder = slash == std::string::npos ? "" : target.substr(0, slash + 1);
    return folder + ".runup-" + std::to_string(::getpid()) + "-" + std::to_string(count++) +
           ".part";
}

}  // namespace

AtomicOutput::AtomicOutput(std::string path)
    : name_(path == "-" ? "standard output" : path), target_path_(std::move(path)) {
    // Once, here: a recorder writes at tick rate and must not allocate then.
    buffer_.reserve(buffer_bytes);
    if (target_path_ == "-") {
        descriptor_ = STDOUT_FILENO;
        is_open_ = true;
        owns_descriptor_ = false;
        return;
    }
    if (target_path_.empty()) {
        throw OutputError("output", "the file name is empty; give a file name");
    }
    struct stat status = {};
    const bool exists = ::stat(target_path_.c_str(), &status) == 0;
    // A missing file is the usual case; a missing folder shows when the temporary is opened.
    if (!exists && errno != ENOENT) {
        fail(errno);
    }
    // A folder that exists is refused below, when it is opened like every other special file.
    if (!exists && target_path_.back() == '/') {
        fail(EISDIR);
    }
    if (exists && !S_ISREG(status.st_mode)) {
        descriptor_ = ::open(target_path_.c_str(), O_WRONLY | O_CLOEXEC);
        if (descriptor_ < 0) {
            fail(errno);
        }
        is_open_ = true;
        return;
    }
    if (exists) {
        // A rename would go through even where the file itself is protected.
        if (::faccessat(AT_FDCWD, target_path_.c_str(), W_OK, AT_EACCESS) != 0) {
            fail(errno);
        }
        target_path_ = resolved(target_path_);
    }
    open_temporary();
    if (exists && ::fchmod(descriptor_, status.st_mode & 07777U) != 0) {
        fail(errno);
    }
}

AtomicOutput::~AtomicOutput() {
    discard();
}

void AtomicOutput::open_temporary() {
    for (int attempt = 0; attempt < most_name_attempts; ++attempt) {
        std::string candidate = temporary_name_beside(target_path_);
        descriptor_ = ::open(candidate.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
        if (descriptor_ >= 0) {
            is_open_ = true;
            temporary_path_ = std::move(candidate);
            unfinished_ = std::make_unique<UnfinishedFile>(temporary_path_);
            return;
        }
        // A file left by a process that was killed may carry the same number.
        if (errno != EEXIST) {
            break;
        }
    }
    fail(errno);
}

void AtomicOutput::write(std::string_view bytes) {
    if (!is_open_) {
        throw std::logic_error("output written after its end: " + name_);
    }
    if (buffer_.size() + bytes.size() > buffer_bytes) {
        write_out(buffer_);
        buffer_.clear();
    }
    if (bytes.size() >= buffer_bytes) {
        write_out(bytes);
    } else {
        buffer_ += bytes;
    }
}

void AtomicOutput::commit() {
    commit_together({this});
}

void AtomicOutput::commit_together(std::initializer_list<AtomicOutput*> outputs) {
    for (AtomicOutput* output : outputs) {
        output->bring_to_disk();
    }
    for (AtomicOutput* output : outputs) {
        output->take_name();
    }
}

void AtomicOutput::write_out(std::string_view bytes) {
    while (!bytes.empty()) {
        const ssize_t written = ::write(descriptor_, bytes.data(), bytes.size());
        // A short write is no error; the next one says why, or goes on.
        if (written < 0) {
            if (errno == EINTR) {
                continue;
            }
            fail(errno);
        }
        bytes.remove_prefix(static_cast<std::size_t>(written));
    }
}

void AtomicOutput::bring_to_disk() {
    if (!is_open_) {
        throw std::logic_error("output committed after its end: " + name_);
    }
    write_out(buffer_);
    buffer_.clear();
    // Before the rename: a power cut must not leave the name with an empty file.
    if (is_temporary() && ::fsync(descriptor_) != 0) {
        fail(errno);
    }
    // Also when close fails: the descriptor is gone then, and closing it twice could hit another.
    is_open_ = false;
    // Some disks report a lost write only here.
    if (owns_descriptor_ && ::close(std::exchange(descriptor_, -1)) != 0) {
        fail(errno);
    }
}

void AtomicOutput::take_name() {
    if (is_temporary()) {
        if (::rename(temporary_path_.c_str(), target_path_.c_str()) != 0) {
            fail(errno);
        }
        temporary_path_.clear();
        unfinished_.reset();
    }
}

void AtomicOutput::discard() {
    if (is_open_ && owns_descriptor_) {
        ::close(descriptor_);
    }
    is_open_ = false;
    descriptor_ = -1;
    if (is_temporary()) {
        ::unlink(temporary_path_.c_str());
        temporary_path_.clear();
        unfinished_.reset();
    }
}

void AtomicOutput::fail(int error) {
    // First, because a constructor that throws gets no destructor.
    discard();
    throw OutputError(name_, reason(error));
}

}  // namespace sim
