// The judgement of Debian's python3-jsonschema on what the program prints. Schemas may refer to each other by their
// ids.
#pragma once

#include <string>

#include "running.hpp"

namespace whichwire::test {

/// What is wrong with the text by topologies/NAME.schema.json; empty: nothing.
inline std::string judged(const std::string& json, const std::string& name) {
  const std::string script =
      "import glob,json,sys,jsonschema as j\n"
      "all=[json.load(open(f)) for f in glob.glob('topologies/*.schema.json')]\n"
      "store={s['$id']:s for s in all}\n"
      "mine=json.load(open('topologies/" +
      name +
      ".schema.json'))\n"
      "v=j.Draft202012Validator(mine,resolver=j.RefResolver(mine['$id'],mine,store=store))\n"
      "e=list(v.iter_errors(json.load(sys.stdin)))\n"
      "print(len(e),e[0].message[:200],list(e[0].path)) if e else None\n";
  const std::string file = scratch() + "/judge.py";
  write_text(file, script);
  const Run run = test::run("/usr/bin/python3 -W ignore " + file, json);
  return run.out + run.err;
}

}  // namespace whichwire::test
