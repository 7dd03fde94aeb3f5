#include "compiler/driver/swatch_options.hpp"

#include <fmt/format.h>

#include <optional>
#include <string_view>

#include "compiler/values/yarn_count.hpp"

namespace stk::driver {
namespace {

using values::Quantity;
using values::Rational;

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
  while (!text.empty() && text.back() == ' ') text.remove_suffix(1);
  return text;
}

// A number and what stands behind it: "17.2cm" is 17.2 and "cm". Nothing when no number stands there.
struct Split {
  Rational number;
  std::string_view rest;
};
std::optional<Split> split(std::string_view text) {
  text = trimmed(text);
  std::size_t length = 0;
  const auto is_digit = [](char c) {
    return (c >= '0' && c <= '9') || c == '.' || static_cast<unsigned char>(c) >= 0x80;  // ½
  };
  while (length < text.size() && is_digit(text[length])) ++length;
  const auto number = values::from_digits(text.substr(0, length));
  if (!number) return std::nullopt;
  return Split{*number, trimmed(text.substr(length))};
}

// "40x60", "17.2 x 18.6 cm": two numbers with an x or a × between, and what stands behind.
struct Pair {
  Rational first, second;
  std::string_view rest;
};
std::optional<Pair> pair(std::string_view text) {
  for (const std::string_view times : {std::string_view("x"), std::string_view("×")}) {
    const std::size_t at = text.find(times);
    if (at == std::string_view::npos) continue;
    const auto a = split(text.substr(0, at)), b = split(text.substr(at + times.size()));
    if (a && b && a->rest.empty()) return Pair{a->number, b->number, b->rest};
  }
  return std::nullopt;
}

bool is_positive(const Rational& value) {
  return !value.is_zero() && !value.is_negative();
}

// Collects the first thing that is wrong; whatever comes after it stays unread.
class Reader {
 public:
  std::optional<Misused> wrong;

  void refuse(std::string message, std::string help = {}) {
    if (!wrong) wrong = Misused{std::move(message), std::move(help)};
  }

  std::optional<Rational> count(const std::string& text, std::string_view option, std::string_view what,
                                std::string_view example, std::int64_t least, std::int64_t most) {
    if (text.empty()) return std::nullopt;
    const auto read = split(text);
    if (!read || !read->rest.empty()) {
      refuse(fmt::format("`{}` needs a number of {}, and `{}` is none", option, what, text),
             fmt::format("write it like `{}`", example));
      return std::nullopt;
    }
    if (read->number < Rational(least) || read->number > Rational(most)) {
      refuse(fmt::format("`{} {}` cannot be: {} are {} to {}", option, text, what, least, most));
      return std::nullopt;
    }
    return read->number;
  }

  std::optional<SwatchSize> size(const std::string& text, std::string_view option) {
    if (text.empty()) return std::nullopt;
    const auto read = pair(text);
    if (!read) {
      refuse(fmt::format("`{}` needs a width and a height, and `{}` is not both", option, text),
             fmt::format("write it like `{} 17.2x18.6cm`", option));
      return std::nullopt;
    }
    const values::Unit* unit = values::find_unit(read->rest);
    if (!unit || unit->dimension != values::dimensions::length) {
      if (read->rest.empty())
        refuse(fmt::format("`{} {}` does not say its unit", option, text), "cm, mm or in");
      else
        refuse(fmt::format("`{}` in `{} {}` is no unit of length", read->rest, option, text), "cm, mm or in");
      return std::nullopt;
    }
    const auto width = values::in_unit(read->first, *unit), height = values::in_unit(read->second, *unit);
    for (const auto& side : {width, height}) {
      if (!side || side->value < Rational(10) || side->value > Rational(3000)) {
        refuse(fmt::format("`{} {}` cannot be: a swatch measures 1 cm to 3 m each way", option, text));
        return std::nullopt;
      }
    }
    return SwatchSize{width->value, height->value};
  }

