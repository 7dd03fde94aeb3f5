// Abbreviations: those of the trade, explained where a text uses them and nowhere else.
#include <array>
#include <string_view>

#include "compiler/document/matter.hpp"
#include "compiler/document/words.hpp"

namespace stk::document {

namespace {

struct Explained {
  std::string_view word, meaning;
  std::string_view where = {};  // the words that must stand in the text, where the word alone has other meanings too
};
constexpr std::array explained{
    Explained{"RC", "row counter; RC 000 standing alone: set it to 000"},
    Explained{"COR", "carriage on the right"},
    Explained{"COL", "carriage on the left"},
    Explained{"MT", "main tension: the dial number that gives the gauge; MT−2 is two numbers tighter"},
    Explained{"WP", "working position: the needle knits"},
    Explained{"NWP", "non-working position: the needle is out of work"},
    Explained{"UWP", "upper working position: a needle from HP that knits in the next row"},
    Explained{"HP", "holding position: the needle keeps its st and does not knit"},
    Explained{"st", "stitch; sts: stitches"},
    Explained{"rounds", "a round is 2 rows of the carriage, one on each bed; RC counts them both", "for rounds"},
    Explained{"set to tuck", "these needles take the yarn beside their st and do not knit it off; set them as your machine does it"},
    Explained{"set to slip", "these needles are passed over and keep their st; set them as your machine does it"},
    Explained{"rest at the edge", "twist the yarn that rests with the yarn that knits whenever that one comes to its edge, so that no "
                      "long loop lies along it; while the needles there are held, let it hang"},
    Explained{"wrap",
              "pass the yarn under the needle in HP and back over it, close to the bed, before the carriage returns"},
};

bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-';
}

void append(std::string& text, const Paragraph& paragraph) {
  text += paragraph.lead + " ";
  for (const Sentence& sentence : paragraph.sentences) text += sentence.text + " ";
}

}  // namespace

std::string text_of(const std::vector<Block>& blocks) {
  std::string text;
  for (const Block& block : blocks) {
    if (const auto* paragraph = std::get_if<Paragraph>(&block)) append(text, *paragraph);
    if (const auto* remark = std::get_if<Remark>(&block)) append(text, remark->text);
    if (const auto* heading = std::get_if<Heading>(&block)) text += heading->text + " " + heading->aside + " ";
    if (const auto* list = std::get_if<List>(&block)) {
      for (const Paragraph& item : list->items) append(text, item);
    }
    if (const auto* table = std::get_if<Table>(&block)) {
      for (const std::string& column : table->columns) text += column + " ";
      for (const auto& row : table->rows) {
        for (const std::string& cell : row) text += cell + " ";
      }
    }
  }
  return text;
}

bool has_word(const std::string& text, std::string_view word) {
  for (std::size_t at = text.find(word); at != std::string::npos; at = text.find(word, at + 1)) {
    const std::size_t end = at + word.size();
    if ((at == 0 || !is_letter(text[at - 1])) && (end == text.size() || !is_letter(text[end]))) return true;
  }
  return false;
}

std::vector<Definition> abbreviations(const Printing& printing, const std::vector<Block>& blocks) {
  const std::string text = text_of(blocks);
  std::vector<Definition> found;
  for (const Explained& entry : explained) {
    const std::string word(entry.word);
    if (text.find(entry.where) == std::string::npos) continue;
    if (has_word(text, word) || has_word(text, word + "s") || has_word(text, capitalised(word))) {
      found.push_back({std::string(entry.word), std::string(entry.meaning)});
    }
  }
  std::vector<Definition> yarns;
  for (const knit::YarnFacts& yarn : printing.edition.yarns) {
    const auto word = printing.yarns.find(yarn.name);
    if (word == printing.yarns.end() || !has_word(text, word->second.code)) continue;
    yarns.push_back({word->second.code, word->second.meaning});
  }
  found.insert(found.end(), yarns.begin(), yarns.end());
  return found;
}

}  // namespace stk::document
