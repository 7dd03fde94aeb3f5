#include <nlohmann/json.hpp>

#include "compiler/findings/catalog.hpp"
#include "compiler/findings/render.hpp"

namespace stk::findings {
namespace {

using nlohmann::ordered_json;

const char* word(Severity severity) {
  switch (severity) {
    case Severity::error:
      return "error";
    case Severity::warning:
      return "warning";
    case Severity::note:
      return "note";
  }
  return "";
}

ordered_json sizes_of(const Lanes& lanes, const LaneNames& names) {
  ordered_json result = ordered_json::array();
  for (std::size_t i = 0; i < names.sizes.size() && i < 64; ++i) {
    if ((lanes.sizes >> i & 1u) != 0) result.push_back(names.sizes[i]);
  }
  return result;
}

ordered_json edition_of(const Lanes& lanes, const LaneNames& names) {
  if (lanes.edition < names.editions.size()) return names.editions[lanes.edition];
  return nullptr;
}

// file, line, column and the rest of a place, into an object that may have other keys.
void put_place(ordered_json& object, text::Span span, const text::Sources& sources) {
  if (span.file.value >= sources.size()) {
    for (const char* key : {"file", "line", "column", "end_line", "end_column", "begin", "end"}) object[key] = nullptr;
    return;
  }
  const text::Source& source = sources[span.file];
  const text::Position begin = source.position(span.begin), end = source.position(span.end);
  object["file"] = source.name();
  object["line"] = begin.line;
  object["column"] = begin.column;
  object["end_line"] = end.line;
  object["end_column"] = end.column;
  object["begin"] = span.begin;
  object["end"] = span.end;
}

ordered_json object_of(const Finding& finding, const text::Sources& sources, const LaneNames& names) {
  ordered_json object;
  object["code"] = entry(finding.code).name;
  object["slug"] = entry(finding.code).slug;
  object["severity"] = word(finding.severity);
  object["message"] = finding.title;
  put_place(object, finding.primary, sources);
  object["sizes"] = finding.lanes.empty() ? ordered_json(nullptr) : sizes_of(finding.lanes.front(), names);
  object["edition"] = finding.lanes.empty() ? ordered_json(nullptr) : edition_of(finding.lanes.front(), names);
  object["row"] = finding.row ? ordered_json(*finding.row) : ordered_json(nullptr);
  object["needle"] = finding.needle.empty() ? ordered_json(nullptr) : ordered_json(finding.needle);
  object["mirrored"] = finding.mirrored;
  object["lanes"] = ordered_json::array();
  for (const Lanes& lanes : finding.lanes) {
    object["lanes"].push_back({{"edition", edition_of(lanes, names)}, {"sizes", sizes_of(lanes, names)}});
  }
  object["label"] = finding.primary_label.empty() ? ordered_json(nullptr) : ordered_json(finding.primary_label);
  object["labels"] = ordered_json::array();
  for (const Label& label : finding.labels) {
    ordered_json one;
    one["message"] = label.text;
    put_place(one, label.span, sources);
    object["labels"].push_back(std::move(one));
  }
  object["notes"] = finding.notes;
  object["helps"] = finding.helps;
  object["edits"] = ordered_json::array();
  for (const Edit& edit : finding.edits) {
    ordered_json one;
    put_place(one, edit.span, sources);
    one["replacement"] = edit.replacement;
    one["confidence"] = edit.confidence == Confidence::certain ? "certain" : "likely";
    object["edits"].push_back(std::move(one));
  }
  return object;
}

}  // namespace

std::string render_json(const std::vector<Run>& runs) {
  ordered_json array = ordered_json::array();
  for (const Run& run : runs) {
    for (const Finding& finding : *run.findings) array.push_back(object_of(finding, *run.sources, *run.names));
  }
  // Text that is not UTF-8 cannot reach a finding from a checked file; `replace` keeps even that from being an
  // exception.
  return array.dump(2, ' ', false, ordered_json::error_handler_t::replace) + "\n";
}

}  // namespace stk::findings
