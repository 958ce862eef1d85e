# A phone's file names a key for its device, which nothing in the file is signed by.
#= 3
#> a.entries, entry phone/1: it names the key by which its device signs
phone a.entries J-1926/- phone rosa device_key '{"device":"phone","key":"0000000000000000000000000000000000000000000000000000000000000007"}'
M entry import a.entries
