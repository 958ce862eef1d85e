# ... and the paper offered for the inspector's folder.
#= 3
#> no entry of job J-1926 says that this file was sealed
seal_as_firm job-record.pdf
M job bundle J-1926 --out folder --record job-record.pdf
