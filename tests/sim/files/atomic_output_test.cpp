#include "sim/files/atomic_output.hpp"

#include <fcntl.h>
#include <gtest/gtest.h>
#include <signal.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <filesystem>
#include <set>
#include <stdexcept>
#include <string>

#include "files/temporary_folder.hpp"
#include "files/without_privileges.hpp"
#include "sim/files/output_error.hpp"
#include "sim/files/unfinished_files.hpp"

namespace {

using sim::AtomicOutput;
using sim_test::TemporaryFolder;
using sim_test::WithoutPrivileges;
using Names = std::set<std::string>;

const std::string permission_fault =
    ": permission to write here is missing; name a file in a folder that you may write";

/// What writing `bytes` to `path` ends in: empty, or the error's sentence.
std::string outcome_of_writing(const std::string& path, const std::string& bytes) {
    try {
        AtomicOutput output(path);
        output.write(bytes);
        output.commit();
    } catch (const sim::OutputError& error) {
        return error.what();
    }
    return "";
}

TEST(AtomicOutput, GivesTheFileItsNameOnlyWhenCommitted) {
    const TemporaryFolder folder;
    {
        AtomicOutput output(folder / "trace.csv");
        output.write("time_s,speed_rpm\n");
        EXPECT_EQ(folder.names().count("trace.csv"), 0U);
        output.commit();
        EXPECT_EQ(folder.names(), Names{"trace.csv"});
    }
    EXPECT_EQ(folder.get("trace.csv"), "time_s,speed_rpm\n");
}

TEST(AtomicOutput, LetsSeveralFilesAppearTogether) {
    const TemporaryFolder folder;
    AtomicOutput data(folder / "trace.dat");
    AtomicOutput configuration(folder / "trace.cfg");
    data.write("1");
    configuration.write("2");
    EXPECT_EQ(folder.names().count("trace.dat"), 0U);
    AtomicOutput::commit_together({&data, &configuration});
    EXPECT_EQ(folder.names(), (Names{"trace.cfg", "trace.dat"}));
    EXPECT_EQ(folder.get("trace.dat"), "1");
    EXPECT_EQ(folder.get("trace.cfg"), "2");
}

TEST(AtomicOutput, GivesNoneOfSeveralFilesItsNameIfOneCannotBeWritten) {
    const TemporaryFolder folder;
    folder.put("trace.dat", "before");
    {
        AtomicOutput data(folder / "trace.dat");
        AtomicOutput full("/dev/full");
        data.write("1");
        full.write("2");
        EXPECT_THROW(AtomicOutput::commit_together({&data, &full}), sim::OutputError);
    }
    EXPECT_EQ(folder.names(), Names{"trace.dat"});
    EXPECT_EQ(folder.get("trace.dat"), "before");
}

TEST(AtomicOutput, LeavesNothingBehindWhenNotCommitted) {
    const TemporaryFolder folder;
    {
        AtomicOutput output(folder / "trace.csv");
        output.write(std::string(300000, 'x'));
    }
    EXPECT_EQ(folder.names(), Names{});
}

TEST(AtomicOutput, KeepsTheOldFileUntilTheNewOneIsWhole) {
    const TemporaryFolder folder;
    folder.put("trace.csv", "old");
    {
        AtomicOutput output(folder / "trace.csv");
        output.write(std::string(300000, 'x'));
        EXPECT_EQ(folder.get("trace.csv"), "old");
    }
    EXPECT_EQ(folder.get("trace.csv"), "old");
    EXPECT_EQ(outcome_of_writing(folder / "trace.csv", "new"), "");
    EXPECT_EQ(folder.get("trace.csv"), "new");
    EXPECT_EQ(folder.names(), Names{"trace.csv"});
}

TEST(AtomicOutput, WritesPiecesOfEverySizeInOrder) {
    const TemporaryFolder folder;
    std::string expected;
    AtomicOutput output(folder / "pieces");
    for (std::size_t size : {0U, 1U, 65535U, 1U, 65536U, 3U, 200000U, 70U}) {
        std::string piece(size, static_cast<char>('a' + size % 26));
        output.write(piece);
        expected += piece;
    }
    output.commit();
    EXPECT_EQ(folder.get("pieces"), expected);
}

TEST(AtomicOutput, SaysThatADiskIsFull) {
    const std::string sentence =
        "/dev/full: the disk is full; free some space or name a file on another disk";
    EXPECT_EQ(outcome_of_writing("/dev/full", "x"), sentence);
    EXPECT_EQ(outcome_of_writing("/dev/full", std::string(300000, 'x')), sentence);
}

TEST(AtomicOutput, LeavesNothingBehindWhenTheDiskRefusesMoreBytes) {
    const TemporaryFolder folder;
    folder.put("trace.csv", "old");
    // A limit on the size of files stands in for a full disk: write() fails half way.
    struct rlimit kept = {};
    ASSERT_EQ(::getrlimit(RLIMIT_FSIZE, &kept), 0);
    struct rlimit low = kept;
    low.rlim_cur = 100000;
    const auto kept_handler = ::signal(SIGXFSZ, SIG_IGN);
    ASSERT_EQ(::setrlimit(RLIMIT_FSIZE, &low), 0);
    const std::string sentence = outcome_of_writing(folder / "trace.csv", std::string(300000, 'x'));
    ::setrlimit(RLIMIT_FSIZE, &kept);
    ::signal(SIGXFSZ, kept_handler);

    EXPECT_EQ(sentence, folder / "trace.csv" +
                            ": the file would be larger than allowed here; raise the limit or "
                            "name a file on another disk");
    EXPECT_EQ(folder.get("trace.csv"), "old");
    EXPECT_EQ(folder.names(), Names{"trace.csv"});
}

TEST(AtomicOutput, CannotBeUsedAfterAFailureOrTwice) {
    AtomicOutput full("/dev/full");
    full.write("x");
    EXPECT_THROW(full.commit(), sim::OutputError);
    EXPECT_THROW(full.commit(), std::logic_error);
    const TemporaryFolder folder;
    AtomicOutput done(folder / "done");
    done.commit();
    EXPECT_THROW(done.write("x"), std::logic_error);
    EXPECT_THROW(done.commit(), std::logic_error);
    EXPECT_EQ(folder.get("done"), "");
}

TEST(AtomicOutput, RefusesAFolderBeforeAnyWorkIsDone) {
    const TemporaryFolder folder;
    EXPECT_EQ(outcome_of_writing(folder.path(), ""),
              folder.path() + ": this is a folder; give a file name");
    EXPECT_EQ(outcome_of_writing(folder / "new/", ""),
              folder / "new/" + ": this is a folder; give a file name");
    EXPECT_EQ(outcome_of_writing("", ""), "output: the file name is empty; give a file name");
    EXPECT_EQ(folder.names(), Names{});
}

TEST(AtomicOutput, RefusesAFileInAFolderThatDoesNotExist) {
    const TemporaryFolder folder;
    const std::string fault = ": there is no such folder; name a file in a folder that exists";
    EXPECT_EQ(outcome_of_writing(folder / "no/trace.csv", ""), folder / "no/trace.csv" + fault);
    folder.put("file", "x");
    EXPECT_EQ(outcome_of_writing(folder / "file/trace.csv", ""), folder / "file/trace.csv" + fault);
    EXPECT_EQ(folder.names(), Names{"file"});
}

TEST(AtomicOutput, RefusesAProtectedFileEvenWhereItsFolderIsOpen) {
    const TemporaryFolder folder;
    const std::string path = folder.put("protected", "old");
    ::chmod(path.c_str(), 0444);
    ::chmod(folder.path().c_str(), 0777);
    {
        const WithoutPrivileges guard;
        EXPECT_EQ(outcome_of_writing(path, "new"), path + permission_fault);
    }
    EXPECT_EQ(folder.get("protected"), "old");
    EXPECT_EQ(folder.names(), Names{"protected"});
}

TEST(AtomicOutput, RefusesANewFileInAProtectedFolder) {
    const TemporaryFolder folder;
    ::chmod(folder.path().c_str(), 0555);
    {
        const WithoutPrivileges guard;
        EXPECT_EQ(outcome_of_writing(folder / "new", "x"), folder / "new" + permission_fault);
    }
    EXPECT_EQ(folder.names(), Names{});
}

TEST(AtomicOutput, KeepsThePermissionsOfTheFileThatItReplaces) {
    const TemporaryFolder folder;
    const std::string path = folder.put("shared", "old");
    ::chmod(path.c_str(), 0664);
    EXPECT_EQ(outcome_of_writing(path, "new"), "");
    struct stat status = {};
    ASSERT_EQ(::stat(path.c_str(), &status), 0);
    EXPECT_EQ(status.st_mode & 07777U, 0664U);
}

TEST(AtomicOutput, WritesTheFileBehindASymbolicLinkAndKeepsTheLink) {
    const TemporaryFolder folder;
    folder.put("real", "old");
    std::filesystem::create_symlink("real", folder / "link");
    EXPECT_EQ(outcome_of_writing(folder / "link", "new"), "");
    EXPECT_EQ(folder.get("real"), "new");
    EXPECT_TRUE(std::filesystem::is_symlink(folder / "link"));
}

TEST(AtomicOutput, WritesTwoFilesInOneFolderAtTheSameTime) {
    const TemporaryFolder folder;
    AtomicOutput one(folder / "one");
    AtomicOutput other(folder / "other");
    one.write("1");
    other.write("2");
    one.commit();
    other.commit();
    EXPECT_EQ(folder.get("one"), "1");
    EXPECT_EQ(folder.get("other"), "2");
    EXPECT_EQ(folder.names(), (Names{"one", "other"}));
}

TEST(AtomicOutput, WritesStandardOutputForADash) {
    const TemporaryFolder folder;
    const std::string path = folder.put("seen", "");
    const int kept = ::dup(STDOUT_FILENO);
    const int file = ::open(path.c_str(), O_WRONLY);
    ASSERT_GE(::dup2(file, STDOUT_FILENO), 0);
    const std::string sentence = outcome_of_writing("-", "{}\n");
    const bool is_still_open = ::fcntl(STDOUT_FILENO, F_GETFD) != -1;
    const int full = ::open("/dev/full", O_WRONLY);
    ::dup2(full, STDOUT_FILENO);
    const std::string full_sentence = outcome_of_writing("-", "{}\n");
    ::dup2(kept, STDOUT_FILENO);
    ::close(full);
    ::close(file);
    ::close(kept);
    EXPECT_EQ(sentence, "");
    EXPECT_TRUE(is_still_open);
    EXPECT_EQ(folder.get("seen"), "{}\n");
    EXPECT_EQ(full_sentence,
              "standard output: the disk is full; free some space or name a file on another disk");
}

TEST(AtomicOutput, LeavesNothingBehindWhenInterrupted) {
    const TemporaryFolder folder;
    folder.put("trace.csv", "old");
    for (const int signal_number : {SIGINT, SIGTERM, SIGHUP}) {
        const pid_t child = ::fork();
        if (child == 0) {
            // A test runner may have started this process with signals ignored.
            ::signal(signal_number, SIG_DFL);
            sim::delete_unfinished_files_on_interrupt();
            AtomicOutput finished(folder / "finished");
            finished.commit();
            AtomicOutput output(folder / "trace.csv");
            output.write(std::string(300000, 'x'));
            ::raise(signal_number);
            ::_exit(0);
        }
        int status = 0;
        ASSERT_EQ(::waitpid(child, &status, 0), child);
        EXPECT_TRUE(WIFSIGNALED(status));
        EXPECT_EQ(WTERMSIG(status), signal_number);
        EXPECT_EQ(folder.names(), (Names{"finished", "trace.csv"}));
        EXPECT_EQ(folder.get("trace.csv"), "old");
    }
}

}  // namespace
