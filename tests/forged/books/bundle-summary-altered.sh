# The summary of a bundle is under no seal: that is said, whether somebody changed it or not.
#= 0
#> note    summary.txt and attachments.txt are under no seal: whoever can write here can change them
#> Nothing that the seal and the hashes cover was changed.
quietly M job bundle J-1926 --out b --record job-record.pdf
sed -i 's/ NO$/ YES/' b/summary.txt
manifest b
sh b/verify.sh
