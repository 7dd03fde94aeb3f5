" Asks Vim for the colour of every token of one source. In g:source the source, in g:tokens what token_classes printed, in
" g:report where failures go; run by highlighting_test.sh.
let s:failures = []
execute 'edit ' . fnameescape(g:source)
syntax on
set filetype=stockinger
" Which groups fit which class. A name may be spelled like a word and then has the word's colour.
let s:words = ['Control', 'Part', 'Step', 'Operator', 'Word', 'Unit', 'Field']
let s:fits = {
      \ 'word': s:words,
      \ 'unit': ['Unit', 'GluedUnit'],
      \ 'number': ['Number'],
      \ 'needle': ['Needle'],
      \ 'text': ['Text', 'Escape'],
      \ 'picture': ['Picture', 'Mark'],
      \ 'name': s:words + ['Call', 'Name', 'Key', 'Value', ''],
      \ 'sign': ['', 'Brace', 'Key', 'Value'],
      \ }
for s:row in readfile(g:tokens)
  let [s:line, s:column, s:utf16, s:length, s:class; s:rest] = split(s:row, "\t", 1)
  let s:group = substitute(synIDattr(synID(s:line, s:column, 1), 'name'), '^stockinger', '', '')
  let s:text = join(s:rest, "\t")
  if index(s:fits[s:class], s:group) < 0
    call add(s:failures, printf('%s:%d:%d: %s "%s" is coloured as "%s"', g:source, s:line, s:column, s:class, s:text, s:group))
  endif
  " A name that is no word of the language must not look like one.
  if s:class ==# 'name' && index(s:words[:-2], s:group) >= 0 && index(g:words, s:text) < 0
    call add(s:failures, printf('%s:%d:%d: the name "%s" is coloured as a word', g:source, s:line, s:column, s:text))
  endif
endfor
for s:number in range(1, line('$'))
  let s:hash = match(getline(s:number), '^\s*\zs#')
  if s:hash >= 0 && synIDattr(synID(s:number, s:hash + 1, 1), 'name') !=# 'stockingerComment'
    call add(s:failures, printf('%s:%d: a comment is not coloured as one', g:source, s:number))
  endif
endfor
call writefile(s:failures, g:report)
qall!
