// The only file that knows CLI11. It finds what belongs to what; what is wrong is said here in our own words, because a
// designer reads them.
#include "compiler/driver/options.hpp"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <charconv>
#include <utility>

#include "compiler/driver/swatch_options.hpp"
#include "compiler/findings/suggest.hpp"
#include "compiler/outputs/backend.hpp"
#include "compiler/text/limits.hpp"

namespace stk::driver {
namespace {

constexpr const char* about =
    "Stockinger checks a sock pattern in every size on an abstract knitting machine,\n"
    "and writes its instructions and charts.";
constexpr const char* examples =
    "Examples:\n"
    "  stockinger check slack-water.stk\n"
    "  stockinger build slack-water.stk --out slack-water\n"
    "  stockinger fit slack-water.stk\n"
    "  stockinger explain C04\n"
    "  stockinger swatch --stitches 40 --rows 60 --washed 16.4x17.6cm\n";
constexpr const char* check_examples =
    "Examples:\n"
    "  stockinger check slack-water.stk\n"
    "  stockinger check --edition mid --format json *.stk\n"
    "  stockinger check - < slack-water.stk\n\n"
    "Exit status: 0 no errors, 1 errors, 2 a file that cannot be read or wrong usage.\n";
constexpr const char* build_examples =
    "Examples:\n"
    "  stockinger build slack-water.stk --out slack-water\n"
    "  stockinger build slack-water.stk --to text --edition mid --size women_m\n"
    "  stockinger build slack-water.stk --set heel_part=40%\n"
    "  stockinger build slack-water.stk --measure foot_length=24.3cm --measure foot_around=22cm\n\n"
    "The pattern is checked first; nothing is written when there is an error.\n";
constexpr const char* fit_examples =
    "Examples:\n"
    "  stockinger fit slack-water.stk\n"
    "  stockinger fit slack-water.stk --edition mid --size women_m\n"
    "  stockinger fit slack-water.stk --edition mid --plot people.svg\n\n"
    "The pattern is checked first. Exit status: 0 no errors, 1 errors (a sock that does not fit is one), 2 a file that\n"
    "cannot be read or written, or wrong usage.\n";
constexpr const char* explain_examples =
    "Examples:\n"
    "  stockinger explain C04\n"
    "  stockinger explain          (a list of all findings)\n";

constexpr const char* swatch_examples =
    "Examples:\n"
    "  stockinger swatch --stitches 40 --rows 60 --off 17.2x18.6cm --washed 16.4x17.6cm\n"
    "  stockinger swatch --stitches 40 --rows 60 --off 17.2x18.6cm --washed 16.4x17.6cm \\\n"
    "    --yarn \"300 m to 100 g\" --weighed 18.2g --whole 48x68 --dial 6 --dial-range 0,10\n"
    "  stockinger swatch --stitches 40 --rows 60 --washed 16.4x17.6cm --for 26x36\n\n"
    "Mark a field of stitches and rows well inside the swatch. Measure it off the machine,\n"
    "rested for a night, then washed and dried as the socks will be. Plain knitting only.\n";

// What the user typed, before it is understood.
struct Typed {
  std::vector<std::string> files, formats, settings, measures, code;
  std::string format = "text", library, edition, size, show, plot, folder = ".";
  SwatchTyped swatch;
};

void add_selection(CLI::App& command, Typed& typed) {
  command.add_option("--edition", typed.edition, "Only this edition of the pattern")->option_text("NAME")->take_last();
  command.add_option("--size", typed.size, "Only this size, by its name in the sizes table")
      ->option_text("NAME")
      ->take_last();
  command.add_option("--set", typed.settings, "Give a setting of the pattern a value; may be repeated")
      ->option_text("NAME=VALUE")
      ->allow_extra_args(false);
  command
      .add_option("--measure", typed.measures,
                  "Make one size for these measures of one person, from the size that is nearest; may be repeated")
      ->option_text("NAME=VALUE")
      ->allow_extra_args(false);
  command.add_option("--library", typed.library, "Take libraries from this folder, not from the program")
      ->option_text("DIR")
      ->take_last();
  command
      .add_option("--show", typed.show,
                  fmt::format("Show so many findings, {} by default; 0 shows all", text::limits::findings_shown))
      ->option_text("N")
      ->take_last();
}

void add_swatch(CLI::App& command, SwatchTyped& typed) {
  const auto option = [&](const char* name, std::string& into, const char* value, const char* help) {
    command.add_option(name, into, help)->option_text(value)->take_last();
  };
  option("--stitches", typed.stitches, "N", "Stitches between the marks");
  option("--rows", typed.rows, "N", "Rows between the marks");
  option("--off", typed.off, "WxH", "Width and height between the marks, off the machine and rested: 17.2x18.6cm");
  option("--washed", typed.washed, "WxH", "The same, washed and dried");
  option("--yarn", typed.yarn, "COUNT", "\"420 m to 100 g\", 238tex or \"Nm 8.4/2\"");
  option("--strands", typed.strands, "N", "Strands knitted as one; 1 by default");
  option("--weighed", typed.weighed, "MASS", "What the dry swatch weighs: 18.2g");
  option("--whole", typed.whole, "STSxROWS", "All stitches and rows of what was weighed; those between the marks by default");
  option("--for", typed.wanted, "STSxROWS", "The washed gauge that a pattern asks for, to 10 cm: 30x42");
  option("--dial", typed.dial, "N", "The dial number that the swatch was knitted at");
  option("--dial-range", typed.dial_range, "A,B", "The tightest and the slackest number of your dial: 0,10");
  option("--fabric", typed.fabric, "FABRIC", "plain (the default) or rib");
  option("--format", typed.format, "FORMAT", "text (the default) or json");
}

std::vector<std::string> format_names() {
  std::vector<std::string> names;
  for (const outputs::Backend* backend : outputs::backends()) names.emplace_back(backend->name());
  return names;
}

std::string formats_help() {
  std::string text = "What to write, divided by commas; all by default:";
  for (const outputs::Backend* backend : outputs::backends()) {
    text += fmt::format("\n{}: {}", backend->name(), backend->summary());
  }
  return text;
}

Misused unknown(std::string message, const std::string& word, const std::vector<std::string>& known) {
  if (const auto near = findings::nearest_word(word, known))
    return {std::move(message), fmt::format("`{}` is near", near->word)};
  return {std::move(message), fmt::format("there are {}", fmt::join(known, ", "))};
}

std::vector<std::string> option_names(const CLI::App& command) {
  std::vector<std::string> names;
  for (const CLI::Option* option : command.get_options()) {
    for (const std::string& name : option->get_lnames()) names.push_back("--" + name);
  }
  return names;
}

// NAME=VALUE, each name once.
std::optional<Misused> read_values(std::string_view option, std::string_view sample,
                                   const std::vector<std::string>& given, std::map<std::string, std::string>& values) {
  for (const std::string& word : given) {
    const std::size_t equals = word.find('=');
    if (equals == std::string::npos || equals == 0 || equals + 1 == word.size()) {
      return Misused{fmt::format("`{}` needs a name and a value, and `{}` is not both", option, word),
                     fmt::format("write it like `{} {}`", option, sample)};
    }
    const auto [place, is_new] = values.emplace(word.substr(0, equals), word.substr(equals + 1));
    if (!is_new) return Misused{fmt::format("`{} {}` is given twice", option, place->first), {}};
  }
  return std::nullopt;
}

std::optional<Misused> read_selection(const Typed& typed, Selected& selected) {
  const auto given = [](const std::string& value) {
    return value.empty() ? std::nullopt : std::optional<std::string>(value);
  };
  selected.library = given(typed.library);
  selected.edition = given(typed.edition);
  selected.size = given(typed.size);
  selected.show = text::limits::findings_shown;
  if (!typed.show.empty()) {
    const char* const end = typed.show.data() + typed.show.size();
    const auto [stop, error] = std::from_chars(typed.show.data(), end, selected.show);
    if (error != std::errc() || stop != end) {
      return Misused{fmt::format("`--show` needs a whole number, and {} is none", typed.show), {}};
    }
  }
  if (auto misused = read_values("--set", "heel_part=40%", typed.settings, selected.settings)) return misused;
  return read_values("--measure", "foot_length=24.3cm", typed.measures, selected.measures);
}

// An option that is not known, or a word too many: CLI11 leaves them over.
std::optional<Misused> left_over(const CLI::App& app, const CLI::App* command) {
  const std::vector<std::string> rest = app.remaining(true);
  if (rest.empty()) return std::nullopt;
  const auto option = std::find_if(rest.begin(), rest.end(), [](const std::string& word) { return word[0] == '-'; });
  if (option != rest.end()) {
    const std::string name = option->substr(0, option->find('='));
    return unknown(fmt::format("there is no option `{}`", name), name,
                   option_names(command != nullptr ? *command : app));
  }
  if (command != nullptr) return Misused{fmt::format("`{}` is one word too many", rest.front()), {}};
  return unknown(fmt::format("there is no command `{}`", rest.front()), rest.front(), {"check", "build", "fit", "explain", "swatch"});
}

Command read_check(const Typed& typed) {
  CheckCommand command;
  command.files = typed.files;
  if (command.files.empty()) {
    return Misused{"`check` needs the name of a pattern file", "for example `stockinger check slack-water.stk`"};
  }
  if (typed.format != "text" && typed.format != "json") {
    return unknown(fmt::format("findings cannot be written as `{}`", typed.format), typed.format, {"text", "json"});
  }
  command.json = typed.format == "json";
  if (auto misused = read_selection(typed, command.selected)) return *misused;
  if (std::count(command.files.begin(), command.files.end(), "-") > 1) {
    return Misused{"standard input (`-`) can be read once only", {}};
  }
  return command;
}

Command read_build(const Typed& typed) {
  BuildCommand command;
  if (typed.files.empty()) {
    return Misused{"`build` needs the name of a pattern file", "for example `stockinger build slack-water.stk`"};
  }
  if (typed.files.size() > 1) {
    return Misused{"`build` takes one pattern file at a time", "give each its own `--out` folder"};
  }
  command.file = typed.files.front();
  command.folder = typed.folder.empty() ? "." : typed.folder;
  const std::vector<std::string> known = format_names();
  for (const std::string& format : typed.formats) {
    if (std::find(known.begin(), known.end(), format) == known.end()) {
      return unknown(fmt::format("there is no format `{}`", format), format, known);
    }
    if (std::find(command.formats.begin(), command.formats.end(), format) == command.formats.end()) {
      command.formats.push_back(format);
    }
  }
  if (command.formats.empty()) command.formats = known;
  if (auto misused = read_selection(typed, command.selected)) return *misused;
  return command;
}

Command read_fit(const Typed& typed) {
  FitCommand command;
  if (typed.files.empty()) {
    return Misused{"`fit` needs the name of a pattern file", "for example `stockinger fit slack-water.stk`"};
  }
  if (typed.files.size() > 1) return Misused{"`fit` takes one pattern file at a time", {}};
  command.file = typed.files.front();
  if (typed.format != "text" && typed.format != "json") {
    return unknown(fmt::format("a report cannot be written as `{}`", typed.format), typed.format, {"text", "json"});
  }
  command.json = typed.format == "json";
  command.plot = typed.plot;
  if (auto misused = read_selection(typed, command.selected)) return *misused;
  return command;
}

// "--out: 1 required DIR missing" and its like: all say that a value is missing.
Misused in_our_words(const CLI::ParseError& error) {
  const std::string what = error.what();
  const std::size_t colon = what.find(':');
  if (error.get_name() == "ArgumentMismatch" && colon != std::string::npos) {
    return {fmt::format("`{}` needs a value after it", what.substr(0, colon)), {}};
  }
  return {what, {}};
}

}  // namespace

Command read_options(int argc, const char* const* argv) {
  CLI::App app(about, "stockinger");
  Typed typed;
  app.set_version_flag("--version", "stockinger " STK_VERSION "\n");
  app.footer(examples);
  app.get_formatter()->column_width(28);
  app.allow_extras();

  CLI::App* const check = app.add_subcommand("check", "Check patterns and print what was found");
  check->add_option("FILE", typed.files, "Pattern files, or - for standard input")->option_text("...");
  check->add_option("--format", typed.format, "How findings are printed: text (the default) or json")
      ->option_text("FORMAT")
      ->take_last();
  add_selection(*check, typed);
  check->footer(check_examples);

  CLI::App* const build = app.add_subcommand("build", "Check a pattern and write its instructions and charts");
  build->add_option("FILE", typed.files, "The pattern file, or - for standard input")->option_text(" ");
  build->add_option("--to", typed.formats, formats_help())
      ->option_text("FORMATS")
      ->delimiter(',')
      ->allow_extra_args(false);
  build->add_option("--out", typed.folder, "The folder to write into; this one by default")
      ->option_text("DIR")
      ->take_last();
  add_selection(*build, typed);
  build->footer(build_examples);

  CLI::App* const fit = app.add_subcommand("fit", "Tell how each size fits, and whom the sizes fit");
  fit->add_option("FILE", typed.files, "The pattern file, or - for standard input")->option_text(" ");
  fit->add_option("--format", typed.format, "How the report is printed: text (the default) or json")
      ->option_text("FORMAT")
      ->take_last();
  fit->add_option("--plot", typed.plot, "Draw people and sizes into this file, as an SVG")->option_text("FILE")->take_last();
  add_selection(*fit, typed);
  fit->footer(fit_examples);

  CLI::App* const explain = app.add_subcommand("explain", "Explain a finding: what it means, an example, the mend");
  explain->add_option("CODE", typed.code, "Its code or its name: C04, uneven_groups")->option_text(" ");
  explain->footer(explain_examples);

  CLI::App* const swatch = app.add_subcommand("swatch", "Work out what a swatch tells: gauge, fabric, yarn, dial");
  add_swatch(*swatch, typed.swatch);
  swatch->footer(swatch_examples);

  for (CLI::App* command : {check, build, fit, explain, swatch}) command->allow_extras();
  try {
    app.parse(argc, argv);
  } catch (const CLI::CallForHelp&) {
    return Printed{app.help()};
  } catch (const CLI::CallForVersion& version) {
    return Printed{version.what()};
  } catch (const CLI::ParseError& error) {
    return in_our_words(error);
  }
  const std::vector<CLI::App*> chosen = app.get_subcommands();
  if (auto misused = left_over(app, chosen.empty() ? nullptr : chosen.front())) return *misused;
  if (chosen.empty())
    return Misused{"a command is needed: check, build, fit, explain or swatch", "`stockinger --help` shows examples"};
  if (chosen.size() > 1) return Misused{"one command at a time", {}};
  if (chosen.front() == check) return read_check(typed);
  if (chosen.front() == build) return read_build(typed);
  if (chosen.front() == fit) return read_fit(typed);
  if (chosen.front() == swatch) {
    auto read = read_swatch(typed.swatch);
    if (auto* misused = std::get_if<Misused>(&read)) return *misused;
    return std::get<SwatchCommand>(read);
  }
  if (typed.code.size() > 1) return Misused{"`explain` takes one code at a time", {}};
  return ExplainCommand{typed.code.empty() ? std::string() : typed.code.front()};
}

}  // namespace stk::driver
