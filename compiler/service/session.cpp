#include "compiler/service/session.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>
#include <map>
#include <utility>

#include "compiler/document/write.hpp"
#include "compiler/findings/findings.hpp"
#include "compiler/findings/suggest.hpp"
#include "compiler/fit/judge.hpp"
#include "compiler/knit/run.hpp"
#include "compiler/names/load.hpp"
#include "compiler/names/resolve.hpp"
#include "compiler/service/made_to_measure.hpp"
#include "compiler/text/limits.hpp"

namespace stk::service {
namespace {

std::optional<std::size_t> index_of(const std::vector<std::string>& names, const std::string& name) {
  const auto found = std::find(names.begin(), names.end(), name);
  if (found == names.end()) return std::nullopt;
  return static_cast<std::size_t>(found - names.begin());
}

Refusal unknown(const char* what, const std::string& name, const std::vector<std::string>& known) {
  Refusal refusal{fmt::format("this pattern has no {} `{}`", what, name), {}};
  if (const auto near = findings::nearest_word(name, known)) {
    refusal.help = fmt::format("`{}` is near", near->word);
  } else if (!known.empty()) {
    refusal.help = fmt::format("it has {}", fmt::join(known, ", "));
  }
  return refusal;
}

// Leaves only the lanes that were asked for, and drops a finding that concerns none of them.
void keep_lanes(std::vector<findings::Finding>& all, std::optional<std::size_t> edition,
                std::optional<std::size_t> size) {
  if (!edition && !size) return;
  const auto concerns_others_only = [&](findings::Finding& finding) {
    if (finding.lanes.empty()) return false;
    for (findings::Lanes& lanes : finding.lanes) {
      if (edition && lanes.edition != *edition) lanes.sizes = 0;
      if (size) lanes.sizes &= std::uint64_t{1} << *size;
    }
    std::erase_if(finding.lanes, [](const findings::Lanes& lanes) { return lanes.sizes == 0; });
    return finding.lanes.empty();
  };
  std::erase_if(all, concerns_others_only);
}

findings::LaneNames lane_names(const names::Program& program) {
  findings::LaneNames names;
  if (program.sizes.declared) {
    for (const names::SizeColumn& column : program.sizes.columns) {
      names.sizes.push_back(column.name);
      names.printed.push_back(column.printed);
    }
  }
  for (const auto& edition : program.editions) names.editions.push_back(edition.node->name.text);
  return names;
}

// Errors of fit, of a sock that could be knitted all the same.
bool tells_of_fit(findings::Code code) {
  return code == findings::Code::G20 || code == findings::Code::G31;
}

bool only_of_fit(const std::vector<findings::Finding>& found) {
  return std::all_of(found.begin(), found.end(), [](const findings::Finding& finding) {
    return finding.severity != findings::Severity::error || tells_of_fit(finding.code);
  });
}

// Keeps to the edition and the size that were asked for, and refuses what the pattern has not: an edition, a size, a
// setting. A pattern that may lack them because it is broken has findings that come first.
void keep_to(const Options& options, const names::Program& program, std::vector<Refusal> refusals, Checked& checked) {
  std::vector<std::string> settings;
  for (const auto& setting : program.settings) settings.push_back(setting.node->name.text);
  std::optional<std::size_t> edition, size;
  if (options.edition && !(edition = index_of(checked.names.editions, *options.edition))) {
    refusals.push_back(unknown("edition", *options.edition, checked.names.editions));
  }
  if (options.size && !(size = index_of(checked.names.sizes, *options.size))) {
    refusals.push_back(unknown("size", *options.size, checked.names.sizes));
  }
  for (const auto& [name, value] : options.settings) {
    if (!index_of(settings, name)) refusals.push_back(unknown("setting", name, settings));
  }
  keep_lanes(checked.findings, edition, std::nullopt);
  checked.sound = !checked.has_errors();
  checked.measurable = only_of_fit(checked.findings);
  if (program.sizes.made) size = program.sizes.made->size;
  keep_lanes(checked.findings, std::nullopt, size);
  if (checked.measurable) checked.refusals = std::move(refusals);
}

// One size where one is made to measure or asked for, otherwise all.
knit::SizeSet printed_sizes(const Checked& checked, const Options& options) {
  if (checked.facts->to_measure) return knit::SizeSet{1} << checked.facts->to_measure->size;
  if (options.size) {
    if (const auto size = index_of(checked.names.sizes, *options.size)) return knit::SizeSet{1} << *size;
  }
  return ~knit::SizeSet{0};
}

bool unbalanced(const std::vector<findings::Finding>& all) {
  using findings::Code;
  return std::any_of(all.begin(), all.end(), [](const findings::Finding& finding) {
    return finding.code == Code::S03 || finding.code == Code::S04 || finding.code == Code::S05;
  });
}

std::vector<findings::Finding> only_syntax(std::vector<findings::Finding> all) {
  std::erase_if(all, [](const findings::Finding& finding) { return findings::entry(finding.code).name[0] != 'S'; });
  return all;
}

}  // namespace

bool Checked::has_errors() const {
  return findings::has_errors(findings);
}

// The pipeline: text -> tree -> names -> graded steps -> knitted record. Each phase reports and goes on.
Checked Session::check(std::string name, std::string text, const Options& options) const {
  Checked checked;
  findings::Findings found;
  const text::Source& source = checked.sources.add(std::move(name), std::move(text));
  names::Program program = names::load(source.id(), files_, checked.sources, found);
  if (unbalanced(found.all())) {   // what stands in which block is not known: whatever else would be said is noise
    checked.names = lane_names(program);
    checked.findings = findings::merged(only_syntax(found.all()));
    return checked;
  }
  names::resolve(program, found);
  std::vector<Refusal> unfit;
  if (!options.measures.empty() && !findings::has_errors(found.all())) unfit = make_to_measure(program, options);
  checked.names = lane_names(program);
  checked.facts = knit::knit(program, {options.settings}, found);
  // What was left half knitted has no measures to judge.
  if (only_of_fit(found.all())) fit::judge(*checked.facts, found);
  checked.findings = findings::merged(found.all());
  keep_to(options, program, std::move(unfit), checked);
  return checked;
}

// Knitted record -> document -> files. Nothing is found or reported any more.
Built Session::build(const Checked& checked, const std::vector<std::string>& formats, const Options& options) const {
  if (!checked.facts) return Refusal{"there is nothing that was knitted, so nothing can be written", {}};
  const knit::Facts& facts = *checked.facts;
  const knit::SizeSet sizes = printed_sizes(checked, options);
  std::map<std::string, std::string> files;  // by path: what two formats share is written once
  std::uint64_t bytes = 0;
  for (std::size_t edition = 0; edition < facts.editions.size(); ++edition) {
    if (options.edition && facts.editions[edition].name != *options.edition) continue;
    const document::Document document = document::write_document(facts, edition, sizes);
    for (const std::string& format : formats) {
      const outputs::Backend* const backend = outputs::find_backend(format);
      if (backend == nullptr) return Refusal{fmt::format("there is no format `{}`", format), {}};
      for (outputs::Output& output : backend->write(facts, document, {})) {
        bytes += output.bytes.size();
        if (bytes > text::limits::output_bytes) {
          return Refusal{fmt::format("the files would be larger than {} MiB in all, the most that one run writes",
                                     text::limits::output_bytes / (1024 * 1024)),
                         "`--edition` and `--size` write one at a time"};
        }
        const auto [place, is_new] = files.try_emplace(output.path, std::move(output.bytes));
        if (!is_new && place->second != output.bytes) {
          return Refusal{fmt::format("two outputs would have the name {}", output.path),
                         "editions and sizes need names that differ"};
        }
      }
    }
  }
  std::vector<outputs::Output> result;
  for (auto& [path, content] : files) result.push_back({path, std::move(content)});
  return result;
}

}  // namespace stk::service
