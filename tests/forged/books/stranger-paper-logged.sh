# The same where the book has logged the true seals, and knows the renovator's own key.
#= 1
#> seal 1       NOT GOOD HERE: is not logged in this book, which does not know its key
#> its name is on another key, too
painted_paper
M paper check painted.pdf --compare
