#include "sim/files/bounded_input.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <system_error>

#include "sim/files/input_error.hpp"

namespace sim {

namespace {

/// Closes the descriptor at the end of the scope unless it is standard input.
class Descriptor {
  public:
    explicit Descriptor(const std::string& path)
        : number_(path == "-" ? STDIN_FILENO : ::open(path.c_str(), O_RDONLY | O_CLOEXEC)),
          owned_(path != "-") {}
    ~Descriptor() {
        if (owned_ && number_ >= 0) {
            ::close(number_);
        }
    }
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;

    int number() const { return number_; }

  private:
    int number_;
    bool owned_;
};

[[noreturn]] void refuse(const std::string& path, int error) {
    std::string fault = std::generic_category().message(error);
    // The system's own words are kept only for what a user rarely meets.
    if (error == ENOENT || error == ENOTDIR) {
        fault = "there is no such file";
    } else if (error == EACCES) {
        fault = "permission to read it is missing";
    } else if (error == EISDIR) {
        fault = "this is a folder";
    } else {
        fault = "it cannot be read (" + fault + ")";
    }
    throw InputError(input_name(path), 0, "", fault + "; give a file that can be read");
}

std::string size_in_words(std::size_t bytes) {
    constexpr std::size_t kibi = 1024;
    if (bytes >= kibi * kibi && bytes % (kibi * kibi) == 0) {
        return std::to_string(bytes / (kibi * kibi)) + " MiB";
    }
    return std::to_string(bytes) + " bytes";
}

}  // namespace

std::string input_name(const std::string& path) {
    return path == "-" ? "standard input" : path;
}

std::string read_bounded_input(const std::string& path, std::size_t most_bytes) {
    const Descriptor descriptor(path);
    if (descriptor.number() < 0) {
        refuse(path, errno);
    }
    // Not by the size that the file claims: a pipe and a device have none, and a file may grow.
    std::string text;
    while (text.size() <= most_bytes) {
        const std::size_t before = text.size();
        const std::size_t wanted = std::min<std::size_t>(most_bytes + 1 - before, 65536);
        text.resize(before + wanted);
        const ssize_t got = ::read(descriptor.number(), &text[before], wanted);
        if (got < 0 && errno != EINTR) {
            refuse(path, errno);
        }
        text.resize(before + static_cast<std::size_t>(std::max<ssize_t>(got, 0)));
        if (got == 0) {
            return text;
        }
    }
    throw InputError(input_name(path), 0, "",
                     "the file is too large; give a file of at most " + size_in_words(most_bytes));
}

}  // namespace sim
