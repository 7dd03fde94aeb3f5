" Highlighting for Stockinger sock patterns. tests/editors keeps it in step with the grammar.
if exists('b:current_syntax')
  finish
endif

" Words may be names too (let half = ...): they are coloured as words wherever they stand, but not behind a dot.
syn iskeyword @,48-57,_
syn keyword stockingerControl else for if only repeat then times
syn keyword stockingerPart caution chart ease edition expect finish finished floats gauge leaves let library machine measures
syn keyword stockingerPart needs note pattern piece say says section setting sizes stockinger technique use work yarn
syn keyword stockingerStep bind bring carriage cast close counter cross cut decrease fill gather graft hang hold increase knit
syn keyword stockingerStep latch lift mark move open pick pitch put release remove rest scrap seam set slip take tension thread tuck
syn keyword stockingerStep weave wrap
syn keyword stockingerOperator and as at by each except from is mod not of on or over rounded to with
syn keyword stockingerWord across along any ball balls bed beds beside between both centre centred closed comb cord corners count crochet
syn keyword stockingerWord down edge empties empty end ending ends even every eyelet far filled first flat fold folded full
syn keyword stockingerWord half hand held holder in inside into inward joining knits knitted last left loops loose main make margin mattress
syn keyword stockingerWord middle minus mirrored most multiple nearest nothing odd off only onto other out outside outward
syn keyword stockingerWord parity placed plus purl reversed right second seen side step tail the through up upper waste ways
syn keyword stockingerWord weights work zigzag
syn keyword stockingerUnit cm ft g in kg lb m mm needle needles oz round rounds row rows st sts tex yd
syn match stockingerWord /\<MT\>/
syn match stockingerWord /\<e-wrap\>/
syn match stockingerUnit /%/

syn match stockingerName /\.\@1<=\h\w*/
syn match stockingerCall /\<\h\w*(\@=/
syn match stockingerNeedle /\<[LR]\d\+\>/
syn match stockingerNumber /\w\@1<!\d\+\%([.\/]\d\+\)\{0,2}\%(st\>\|nd\>\|rd\>\|th\>\)\?[¼½¾⅐-⅞]\?/ nextgroup=stockingerGluedUnit
syn match stockingerNumber /[¼½¾⅐-⅞]/
syn match stockingerGluedUnit /\%(mm\|cm\|m\|in\|st\|sts\|row\|rows\|round\|rounds\|needle\|needles\|g\|kg\|tex\|ft\|yd\|oz\|lb\)\>/ contained
syn match stockingerPicture /\[[^\]"{}]*\]/
" A line of a pattern, a library or a machine, and a row of a table: its first word.
syn match stockingerField /\%(^\s*\|{\s*\)\@<=\h\w*\%(\s\+\%("\|[-0-9½]\)\|\s*\%(#.*\)\?$\)\@=/ contains=stockingerControl,stockingerPart,stockingerStep,stockingerOperator,stockingerWord,stockingerUnit
" The key of a chart: a mark and its yarn, once or more.
syn match stockingerKey /^\s*\%([^][:space:][{}"#]\s\+\h\w*\s*\)\+$/ contains=stockingerMark
syn match stockingerMark /[^][:space:][{}"#]\s\@=/ contained

syn match stockingerEscape /\\./ contained
syn region stockingerValue matchgroup=stockingerBrace start=/{/ end=/}/ end=/"\@=/ end=/$/ contained oneline contains=stockingerControl,stockingerPart,stockingerStep,stockingerOperator,stockingerWord,stockingerUnit,stockingerCall,stockingerNeedle,stockingerNumber,stockingerName
syn region stockingerText start=/"/ skip=/\\./ end=/"/ end=/$/ contains=stockingerEscape,stockingerValue
syn match stockingerComment /#.*$/ contains=@Spell

hi def link stockingerControl Conditional
hi def link stockingerPart Structure
hi def link stockingerStep Statement
hi def link stockingerOperator Operator
hi def link stockingerWord Keyword
hi def link stockingerUnit Type
hi def link stockingerGluedUnit Type
hi def link stockingerCall Function
hi def link stockingerNeedle Constant
hi def link stockingerNumber Number
hi def link stockingerPicture Special
hi def link stockingerMark Special
hi def link stockingerField Identifier
hi def link stockingerEscape SpecialChar
hi def link stockingerBrace Delimiter
hi def link stockingerText String
hi def link stockingerComment Comment

let b:current_syntax = 'stockinger'
