// Asks the TextMate engine of editors (vscode-textmate with its regular expressions in WebAssembly) for the scope of every
// token. Arguments: the grammar, the file of words, then for each source its path and the file that token_classes printed.
const fs = require('fs');
const path = require('path');
const textmate = require('vscode-textmate');
const oniguruma = require('vscode-oniguruma');

const [grammarPath, wordsPath, ...pairs] = process.argv.slice(2);
const words = new Set(fs.readFileSync(wordsPath, 'utf8').split('\n'));
const fits = {
  word: /keyword|support/,
  unit: /keyword\.other\.unit/,
  number: /constant\.numeric/,
  needle: /constant\.other\.needle/,
  text: /string\.quoted/,
  picture: /constant\.other\.picture/,
  name: /^(?!.*(comment|constant|string\.quoted(?!.*meta\.interpolation)))/,
  sign: /^(?!.*(comment|constant\.numeric))/,
};

async function main() {
  const wasm = fs.readFileSync(path.join(path.dirname(require.resolve('vscode-oniguruma')), 'onig.wasm')).buffer;
  await oniguruma.loadWASM(wasm);
  const registry = new textmate.Registry({
    onigLib: Promise.resolve({
      createOnigScanner: (patterns) => new oniguruma.OnigScanner(patterns),
      createOnigString: (text) => new oniguruma.OnigString(text),
    }),
    loadGrammar: async () => textmate.parseRawGrammar(fs.readFileSync(grammarPath, 'utf8'), grammarPath),
  });
  const grammar = await registry.loadGrammar('source.stockinger');
  let failures = 0;
  let compared = 0;
  for (let i = 0; i < pairs.length; i += 2) {
    const lines = fs.readFileSync(pairs[i], 'utf8').split('\n');
    let state = textmate.INITIAL;
    const scopes = lines.map((line) => {
      const result = grammar.tokenizeLine(line, state);
      state = result.ruleStack;
      return result.tokens;
    });
    const fail = (line, column, text) => {
      failures += 1;
      console.error(`${pairs[i]}:${line}:${column}: ${text}`);
    };
    for (const row of fs.readFileSync(pairs[i + 1], 'utf8').split('\n')) {
      if (row === '') continue;
      const [line, , column, , kind, ...rest] = row.split('\t');
      const at = Number(column) - 1;
      const token = scopes[Number(line) - 1].find((t) => t.startIndex <= at && at < t.endIndex);
      const scope = token ? token.scopes.join(' ') : '';
      const text = rest.join('\t');
      compared += 1;
      if (!fits[kind].test(scope)) fail(line, column, `${kind} "${text}" is coloured as ${scope}`);
      if (kind === 'name' && /keyword/.test(scope) && !words.has(text)) fail(line, column, `the name "${text}" is coloured as a word`);
    }
    lines.forEach((line, index) => {
      if (/^\s*#/.test(line) && !scopes[index].some((t) => t.scopes.join(' ').includes('comment'))) fail(index + 1, 1, 'a comment is not coloured as one');
    });
  }
  console.log(`${compared} tokens compared, ${failures} differ`);
  process.exit(failures === 0 && compared > 1000 ? 0 : 1);
}
main();
