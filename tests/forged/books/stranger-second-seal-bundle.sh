# ... and the paper offered for the inspector's folder.
#= 3
#> no entry of job J-1926 says that this file was sealed
forge_key eve.p12 "Muster Sash & Door (invented)" ""
seal_elsewhere job-record.pdf eve.p12 --as firm
M job bundle J-1926 --out folder --record job-record.pdf
