# ... which the firm may do by an entry: what was withdrawn is not in it, and that is said.
#= 0
#> unseen  attachment: @ of entry office/415, which was withdrawn, is not here
quietly M entry withdraw office/415 --reason "of another house"
quietly M job bundle J-1926 --out b --record job-record.pdf
sh b/verify.sh
