autocmd BufNewFile,BufRead *.stk setfiletype stockinger
