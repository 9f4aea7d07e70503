#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <fstream>

#include "network/reading.hpp"

using namespace whichwire;

namespace {

/// A folder of files for one test, gone when it ends.
class Folder {
 public:
  Folder() : path_(std::filesystem::temp_directory_path() / ("whichwire-extends-" + std::to_string(getpid()))) {
    std::filesystem::create_directories(path_ / "below");
  }
  ~Folder() { std::filesystem::remove_all(path_); }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;

  void file(const std::string& name, std::string_view insides) const {
    std::ofstream(path_ / name) << test::network_text(insides) << "\n";
  }
  NetworkResult load(const std::string& name) const { return load_network((path_ / name).string()); }
  /// All that is said, "file:line:column: path: message" a line, without the folder.
  std::string said(const std::string& name) const {
    std::string all;
    for (const Mistake& mistake : load(name).mistakes) {
      const std::string text = text_of(mistake);
      all += text.substr(path_.string().size() + 1, text.find('\n') - path_.string().size());
    }
    return all;
  }

 private:
  std::filesystem::path path_;
};

constexpr std::string_view base = R"(
  "vehicle": {"make": "Hollin", "model_year": 2018},
  "modules": {"A": {"name": "first", "aliases": ["x", "y"], "power": [{"pin": "1"}, {"pin": "2"}]}, "B": {}, "C.1": {}},
  "buses": {"X": {"protocol": "can-hs", "bit_rate": 500000, "segments": {"X-1": {"from": "A", "to": "B"}, "X-2": {"from": "B", "to": "C.1"}},
                  "terminators": [{"at": "A"}, {"at": "B"}]}})";

}  // namespace

TEST_CASE("a file that extends another states what differs: objects key by key, everything else whole") {
  const Folder folder;
  folder.file("base.json", base);
  folder.file("sport.json", R"("extends": "base.json", "vehicle": {"variant": "sport"},
      "modules": {"A": {"aliases": ["z"], "minutes": 3}, "D": {}},
      "buses": {"X": {"bit_rate": 250000, "segments": {"X-2": {"to": "D"}, "X-3": {"from": "D", "to": "C.1"}}}})");
  const NetworkResult result = folder.load("sport.json");
  CHECK(folder.said("sport.json") == "");
  REQUIRE(result.network);
  const Network& network = *result.network;
  CHECK(network.vehicle.make == "Hollin");
  CHECK(network.vehicle.variant == "sport");
  CHECK(network.modules[0].name == "first");
  CHECK(network.modules[0].aliases == std::vector<std::string>{"z"});
  CHECK(network.modules[0].power.size() == 2);
  CHECK(network.modules[0].place.minutes == 3);
  REQUIRE(network.modules.size() == 4);
  CHECK(network.modules[3].id == "D");
  CHECK(network.buses[0].bit_rate == 250000);
  REQUIRE(network.buses[0].segments.size() == 3 + 1);  // and the stub to the connector
  CHECK(network.buses[0].segments[1].from == End{End::Kind::module, 1});
  CHECK(network.buses[0].segments[1].to == End{End::Kind::module, 3});
  CHECK(network.name.ends_with("sport.json"));
}

TEST_CASE("what is removed is gone, dots in ids or not, before the rest is laid over") {
  const Folder folder;
  folder.file("base.json", base);
  folder.file(
      "short.json",
      R"("extends": "base.json", "remove": ["modules.C.1", "buses.X.segments.X-2", "modules.A"], "modules": {"A": {}})");
  const NetworkResult result = folder.load("short.json");
  CHECK(folder.said("short.json") == "");
  REQUIRE(result.network);
  CHECK(result.network->modules.size() == 2);
  CHECK(result.network->buses[0].segments.size() == 1 + 1);  // and the stub to the connector
  const std::size_t a = index_of(result.network->modules, "A");
  REQUIRE(a != nowhere);
  CHECK(result.network->modules[a].name == "");
}

