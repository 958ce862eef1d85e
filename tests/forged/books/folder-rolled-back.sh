# The folder is put back to what it was last week. Who met there since then says so, and writes
# there again what is gone.
#= 1
#> gone @it stood here at an earlier time and is gone
#> handed out @truck/2 to 2
meet_first
cp -rp share before
truck_logs olga
quietly meet truck
quietly meet demo
rm -r share
mv before share
meet demo
