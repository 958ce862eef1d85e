# ... held against the book with the others.
#= 1
#> agrees      job-record.pdf
#> contradicts painted.pdf: seal 1 is by a key that this book does not know
painted_paper
M book check --against job-record.pdf painted.pdf
