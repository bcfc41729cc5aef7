#include "sim/files/bounded_input.hpp"

#include <fcntl.h>
#include <gtest/gtest.h>
#include <sys/stat.h>
#include <unistd.h>

#include <chrono>
#include <filesystem>
#include <string>
#include <thread>

#include "files/temporary_folder.hpp"
#include "files/without_privileges.hpp"
#include "sim/files/input_error.hpp"

namespace {

using sim_test::TemporaryFolder;

std::string fault_of(const std::string& path, std::size_t most_bytes = 1024 * 1024) {
    try {
        sim::read_bounded_input(path, most_bytes);
    } catch (const sim::InputError& error) {
        EXPECT_EQ(error.line(), 0);
        EXPECT_EQ(error.key(), "");
        return error.what();
    }
    return "was read";
}

TEST(BoundedInput, ReadsEveryByteUpToTheLimitItself) {
    const TemporaryFolder folder;
    std::string bytes;
    for (int i = 0; i < 200000; ++i) {
        bytes += static_cast<char>(i % 251);
    }
    const std::string path = folder.put("whole", bytes);
    EXPECT_EQ(sim::read_bounded_input(path, bytes.size()), bytes);
    EXPECT_EQ(fault_of(path, bytes.size() - 1),
              path + ": the file is too large; give a file of at most 199999 bytes");
}

TEST(BoundedInput, ReadsAnEmptyFileAsNothing) {
    const TemporaryFolder folder;
    EXPECT_EQ(sim::read_bounded_input(folder.put("empty", ""), 10), "");
}

TEST(BoundedInput, RefusesAHundredMegabytesOfGarbageAtOnce) {
    const TemporaryFolder folder;
    const std::string path = folder.put("garbage", std::string(2 * 1024 * 1024, '\xa7'));
    std::filesystem::resize_file(path, 100 * 1000 * 1000);
    const auto before = std::chrono::steady_clock::now();
    EXPECT_EQ(fault_of(path), path + ": the file is too large; give a file of at most 1 MiB");
    EXPECT_LT(std::chrono::steady_clock::now() - before, std::chrono::seconds(1));
}

TEST(BoundedInput, RefusesAnEndlessDevice) {
    EXPECT_EQ(fault_of("/dev/zero"),
              "/dev/zero: the file is too large; give a file of at most 1 MiB");
}

TEST(BoundedInput, RefusesAFolder) {
    const TemporaryFolder folder;
    EXPECT_EQ(fault_of(folder.path()),
              folder.path() + ": this is a folder; give a file that can be read");
}

TEST(BoundedInput, RefusesAMissingFile) {
    const TemporaryFolder folder;
    EXPECT_EQ(fault_of(folder / "cellar.toml"),
              folder / "cellar.toml" + ": there is no such file; give a file that can be read");
    const std::string file = folder.put("file", "x");
    EXPECT_EQ(fault_of(file + "/below"),
              file + "/below: there is no such file; give a file that can be read");
}

TEST(BoundedInput, RefusesAFileThatMayNotBeRead) {
    const TemporaryFolder folder;
    const std::string path = folder.put("closed", "x");
    ::chmod(path.c_str(), 0);
    ::chmod(folder.path().c_str(), 0755);
    const sim_test::WithoutPrivileges guard;
    EXPECT_EQ(fault_of(path),
              path + ": permission to read it is missing; give a file that can be read");
}

TEST(BoundedInput, ReadsANamedPipeToItsEnd) {
    const TemporaryFolder folder;
    const std::string path = folder / "pipe";
    ASSERT_EQ(::mkfifo(path.c_str(), 0600), 0);
    const std::string bytes(150000, 'p');
    std::thread writer([&path, &bytes]() {
        const int pipe = ::open(path.c_str(), O_WRONLY);
        std::size_t done = 0;
        while (done < bytes.size()) {
            const ssize_t written = ::write(pipe, bytes.data() + done, bytes.size() - done);
            if (written <= 0) {
                break;
            }
            done += static_cast<std::size_t>(written);
        }
        ::close(pipe);
    });
    EXPECT_EQ(sim::read_bounded_input(path, 1024 * 1024), bytes);
    writer.join();
}

TEST(BoundedInput, ReadsStandardInputForADash) {
    const TemporaryFolder folder;
    const std::string path = folder.put("typed", "title");
    const int kept = ::dup(STDIN_FILENO);
    const int file = ::open(path.c_str(), O_RDONLY);
    ASSERT_GE(::dup2(file, STDIN_FILENO), 0);
    EXPECT_EQ(sim::read_bounded_input("-", 10), "title");
    ::lseek(STDIN_FILENO, 0, SEEK_SET);
    EXPECT_EQ(fault_of("-", 4),
              "standard input: the file is too large; give a file of at most 4 bytes");
    ::dup2(kept, STDIN_FILENO);
    ::close(file);
    ::close(kept);
}

}  // namespace
