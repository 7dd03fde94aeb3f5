#!/bin/sh
# `swatch`: what it tells of a good swatch, of doubtful ones, and how it refuses figures that cannot be.
. "$(dirname "$0")/support.sh"

# 40 sts on 16.4 cm are 24.39 to 10 cm, 60 rows on 17.6 cm 34.09 (by pencil); 16.4/17.2 is 4.65 % less.
run 0 swatch --stitches 40 --rows 60 --off 17.2x18.6cm --washed 16.4x17.6cm --yarn "300 m to 100 g"
out_has "washed             24.4   34.1        6.2    8.7"
out_has "Washing made it 4.7 % narrower, 5.4 % shorter and 9.8 % smaller in area."
out_has "333 tex"
out_has "sock fabric"
out_has "  gauge    24.4 sts, 34.1 rows to 10 cm"
out_has "Wool felts"
err_is_empty
# The line is one of the language.
{
  cat <<'SOURCE'
stockinger 1
pattern "Swatch" { by "Tidewrack Hosiery" }
edition mine {
  machine mid_gauge
  yarn main "sport wool", 300 m to 100 g
SOURCE
  grep "^  gauge" out
  cat <<'SOURCE'
}
piece swatch {
  cast on 24, e-wrap, carriage right
  knit 30 rows
  bind off all, by latch
}
finish {
  weave in ends
}
SOURCE
} >swatch.stk
run 0 check swatch.stk

# In inches and by the count: the same gauge.
run 0 swatch --stitches 40 --rows 60 --washed "16.4 x 17.6 cm" --format json
out_has '"rows_to_10_cm": 34.09'
out_has '"gauge_line": "gauge    24.4 sts, 34.1 rows to 10 cm"'
run 0 swatch --stitches 30 --rows 42 --washed 4x4in --yarn "Nm 8.4/2" --format json
out_has '"stitches_to_10_cm": 29.53'
out_has '"tex": 238.1'

run 0 swatch --stitches 40 --rows 60 --off 17.2x18.6cm
out_has "none yet: a gauge is of a washed swatch"
out_has "estimate"
run 0 swatch --stitches 40 --rows 60 --washed 16.4x17.6cm --for 26x36 --dial 6 --dial-range 0,10
out_has "a number tighter, from 6 to 5"
run 0 swatch --stitches 40 --rows 60 --washed 16.4x17.6cm --for 26x36 --dial 0 --dial-range 0,10
out_has "the dial has no tighter number than 0"
run 0 swatch --stitches 30 --rows 42 --washed 10x10cm --for 30.6x42.8 --dial 0 --dial-range 0,10
out_has "the dial has no tighter number than 0"
run 0 swatch --stitches 30 --rows 42 --washed 10x10cm --for 30.6x42.8 --dial 6
out_has "a mark tighter, from 6 towards 5"
run 0 swatch --stitches 40 --rows 60 --off 17.2x18.6cm --washed 13.2x14.6cm
out_has "felted"
run 0 swatch --stitches 40 --rows 60 --washed 20x12cm
out_has "are not those of plain fabric"
run 0 swatch --stitches 40 --rows 60 --washed 16.4x17.6cm --for 26x36 --yarn "300 m to 100 g"
out_has "At the pattern's gauge this yarn has a tightness of 11.6: sock fabric."
run 0 swatch --stitches 40 --rows 60 --washed 16.4x17.6cm --yarn 200tex
out_has "Too loose for a sock"
# 48 times 68 loops of 1.67 cm are 54.6 m, 18.2 g at 300 m to 100 g; twice that is two strands.
run 0 swatch --stitches 40 --rows 60 --washed 16.4x17.6cm --yarn 300m/100g --weighed 18.2g --whole 48x68
out_has "agree on the loop length"
run 0 swatch --stitches 40 --rows 60 --washed 16.4x17.6cm --yarn 300m/100g --weighed 36.4g --whole 48x68
out_has "fit 2 strands"
run 0 swatch --stitches 40 --rows 60 --washed 12x14cm --fabric rib
out_has "Nothing is derived from a rib"
out_has "gauge    rib 33.3 sts, 42.9 rows to 10 cm"

# What cannot be.
run 2 swatch
err_has '`swatch` needs `--stitches` and `--rows`'
run 2 swatch --stitches 40 --rows 60
err_has '`swatch` needs a measured size'
run 2 swatch --stitches 40 --rows 60 --off 17.2x18.6cm --washed 3.4x17.6cm
err_has "does not shrink like that (80 % in width"
run 2 swatch --stitches 40 --rows 60 --off 17.2x18.6cm --washed 26x17.6cm
err_has "does not grow like that"
run 2 swatch --stitches 0 --rows 60 --washed 16x17cm
err_has '`--stitches 0` cannot be'
run 2 swatch --stitches 40 --rows -4 --washed 16x17cm
err_has '`--rows` needs a number of rows'
run 2 swatch --stitches 40 --rows 60 --washed 0x17cm
err_has "cannot be: a swatch measures"
run 2 swatch --stitches 40 --rows 60 --washed 16x17
err_has "does not say its unit"
run 2 swatch --stitches 40 --rows 60 --washed 16x17furlong
err_has '`furlong` in'
run 2 swatch --stitches 40 --rows 60 --washed 160x17cm
err_has "no machine knits such a gauge"
run 2 swatch --stitches 40 --rows 60 --washed 16x17cm --yarn 12apples
err_has '`--yarn` needs a count or a label'
run 2 swatch --stitches 40 --rows 60 --washed 16x17cm --yarn "0 m to 100 g"
err_has '`--yarn` needs a count or a label'
run 2 swatch --stitches 40 --rows 60 --washed 16x17cm --yarn 238tex --strands 0
err_has '`--strands 0` cannot be'
run 2 swatch --stitches 40 --rows 60 --washed 16x17cm --weighed 12g
err_has '`--weighed` tells nothing without `--yarn`'
run 2 swatch --stitches 40 --rows 60 --washed 16x17cm --yarn 238tex --weighed 12cm
err_has '`--weighed` needs a mass'
run 2 swatch --stitches 40 --rows 60 --washed 16x17cm --dial 12 --dial-range 0,10
err_has 'lies outside of'
run 2 swatch --stitches 40 --rows 60 --washed 16x17cm --stiches 4
err_has '`--stitches` is near'
run 2 swatch --stitches 40 --rows 60 --washed 16x17cm --fabric lace
err_has '`--fabric` is plain or rib'
finish