TEST_CASE("what still speaks of a thing removed is a mistake, in the file where it stands") {
  const Folder folder;
  folder.file("base.json", base);
  folder.file("short.json", R"("extends": "base.json", "remove": ["modules.B"])");
  const std::string said = folder.said("short.json");
  CHECK(said.find("base.json:4:") != std::string::npos);
  CHECK(said.find("buses.X.segments.X-1.to: there is no module or point `B`") != std::string::npos);
  CHECK(said.find("buses.X.terminators[1].at: there is no module or point `B`") != std::string::npos);
  CHECK(said.find("short.json") == std::string::npos);
}

TEST_CASE("bases extend bases, also in folders below, and each is looked up beside the file that names it") {
  const Folder folder;
  folder.file("below/base.json", base);
  folder.file("below/middle.json", R"("extends": "base.json", "modules": {"B": {"name": "second"}})");
  folder.file("top.json", R"("extends": "below/middle.json", "modules": {"B": {"minutes": 1}})");
  const NetworkResult result = folder.load("top.json");
  REQUIRE(result.network);
  CHECK(result.network->modules[1].name == "second");
  CHECK(result.network->modules[1].place.minutes == 1);
}

TEST_CASE("bases that go in a circle, or on without end, are refused") {
  const Folder folder;
  folder.file("one.json", R"("extends": "two.json")");
  folder.file("two.json", R"("extends": "below/../one.json")");
  CHECK(folder.said("one.json").find("lies elsewhere") != std::string::npos);
  folder.file("two.json", R"("extends": "./one.json")");
  CHECK(folder.said("one.json") ==
        "two.json:1:47: extends: the base `./one.json` leads back to a file that extends it\n");
  for (int i = 0; i < 9; ++i)
    folder.file("n" + std::to_string(i) + ".json", "\"extends\": \"n" + std::to_string(i + 1) + ".json\"");
  CHECK(folder.said("n0.json") ==
        "n7.json:1:47: extends: the base `n8.json` is one too many: at most 8 files extend each other\n");
}

TEST_CASE("a base that is a folder, a device, or outside is refused with the reason") {
  const Folder folder;
  folder.file("a.json", R"("extends": "below")");
  CHECK(folder.said("a.json").find("cannot be read: it is a folder") != std::string::npos);
  folder.file("a.json", R"("extends": "/dev/zero")");
  CHECK(folder.said("a.json").find("lies elsewhere") != std::string::npos);
  std::filesystem::create_symlink("/dev/zero", std::filesystem::temp_directory_path() /
                                                   ("whichwire-extends-" + std::to_string(getpid())) / "zero.json");
  folder.file("a.json", R"("extends": "zero.json")");
  CHECK(folder.said("a.json").find("cannot be read: it is no ordinary file") != std::string::npos);
}

TEST_CASE("what a difference leaves out is missed only when the base has not got it either") {
  const Folder folder;
  folder.file("base.json", base);
  folder.file("more.json", R"("extends": "base.json", "buses": {"Y": {"members": ["A"]}})");
  CHECK(folder.said("more.json") == "more.json:1:75: buses.Y: the key `protocol` is missing\n");
}

TEST_CASE("what is missing in the whole is said beside the other mistakes, each once") {
  const Folder folder;
  folder.file("base.json", base);
  folder.file("more.json",
              R"("extends": "base.json", "remove": ["modules.Z"], "buses": {"X": {"segments": {"X-9": {}}}})");
  const std::string said = folder.said("more.json");
  CHECK(said.find("remove[0]: the base has nothing at `modules.Z`") != std::string::npos);
  CHECK(said.find("buses.X.segments.X-9: the key `from` is missing") != std::string::npos);
  CHECK(said.find("buses.X.segments.X-9: the key `to` is missing") != std::string::npos);
  CHECK(std::ranges::count(said, '\n') == 3);
}
