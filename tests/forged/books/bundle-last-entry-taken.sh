# ... or the last entry, which no seal is over, together with its hash: the folder says where the
# chain ended.
#= 0
#> unseen  heads.txt: it ends in entry office/418, which is not here: it is of another job, or was taken out
#> Nothing that could be checked here was changed.
quietly M job bundle J-1926 --out b --record job-record.pdf
sed -i '$d' b/entries.jsonl b/entries.sha256
manifest b
sh b/verify.sh
