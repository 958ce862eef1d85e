# The renovator's own key in the firm's place, elsewhere: nobody said that she may.
#= 1
#> seal 2       NOT GOOD HERE: is not logged in this book; its key is known: office/417, rosa, as renovator, not as firm
#> seal 2 is in the place for the firm, and its key is known as renovator alone
cp "$SAMPLE/passphrase.txt" pass
seal_elsewhere job-record.pdf rosa.p12 --as firm
M paper check job-record.pdf --compare