  std::optional<Rational> mass(const std::string& text, std::string_view option) {
    if (text.empty()) return std::nullopt;
    const auto read = split(text);
    const values::Unit* unit = read ? values::find_unit(read->rest) : nullptr;
    if (!read || !unit || unit->dimension != values::dimensions::mass) {
      refuse(fmt::format("`{}` needs a mass, and `{}` is none", option, text),
             fmt::format("write it like `{} 9.4g`", option));
      return std::nullopt;
    }
    const auto mass = values::in_unit(read->number, *unit);
    if (!mass || !is_positive(mass->value) || mass->value > Rational(5000)) {
      refuse(fmt::format("`{} {}` cannot be the mass of a swatch", option, text));
      return std::nullopt;
    }
    return mass->value;
  }

  // "420 m to 100 g", "420m/100g", "238 tex", "Nm 8.4/2".
  std::optional<Quantity> yarn(const std::string& text) {
    if (text.empty()) return std::nullopt;
    const auto count = yarn_of(trimmed(text));
    if (!count) {
      refuse(fmt::format("`--yarn` needs a count or a label, and `{}` is neither", text),
             "write it like `--yarn \"420 m to 100 g\"`, `--yarn 238tex` or `--yarn \"Nm 8.4/2\"`");
      return std::nullopt;
    }
    const auto tex = values::amount_in(*count, *values::find_unit("tex"));
    if (!tex || *tex < Rational(5) || *tex > Rational(10000)) {
      refuse(fmt::format("`--yarn {}` is no yarn that is knitted: counts are 5 to 10,000 tex", text));
      return std::nullopt;
    }
    return *count;
  }

 private:
  static std::optional<Quantity> value_of(const values::Outcome<Quantity>& outcome) {
    return outcome ? std::optional(*outcome) : std::nullopt;
  }
  static std::optional<Quantity> yarn_of(std::string_view text) {
    if (const std::size_t blank = text.find(' '); blank != std::string_view::npos)
      if (const auto* system = values::find_count_system(text.substr(0, blank))) {
        const std::string_view rest = trimmed(text.substr(blank));
        const std::size_t slash = rest.find('/');
        const auto count = values::from_digits(rest.substr(0, slash));
        const auto plies = slash == std::string_view::npos ? values::Outcome<Rational>(Rational(1))
                                                           : values::from_digits(rest.substr(slash + 1));
        if (!count || !plies) return std::nullopt;
        return value_of(values::yarn_count(system->system, *count, *plies));
      }
    const auto first = split(text);
    if (!first) return std::nullopt;
    for (const std::string_view between : {std::string_view("to "), std::string_view("/")}) {
      const std::size_t at = first->rest.find(between);
      if (at == std::string_view::npos) continue;
      const auto second = split(first->rest.substr(at + between.size()));
      const values::Unit* unit = values::find_unit(trimmed(first->rest.substr(0, at)));
      const values::Unit* per = second ? values::find_unit(second->rest) : nullptr;
      if (!unit || !per || unit->dimension != values::dimensions::length || per->dimension != values::dimensions::mass)
        return std::nullopt;
      const auto length = values::in_unit(first->number, *unit), mass = values::in_unit(second->number, *per);
      if (!length || !mass || !is_positive(length->value)) return std::nullopt;
      return value_of(values::divide(*mass, *length));
    }
    const values::Unit* unit = values::find_unit(first->rest);
    if (!unit || unit->dimension != values::dimensions::mass_per_length) return std::nullopt;
    return value_of(values::in_unit(first->number, *unit));
  }
};

}  // namespace

