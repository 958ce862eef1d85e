# Rosa, whose seal the book knows, signs that the office's key is the office's.
#= 0
#> vouched for by Rosa Muestra
sign
quietly M book vouch office --key rosa.p12 --passphrase-fd 3 3<$SAMPLE/passphrase.txt
M book check
