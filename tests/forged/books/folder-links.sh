# A link to another file, a pipe and a folder stand in the place of files: none is opened.
#= 0
#> not of ours  truck/pipe
#> not of ours  truck/link
meet_first
truck_logs olga
quietly meet truck
mkfifo share/truck/pipe
ln -s /etc/passwd share/truck/link
mkdir share/truck/folder
ln -s /etc share/elsewhere
quietly meet truck
meet demo
