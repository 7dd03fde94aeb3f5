// For the tests of names: a few files in memory, loaded and looked up, and what was found as "N01 on line 3".
#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "compiler/findings/catalog.hpp"
#include "compiler/names/load.hpp"
#include "compiler/names/resolve.hpp"
#include "compiler/text/memory_files.hpp"
#include "stdlib/library.hpp"

namespace stk::names {

struct Checked {
  text::MemoryFiles files{stdlib::files()};
  text::Sources sources;
  findings::Findings findings;
  Program program;

  Checked& with(std::string path, std::string source) {
    files.add(std::move(path), std::move(source));
    return *this;
  }
  // The line `stockinger 1` is put before the source, so that its own lines count from 2.
  Checked& check(const std::string& source) {
    const text::FileId main = sources.add("sock.stk", "stockinger 1\n" + source).id();
    program = load(main, files, sources, findings);
    resolve(program, findings);
    return *this;
  }

  // All of the main file, in order of place: "N01:3 N03:5".
  std::string codes() const {
    std::vector<std::pair<std::uint32_t, std::string>> found;
    for (const findings::Finding& finding : findings.all()) {
      const text::Source& source = sources[finding.primary.file];
      std::string text(findings::entry(finding.code).name);
      text += ":" + std::to_string(source.position(finding.primary.begin).line);
      if (!(finding.primary.file == program.main().id)) text += " in " + source.name();
      found.emplace_back(finding.primary.begin, text);
    }
    std::stable_sort(found.begin(), found.end());
    std::string list;
    for (const auto& [place, text] : found) list += (list.empty() ? "" : " ") + text;
    return list;
  }
  const findings::Finding& only() const { return findings.all().at(0); }

  // The main source with every certain edit put in, last first.
  std::string mended() const {
    std::vector<findings::Edit> edits;
    for (const findings::Finding& finding : findings.all()) {
      for (const findings::Edit& edit : finding.edits) {
        if (edit.confidence == findings::Confidence::certain) edits.push_back(edit);
      }
    }
    std::sort(edits.begin(), edits.end(), [](const auto& a, const auto& b) { return a.span.begin > b.span.begin; });
    std::string text(sources[program.main().id].text());
    for (const findings::Edit& edit : edits) {
      text.replace(edit.span.begin, edit.span.end - edit.span.begin, edit.replacement);
    }
    return text.substr(text.find('\n') + 1);
  }
};

inline std::string codes(const std::string& source) {
  Checked checked;
  return checked.check(source).codes();
}

}  // namespace stk::names
