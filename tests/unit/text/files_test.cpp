// Where a source may reach: neighbours in the pattern's folder, libraries by name, and nothing else.
#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>
#include <sys/stat.h>
#include <unistd.h>

#include "compiler/text/disk_files.hpp"
#include "compiler/text/limits.hpp"
#include "compiler/text/memory_files.hpp"
#include "compiler/text/paths.hpp"

namespace fs = std::filesystem;
using namespace stk::text;

namespace {

constexpr EmbeddedFile built_in[] = {{"feet", "stockinger 1 # feet"}, {"heels", "stockinger 1 # heels"}};

std::string text_of(const FileResult& result) {
  const auto* const file = std::get_if<FileText>(&result);
  return file != nullptr ? file->text : "PROBLEM: " + std::get<FileProblem>(result).reason;
}
std::string name_of(const FileResult& result) {
  const auto* const file = std::get_if<FileText>(&result);
  return file != nullptr ? file->name : "";
}
std::string reason(const FileResult& result) {
  const auto* const problem = std::get_if<FileProblem>(&result);
  return problem != nullptr ? problem->reason : "";
}

// A folder for one test, taken away after it.
class Folder {
 public:
  Folder() {
    std::string path = (fs::temp_directory_path() / "stk-files-XXXXXX").string();
    REQUIRE(::mkdtemp(path.data()) != nullptr);
    path_ = fs::canonical(path);
    fs::create_directories(path_ / "patterns/leg");
    write("patterns/main.stk", "main");
    write("patterns/cuff.stk", "cuff");
    write("patterns/leg/heel.stk", "heel");
    write("outside.stk", "outside");
  }
  ~Folder() { fs::remove_all(path_); }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;

  void write(const std::string& name, const std::string& text) const { std::ofstream(path_ / name) << text; }
  std::string path(const std::string& name) const { return (path_ / name).string(); }

 private:
  fs::path path_;
};

}  // namespace

TEST_CASE("paths that may not be written after use") {
  CHECK_FALSE(path_problem("cuff.stk"));
  CHECK_FALSE(path_problem("leg/../cuff.stk"));
  CHECK(path_problem("") == "the path is empty");
  CHECK(path_problem("/etc/x.stk") == "the path must start at the pattern's folder, not at the top of the disk");
  CHECK(path_problem("C:x.stk") == "the path must start at the pattern's folder, not at the top of the disk");
  CHECK(path_problem("leg\\cuff.stk") == "folders in a path are divided by `/`");
  CHECK(path_problem("cuff.txt") == "only files that end in `.stk` can be used");
  CHECK(path_problem(".stk") == "only files that end in `.stk` can be used");
  CHECK(path_problem("leg/.stk") == "only files that end in `.stk` can be used");
  CHECK(path_problem(std::string("a\0b.stk", 7)) == "the path has a control character in it");
  CHECK_FALSE(path_problem(std::string(limits::path_bytes - 4, 'x') + ".stk"));
  CHECK(path_problem(std::string(limits::path_bytes - 3, 'x') + ".stk") == "the path is longer than 1024 bytes");
}

TEST_CASE("where a path leads") {
  CHECK(joined("main.stk", "cuff.stk") == "cuff.stk");
  CHECK(joined("p/main.stk", "leg/heel.stk") == "p/leg/heel.stk");
  CHECK(joined("p/leg/heel.stk", "../cuff.stk") == "p/cuff.stk");
  CHECK(joined("p/main.stk", "./leg/./../cuff.stk") == "p/cuff.stk");
  CHECK(joined("main.stk", "../x.stk").empty());
  CHECK(joined("../p/main.stk", "../../x.stk").empty());
  CHECK(joined("<library>/heels.stk", "../x.stk").empty());
  CHECK(joined("<library>/heels.stk", "feet.stk") == "<library>/feet.stk");
  CHECK(joined("<standard input>", "cuff.stk") == "cuff.stk");
}

TEST_CASE("files in memory") {
  MemoryFiles files(built_in);
  files.add("cuff.stk", "cuff");
  files.add("bad.stk", "\xFF\xFE");
  files.add_library("toes", "toes");
  files.add_library("feet", "my feet");
  CHECK(text_of(files.neighbour("main.stk", "cuff.stk")) == "cuff");
  CHECK(name_of(files.neighbour("leg/main.stk", "../cuff.stk")) == "cuff.stk");
  CHECK(reason(files.neighbour("main.stk", "toe.stk")) == "there is no file of this name");
  CHECK(reason(files.neighbour("main.stk", "bad.stk")) == "it is in UTF-16; save it as UTF-8");
  CHECK(reason(files.neighbour("main.stk", "../cuff.stk")) == "it lies outside the pattern's folder");
  CHECK(text_of(files.library("toes")) == "toes");
  CHECK(text_of(files.library("feet")) == "my feet");
  CHECK(text_of(files.library("heels")) == "stockinger 1 # heels");
  CHECK(name_of(files.library("heels")) == "<library>/heels.stk");
  CHECK(text_of(files.neighbour("<library>/heels.stk", "toes.stk")) == "toes");
  CHECK(reason(files.library("socks")) == "there is no library of this name");
  CHECK(reason(files.library("../cuff")) == "a library's name has letters, digits and `_` only");
  CHECK(files.libraries() == std::vector<std::string>{"feet", "heels", "toes"});
}

