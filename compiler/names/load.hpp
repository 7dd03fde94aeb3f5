// From a main source to the Program: every used library and neighbour is read, parsed and its declarations are collected.
#pragma once

#include "compiler/findings/findings.hpp"
#include "compiler/names/program.hpp"
#include "compiler/text/files.hpp"
#include "compiler/text/source.hpp"

namespace stk::names {

// Reads files through `files` only and adds their texts to `sources`, in which `main` stands already. Reports syntax
// mistakes, files that are not there, circles, limits, and what is wrong with the declarations as such: two of one name, a
// name that cannot be one, a ragged table of sizes.
Program load(text::FileId main, text::Files& files, text::Sources& sources, findings::Findings& findings);

}  // namespace stk::names
