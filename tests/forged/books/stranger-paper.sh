# The book has logged no seal of the job. Somebody prints its record, paints over the words and
# seals that by a key in the renovator's name.
#= 1
#> seal 1       NOT GOOD HERE: is not logged in this book, which does not know its key
#> seal 1 is by a key that this book does not know
#> mistfold key trust --fingerprint
rewrite_ours drop 2 # as it was before the record was sealed
painted_paper
M paper check painted.pdf --compare