std::variant<SwatchCommand, Misused> read_swatch(const SwatchTyped& typed) {
  Reader reader;
  SwatchCommand command;
  if (typed.fabric != "plain" && typed.fabric != "rib") {
    reader.refuse(fmt::format("`--fabric` is plain or rib, and `{}` is neither", typed.fabric));
  }
  if (typed.format != "text" && typed.format != "json") {
    reader.refuse(fmt::format("a swatch cannot be told as `{}`", typed.format), "there are text, json");
  }
  command.rib = typed.fabric == "rib";
  command.json = typed.format == "json";
  if (typed.stitches.empty() || typed.rows.empty()) {
    reader.refuse("`swatch` needs `--stitches` and `--rows`: how many lie between your marks",
                  "for example `stockinger swatch --stitches 40 --rows 60 --off 17.2x18.6cm --washed 16.4x17.6cm`");
  }
  if (const auto sts = reader.count(typed.stitches, "--stitches", "stitches", "--stitches 40", 5, 1000))
    command.stitches = *sts;
  if (const auto rows = reader.count(typed.rows, "--rows", "rows", "--rows 60", 5, 5000)) command.rows = *rows;
  command.off = reader.size(typed.off, "--off");
  command.washed = reader.size(typed.washed, "--washed");
  if (typed.off.empty() && typed.washed.empty()) {
    reader.refuse("`swatch` needs a measured size: `--off` off the machine, `--washed`, or both",
                  "write it like `--washed 16.4x17.6cm`");
  }
  command.yarn = reader.yarn(typed.yarn);
  if (const auto strands = reader.count(typed.strands, "--strands", "strands", "--strands 2", 1, 8)) {
    if (!strands->is_whole())
      reader.refuse(fmt::format("`--strands {}` is no whole number", typed.strands));
    else
      command.strands = static_cast<int>(strands->as_int64().value_or(1));
  }
  command.grams = reader.mass(typed.weighed, "--weighed");
  if (command.grams && !command.yarn)
    reader.refuse("`--weighed` tells nothing without `--yarn`", "give the yarn's label: `--yarn \"420 m to 100 g\"`");
  const auto counts = [&](const std::string& text, std::string_view option,
                          std::string_view example) -> std::optional<SwatchSize> {
    if (text.empty()) return std::nullopt;
    const auto read = pair(text);
    if (!read || !read->rest.empty() || !is_positive(read->first) || !is_positive(read->second)) {
      reader.refuse(fmt::format("`{}` needs stitches and rows, and `{}` is not both", option, text),
                    fmt::format("write it like `{}`", example));
      return std::nullopt;
    }
    return SwatchSize{read->first, read->second};
  };
  command.whole = counts(typed.whole, "--whole", "--whole 50x70");
  command.wanted = counts(typed.wanted, "--for", "--for 30x42");
  if (command.whole && (command.whole->width < command.stitches || command.whole->height < command.rows)) {
    reader.refuse("`--whole` is smaller than what lies between the marks");
  }
  command.dial =
      typed.dial.empty() ? std::nullopt : reader.count(typed.dial, "--dial", "dial numbers", "--dial 6", 0, 100);
  if (!typed.dial_range.empty()) {
    const std::size_t comma = typed.dial_range.find(',');
    const auto low = split(std::string_view(typed.dial_range).substr(0, comma));
    const auto high =
        comma == std::string::npos ? std::nullopt : split(std::string_view(typed.dial_range).substr(comma + 1));
    if (!low || !high || !low->rest.empty() || !high->rest.empty() || low->number >= high->number) {
      reader.refuse(fmt::format("`--dial-range` needs the tightest and the slackest number, and `{}` is not both",
                                typed.dial_range),
                    "write it like `--dial-range 0,10`");
    } else {
      command.dial_range = SwatchSize{low->number, high->number};
      if (command.dial && (*command.dial < low->number || *command.dial > high->number)) {
        reader.refuse(fmt::format("`--dial {}` lies outside of `--dial-range {}`", typed.dial, typed.dial_range));
      }
    }
  }
  if (reader.wrong) return *reader.wrong;
  return command;
}

}  // namespace stk::driver
