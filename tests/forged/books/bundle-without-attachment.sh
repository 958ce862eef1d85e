# Somebody takes a photo out of a bundle, with its line in the manifest.
#= 1
#> FAILED  attachment: @ of entry office/415 is not here
quietly M job bundle J-1926 --out b --record job-record.pdf
rm b/attachments/7833d88aa0318a00e61c79efdc273dfe75003be6167a606e86a41c6508bda30f.png
manifest b
sh b/verify.sh
