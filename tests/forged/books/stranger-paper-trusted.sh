# No forgery: who knows whose key it is says so in the book, with the fingerprint.
#= 0
#> seal 1       is not logged in this book; its key is known: office/417, rosa, as renovator
away_paper
M paper check away.pdf --compare
