# The folder is empty, or another one stands in its place: nothing is written into it.
#= 3
#> of @ files or chains that stood here the last time none does
meet_first
rm -r share
mkdir share
meet demo