TEST_CASE("neighbours on the disk stay inside the pattern's folder") {
  const Folder folder;
  DiskFiles files(folder.path("patterns/main.stk"), built_in);
  const std::string main = folder.path("patterns/main.stk");
  CHECK(text_of(files.neighbour(main, "cuff.stk")) == "cuff");
  CHECK(name_of(files.neighbour(main, "leg/heel.stk")) == folder.path("patterns/leg/heel.stk"));
  CHECK(text_of(files.neighbour(folder.path("patterns/leg/heel.stk"), "../cuff.stk")) == "cuff");
  CHECK(reason(files.neighbour(main, "../outside.stk")) == "it lies outside the pattern's folder");
  CHECK(reason(files.neighbour(main, "none.stk")) == "there is no file of this name");
  CHECK(reason(files.neighbour(main, "cuff.stk/x.stk")) == "a part of its path is a file, not a folder");

  SECTION("after links are resolved") {
    fs::create_symlink(folder.path("outside.stk"), folder.path("patterns/link.stk"));
    fs::create_symlink(folder.path("patterns/leg/heel.stk"), folder.path("patterns/good.stk"));
    fs::create_symlink("/etc/hostname", folder.path("patterns/host.stk"));
    fs::create_symlink(folder.path("patterns/round.stk"), folder.path("patterns/round.stk"));
    folder.write("patterns/notes.txt", "notes");
    fs::create_symlink(folder.path("patterns/notes.txt"), folder.path("patterns/notes.stk"));
    CHECK(reason(files.neighbour(main, "link.stk")) == "it lies outside the pattern's folder");
    CHECK(reason(files.neighbour(main, "host.stk")) == "it lies outside the pattern's folder");
    CHECK(text_of(files.neighbour(main, "good.stk")) == "heel");
    CHECK(reason(files.neighbour(main, "round.stk")) == "its links go round in a circle");
    CHECK(reason(files.neighbour(main, "notes.stk")) == "only files that end in `.stk` can be used");
  }
  SECTION("a folder beside it whose name begins alike is outside") {
    fs::create_directory(folder.path("patterns-old"));
    folder.write("patterns-old/x.stk", "old");
    fs::create_symlink(folder.path("patterns-old/x.stk"), folder.path("patterns/x.stk"));
    CHECK(reason(files.neighbour(main, "x.stk")) == "it lies outside the pattern's folder");
  }
  SECTION("folders, pipes and devices are no sources") {
    fs::create_directory(folder.path("patterns/sub.stk"));
    REQUIRE(::mkfifo(folder.path("patterns/pipe.stk").c_str(), 0600) == 0);
    CHECK(reason(files.neighbour(main, "sub.stk")) == "it is a folder, not a file");
    CHECK(reason(files.neighbour(main, "pipe.stk")) == "it is a device or a socket, not a file");
  }
  SECTION("too long, on both sides of the limit") {
    folder.write("patterns/just.stk", std::string(limits::source_bytes, 'x'));
    folder.write("patterns/long.stk", std::string(limits::source_bytes + 1, 'x'));
    CHECK(text_of(files.neighbour(main, "just.stk")).size() == limits::source_bytes);
    CHECK(reason(files.neighbour(main, "long.stk")) == "it is longer than 4 MiB, the most that a source may have");
  }
}

TEST_CASE("a pattern that was named without a folder has this folder's neighbours") {
  const Folder folder;
  const fs::path before = fs::current_path();
  fs::current_path(folder.path("patterns"));
  DiskFiles files("main.stk", built_in);
  CHECK(text_of(files.neighbour("main.stk", "leg/heel.stk")) == "heel");
  CHECK(name_of(files.neighbour("main.stk", "leg/heel.stk")) == "leg/heel.stk");
  CHECK(reason(files.neighbour("main.stk", "../outside.stk")) == "it lies outside the pattern's folder");
  fs::current_path(before);
}

TEST_CASE("libraries come from the program or from a folder") {
  const Folder folder;
  DiskFiles built(folder.path("patterns/main.stk"), built_in);
  CHECK(text_of(built.library("heels")) == "stockinger 1 # heels");
  CHECK(reason(built.library("cuff")) == "there is no library of this name");
  CHECK(built.libraries() == std::vector<std::string>{"feet", "heels"});

  DiskFiles own(folder.path("patterns/main.stk"), built_in, folder.path("patterns"));
  CHECK(text_of(own.library("cuff")) == "cuff");
  CHECK(name_of(own.library("cuff")) == "<library>/cuff.stk");
  CHECK(reason(own.library("heels")) == "there is no library of this name in " + folder.path("patterns/"));
  CHECK(own.libraries() == std::vector<std::string>{"cuff", "main"});
}

TEST_CASE("the file that the user names") {
  const Folder folder;
  CHECK(text_of(read_source(folder.path("patterns/main.stk"))) == "main");
  CHECK(reason(read_source(folder.path("patterns"))) == "it is a folder, not a file");
  CHECK(reason(read_source(folder.path("none.stk"))) == "there is no file of this name");
  CHECK(reason(read_source("/dev/null")) == "it is a device or a socket, not a file");
  CHECK(reason(read_source(folder.path("patterns/main.stk/x"))) == "a part of its path is a file, not a folder");
  folder.write("mark.stk", "\xEF\xBB\xBFmarked");
  CHECK(text_of(read_source(folder.path("mark.stk"))) == "marked");
  if (::geteuid() != 0) {   // root may read everything
    ::chmod(folder.path("outside.stk").c_str(), 0);
    CHECK(reason(read_source(folder.path("outside.stk"))) == "you have no permission to read it");
  }
}
